"""A run capacitor from its current and the volts across it."""

import math


def microfarads(amps: float, volts: float, hertz: float) -> float:
    """Return the capacitance [uF] that passes a current [A] at volts across the capacitor [V] and a frequency [Hz].

    Source: reactance, C = I / (2 pi f V); 2652.6 I/V at 60 Hz, 3183.1 I/V at 50 Hz.
    """
    return 1.0e6 * amps / (2.0 * math.pi * hertz * volts)

"""Insulation resistance and temperature."""

import math


def factor_to_40c(winding_c: float) -> float:
    """Return the factor that takes an insulation resistance at a winding temperature [C] to 40 C: halving per 10 K.

    Source: IEEE 43-2013, 6.3 (general form, R40 = RT * 0.5^((40 - T)/10)).
    """
    return float(0.5 ** ((40.0 - winding_c) / 10.0))


def factor_to_40c_thermosetting(winding_c: float) -> float:
    """Return the factor to 40 C for modern thermosetting insulation, winding at 10 to 85 C.

    Source: IEEE 43-2013, 6.3; from memory (70 C gives 3.26, 80 C gives 4.62).
    """
    slope = -4230.0 if winding_c > 40.0 else -1245.0
    return math.exp(slope * (1.0 / (winding_c + 273.0) - 1.0 / 313.0))

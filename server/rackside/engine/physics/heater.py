"""A resistance heater off its plate."""


def ohms(power: float, rated_volts: float) -> float:
    """Return the resistance [ohm] of a heater of a power [W] at its rated volts [V]: V^2 / W."""
    return rated_volts * rated_volts / power


def expected_amps(power: float, rated_volts: float, volts: float) -> float:
    """Return the current [A] of the heater at the volts it has: W V / Vrated^2."""
    return volts / ohms(power, rated_volts)

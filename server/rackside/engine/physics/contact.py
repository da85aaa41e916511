"""Contacts, fuses and joints that carry current: resistance, heat, and the drop at another current."""

# Investigate a pole that exceeds the lowest by more than half. Source: ANSI/NETA ATS/MTS, 7.6.1.1.
SPREAD = 1.5


def milliohms(volts: float, amps: float) -> float:
    """Return the resistance [mohm] of a contact from its drop [V] and its current [A, above zero]."""
    return 1000.0 * volts / amps


def watts(resistance_mohm: float, amps: float) -> float:
    """Return the heat [W] in a contact of a resistance [mohm] at a current [A]: I squared R."""
    return resistance_mohm / 1000.0 * amps * amps


def drop_at(resistance_mohm: float, amps: float) -> float:
    """Return the drop [mV] of a contact of a resistance [mohm] at a current [A]."""
    return resistance_mohm * amps

"""Locked-rotor current from a motor's code letter."""

import math

# kVA per horsepower with locked rotor, from (inclusive) to (the next letter's). Source: NEC (NFPA 70) Table 430.7(B).
_CODE_KVA = (
    ("A", 0.0, 3.14),
    ("B", 3.15, 3.54),
    ("C", 3.55, 3.99),
    ("D", 4.0, 4.49),
    ("E", 4.5, 4.99),
    ("F", 5.0, 5.59),
    ("G", 5.6, 6.29),
    ("H", 6.3, 7.09),
    ("J", 7.1, 7.99),
    ("K", 8.0, 8.99),
    ("L", 9.0, 9.99),
    ("M", 10.0, 11.19),
    ("N", 11.2, 12.49),
    ("P", 12.5, 13.99),
    ("R", 14.0, 15.99),
    ("S", 16.0, 17.99),
    ("T", 18.0, 19.99),
    ("U", 20.0, 22.39),
)


def kva_per_horsepower(letter: str) -> "tuple[float, float] | None":
    """Return the lowest and highest locked-rotor kVA/hp of a code letter, None for one without an upper end (V)."""
    for name, low, high in _CODE_KVA:
        if name == letter:
            return low, high
    return None


def locked_rotor_amps(kva_per_hp: float, horsepower: float, volts: float) -> float:
    """Return the locked-rotor current [A] of a three-phase motor at its rated volts: kVA/hp x hp x 1000 / (sqrt(3) V).

    It is in proportion to the volts; torque to their square. Source: NEC (NFPA 70) 430.7(B); NEMA MG 1, 12.44.2.
    """
    return kva_per_hp * horsepower * 1000.0 / (math.sqrt(3.0) * volts)

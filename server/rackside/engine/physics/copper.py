"""Copper windings: resistance against temperature, and the phases behind three readings."""

# Temperature [-C] at which copper's resistance would reach zero along its straight line.
# Source: IEEE 112 and UL 1004 (234.5); IEC 60034-1 uses 235.
COPPER_ZERO_C = 234.5
PLATE_C = 25.0


def at_temperature(ohms: float, from_c: float, to_c: float) -> float:
    """Return what a copper resistance [any unit] read at one winding temperature [C] would be at another [C].

    R2 = R1 (234.5 + t2) / (234.5 + t1). Both temperatures above -234.5 C; the winding's own, not the air's.
    Source: IEEE 112 (copper constant 234.5).
    """
    return ohms * (COPPER_ZERO_C + to_c) / (COPPER_ZERO_C + from_c)


def temperature_from_resistance(known_ohms: float, known_c: float, ohms: float) -> float:
    """Return the winding temperature [C] at which copper of a known resistance and temperature [C] reads `ohms`.

    t2 = (R2 / R1) (234.5 + t1) - 234.5. Source: rise by resistance, IEC 60034-1, with the constant of IEEE 112.
    """
    return ohms / known_ohms * (COPPER_ZERO_C + known_c) - COPPER_ZERO_C


def wye_phases(ab: float, bc: float, ca: float) -> "tuple[float, float, float]":
    """Return the three phase resistances of a wye from its line-to-line readings [any unit].

    Ra = (Rab + Rca - Rbc) / 2 and so on round. Source: circuit theory (Rab = Ra + Rb).
    """
    return (ab + ca - bc) / 2.0, (ab + bc - ca) / 2.0, (bc + ca - ab) / 2.0


def delta_phases(ab: float, bc: float, ca: float) -> "tuple[float, float, float] | None":
    """Return the phases A-B, B-C, C-A of a delta from its line-to-line readings, None when no delta gives them.

    With the equivalent wye a, b, c: Rab = (ab + bc + ca) / c and so on round. Source: circuit theory (wye to delta).
    """
    a, b, c = wye_phases(ab, bc, ca)
    if a <= 0 or b <= 0 or c <= 0:
        return None
    pairs = a * b + b * c + c * a
    return pairs / c, pairs / a, pairs / b

"""Absolute pressures and their ratio."""


def compression_ratio(discharge_psia: float, suction_psia: float) -> float:
    """Return absolute discharge over absolute suction pressure; suction above 0.

    Source: definition; handbook, formula table (220 and 11 psig at 14.7 psi: 9.1).
    """
    return discharge_psia / suction_psia


def ratio_sensitivities(discharge_psia: float, suction_psia: float) -> "tuple[float, float]":
    """Return d ratio / d discharge and d ratio / d suction [1 per psi]."""
    return 1.0 / suction_psia, -discharge_psia / (suction_psia * suction_psia)

"""What a reading can't tell: standard uncertainties and how they combine.

Source: JCGM 100:2008 (GUM), 4.3.7 (a limit without a distribution is rectangular, a/sqrt(3)), F.2.2.1 (digital
resolution r: r/sqrt(12)), 5.2 (what is common to several readings adds before it is squared); from memory.
"""

import math

COVERAGE = 2.0


class Doubt:
    """Standard uncertainty of one reading, split by what it shares with its neighbours.

    own: independent part, in the reading's base unit.
    shared: relative standard uncertainty common to all readings of one `group` (a meter on one range).
    """

    def __init__(self, own: float, shared: float, group: str) -> None:
        self.own = own
        self.shared = shared
        self.group = group


NO_DOUBT = Doubt(0.0, 0.0, "")


def digit_doubt(step: float) -> float:
    """Return the standard uncertainty of reading to a step (same unit)."""
    return step / math.sqrt(12.0)


def limit_doubt(limit: float) -> float:
    """Return the standard uncertainty of a stated limit of error (same unit)."""
    return limit / math.sqrt(3.0)


def combined(parts: "list[tuple[float, float, Doubt]]") -> float:
    """Return the standard uncertainty of a result from (sensitivity, value, doubt) of its inputs."""
    square = 0.0
    groups: "dict[str, float]" = {}
    for sensitivity, value, doubt in parts:
        own = sensitivity * doubt.own
        square += own * own
        if doubt.shared > 0:
            groups[doubt.group] = groups.get(doubt.group, 0.0) + sensitivity * value * doubt.shared
    for group in sorted(groups):
        square += groups[group] * groups[group]
    return math.sqrt(square)


def expanded(parts: "list[tuple[float, float, Doubt]]") -> float:
    """Return the expanded uncertainty, coverage factor k = 2."""
    return COVERAGE * combined(parts)

"""Which single winding fault would show this pattern of three resistances."""

# Legs nearer to each other than this share of the gap to the third count as alike. Source: common practice, no source.
ALIKE_SHARE = 0.25


def pattern(ohms: "list[float]", uncertainty_percent: float, sound: "float | None" = None) -> str:
    """Return the pattern of three pair resistances [any unit], "" when they are alike within the uncertainty [% of
    mean].

    two_low: one pair stands high, two low (wye: a shorted phase). two_high: one pair low, two high (wye: a weak phase
    joint).
    one_low_two_slightly: one low, the others low by a quarter as much (delta: a shorted phase); told apart from
    two_high only by what a sound pair would read here (`sound`, None when unknown). one_only: three that all differ,
    which no single winding fault gives.
    """
    ordered = sorted(ohms)
    low_gap, high_gap = ordered[1] - ordered[0], ordered[2] - ordered[1]
    mean = (ordered[0] + ordered[1] + ordered[2]) / 3.0
    if mean <= 0 or 100.0 * (ordered[2] - ordered[0]) / mean <= max(1.0, uncertainty_percent):
        return ""
    if high_gap > 0 and low_gap <= ALIKE_SHARE * high_gap:
        return "two_low"
    if low_gap > 0 and high_gap <= ALIKE_SHARE * low_gap:
        below, above = 0.0, 0.0
        if sound is not None:
            below, above = sound - ordered[0], ordered[2] - sound
        return "two_high" if above > abs(below) else "one_low_two_slightly"
    return "one_only"

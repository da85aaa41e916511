"""Balance of three legs."""

import math


def mean(values: "list[float]") -> float:
    """Return the arithmetic mean of at least one value, added in the order given."""
    total = 0.0
    for value in values:
        total += value
    return total / len(values)


def unbalance(values: "list[float]") -> "tuple[float, int]":
    """Return the largest deviation of any leg from the mean, in percent of the mean [%], and which leg it is.

    It is this departure, and not the spread from highest to lowest, that motor derating is drawn against: 462, 463 and
    455 V spread by 8 V but depart from their mean of 460 by 5, which is 1.09 %. The mean must be above zero.

    Args: values: three magnitudes of one kind (V, A or ohm).
    Source: NEMA MG 1, 2016, 14.36 (voltage unbalance in percent).
    """
    middle = mean(values)
    worst = 0
    for index in range(len(values)):
        if abs(values[index] - middle) > abs(values[worst] - middle):
            worst = index
    return 100.0 * abs(values[worst] - middle) / middle, worst


def unbalance_sensitivities(values: "list[float]", worst: int) -> "list[float]":
    """Return how much the unbalance [%] changes with each leg, while leg `worst` stays the worst.

    u = 100 s (v_w / m - 1), s the sign of the deviation: du/dv_i = 100 s (d_iw / m - v_w / (n m^2)).
    Source: JCGM 100:2008, 5.1.3 (sensitivity coefficients); derivative worked out here.
    """
    middle = mean(values)
    sign = 1.0 if values[worst] >= middle else -1.0
    shared = values[worst] / (len(values) * middle * middle)
    return [100.0 * sign * ((1.0 / middle if index == worst else 0.0) - shared) for index in range(len(values))]


def tied_legs(values: "list[float]") -> "list[int]":
    """Return the legs whose deviation from the mean equals the largest (two legs tie when the third sits on the
    mean)."""
    middle = mean(values)
    _, worst = unbalance(values)
    largest = abs(values[worst] - middle)
    return [index for index in range(len(values)) if largest - abs(values[index] - middle) <= 1e-9 * abs(middle)]


def negative_sequence(ab: float, bc: float, ca: float) -> "float | None":
    """Return the true unbalance |V2|/|V1| [%] from three line-to-line magnitudes, None when they make no triangle.

    b = (ab^4 + bc^4 + ca^4) / (ab^2 + bc^2 + ca^2)^2; u2 = sqrt((1 - r) / (1 + r)), r = sqrt(3 - 6 b).
    Source: IEC 61000-4-30, 5.7.1 (CIGRE formula); from memory.
    """
    squares = ab * ab + bc * bc + ca * ca
    if squares <= 0:
        return None
    beta = (ab**4 + bc**4 + ca**4) / (squares * squares)
    inside = 3.0 - 6.0 * beta
    if inside < 0:
        return None
    root = min(1.0, math.sqrt(inside))
    return 100.0 * math.sqrt((1.0 - root) / (1.0 + root))


# Derating against unbalance [%], read off NEMA MG 1 Figure 14-1 in an engineering reference; other readers differ by
# 0.02.
DERATING = (
    (1.0, 1.0),
    (1.5, 0.97),
    (2.0, 0.95),
    (2.5, 0.93),
    (3.0, 0.89),
    (3.5, 0.85),
    (4.0, 0.82),
    (4.5, 0.78),
    (5.0, 0.76),
)


def derating_factor(percent: float) -> "float | None":
    """Return the share of rated power a motor may carry at a voltage unbalance [%]; None above 5 %, where it must not
    run.

    Source: NEMA MG 1, 2016, 14.36 and Figure 14-1 (curve read by eye, straight lines between the points).
    """
    if percent <= DERATING[0][0]:
        return 1.0
    for index in range(1, len(DERATING)):
        left, right = DERATING[index - 1], DERATING[index]
        if percent <= right[0]:
            return left[1] + (right[1] - left[1]) * (percent - left[0]) / (right[0] - left[0])
    return None


def extra_heating(percent: float) -> float:
    """Return the approximate growth of the winding's temperature rise [%] at a voltage unbalance [%]: 2 u^2.

    Source: NEMA MG 1 background and DOE motor guides; from memory.
    """
    return 2.0 * percent * percent

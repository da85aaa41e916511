"""A plot as numbers to draw: the picture that stands where no script runs. Pure."""

import math
from collections.abc import Iterable, Sequence
from typing import Any, NamedTuple

WIDTH, HEIGHT = 640.0, 200.0
LEFT, RIGHT, TOP, BOTTOM = 52.0, 628.0, 14.0, 172.0
STEPS = (1, 2, 2.5, 5, 10)
Json = dict[str, Any]


class Scale(NamedTuple):
    low: float
    high: float
    start: float
    end: float

    def place(self, value: float) -> float:
        return round(self.start + (self.end - self.start) * (value - self.low) / (self.high - self.low), 1)


def drawing(lines: Sequence[Sequence[tuple[float, float]]], levels: Iterable[float] = ()) -> Json:
    """Return a plot of several lines of (x, y): their places, and where the ticks of y are."""
    spots = [spot for line in lines for spot in line]
    across = _scale([x for x, _ in spots], LEFT, RIGHT, 0.03)
    up = _scale([*(y for _, y in spots), *levels], BOTTOM, TOP, 0.08)
    ticks = [{"y": up.place(value), "said": f"{value:g}"} for value in _ticks(up)]
    places = [[(across.place(x), up.place(y)) for x, y in line] for line in lines]
    return {
        "lines": places,
        "ticks": ticks,
        "levels": [up.place(level) for level in levels],
        "across": across,
        "up": up,
    }


def _scale(values: list[float], start: float, end: float, margin: float) -> Scale:
    low, high = min(values, default=0.0), max(values, default=1.0)
    pad = (high - low) * margin or abs(high) * 0.1 or 1.0
    return Scale(low - pad, high + pad, start, end)


def _ticks(scale: Scale) -> list[float]:
    rough = (scale.high - scale.low) / 4
    unit = 10 ** math.floor(math.log10(rough))
    step = next(one for one in STEPS if one * unit >= rough) * unit
    first = math.ceil(scale.low / step)
    return [round((first + place) * step, 10) for place in range(int((scale.high - first * step) / step) + 1)]

"""A rating map drawn: each quantity over suction dew temperature, at three discharge ones. Pure."""

from typing import Any

from rackside.engine.physics.rating_map import RatingMap, envelope_of, rating_map
from rackside.office import chart
from rackside.office.ratings_form import QUANTITIES, written
from rackside.reports.text import number

Json = dict[str, Any]
UNITS = {"power": "W", "current": "A", "mass_flow": "", "capacity": ""}
# Where no envelope is published, by the map's own unit: what a cold store asks of a compressor.
USUAL: dict[str, tuple[tuple[float, float], tuple[float, float]]] = {
    "F": ((-40.0, 45.0), (70.0, 130.0)),
    "C": ((-40.0, 7.0), (21.0, 54.0)),
    "K": ((233.0, 280.0), (294.0, 327.0)),
}
STEPS = 12


def pictures(ratings: Json) -> list[Json]:
    """Return a picture for each quantity that has a map."""
    found = [(name, rating_map(ratings, name)) for name in QUANTITIES]
    unit = str(ratings.get("temperature_unit") or "F")
    return [_picture(name, held, unit) for name, held in found if held is not None]


def _picture(name: str, held: RatingMap, unit: str) -> Json:
    usual = USUAL.get(unit, USUAL["F"])
    (low, high), (cool, hot) = (own or common for own, common in zip(held.envelope, usual, strict=True))
    suctions = [low + (high - low) * step / STEPS for step in range(STEPS + 1)]
    discharges = (cool, (cool + hot) / 2, hot)
    lines = [[(suction, held.value(suction, discharge)) for suction in suctions] for discharge in discharges]
    drawn = chart.drawing(lines)
    return {
        "title": name.replace("_", " ").capitalize(),
        "unit": UNITS[name],
        "lines": [
            {"name": f"discharge {number(discharge)} °{unit}", "path": " ".join(f"{x},{y}" for x, y in places)}
            for discharge, places in zip(discharges, drawn["lines"], strict=True)
        ],
        "ticks": drawn["ticks"],
        "ends": [f"suction {number(low)} °{unit}", f"{number(high)} °{unit}"],
        "published": all(bounds is not None for bounds in held.envelope),
        "middle": number(lines[1][STEPS // 2][1]),
    }


def form_of(ratings: Json) -> dict[str, str]:
    """Return a map as the form one changes it in."""
    form = {"table": written(ratings), "order": ratings.get("order") or "ahri-540"}
    form["temperature_unit"] = ratings.get("temperature_unit") or "F"
    for side, bounds in zip(("suction", "discharge"), envelope_of(ratings.get("envelope") or {}), strict=True):
        low, high = bounds or ("", "")
        form |= {
            f"{side}_{end}": value if value == "" else f"{value:g}" for end, value in (("low", low), ("high", high))
        }
    return form

"""Do the windings have the ohms the maker publishes?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..leg import leg_json
from ..limits import CANNOT_TELL, COMMON_PRACTICE, FROM_MEMORY, PASS, WATCH, Limit, Source
from ..own_limits import limits_for
from ..physics.copper import (
    COPPER_ZERO_C,
    PLATE_C,
    at_temperature,
    delta_phases,
    temperature_from_resistance,
    wye_phases,
)
from ..physics.three_phase import mean
from ..reading import Reading
from ..uncertainty import COVERAGE, digit_doubt, expanded
from ..units import span_from_base, span_to_base
from ..winding_temperature import step_kelvin, winding_celsius

COPPER = Source("IEEE 112", "copper: R2 = R1 (234.5 + t2) / (234.5 + t1)", "2017", FROM_MEMORY)
PUBLISHED_OHMS = Source("within 5 % of the maker's published resistance", "", "", COMMON_PRACTICE)
LIMITS = (
    Limit(WATCH, 5.0, None, "%", PUBLISHED_OHMS),
    Limit(WATCH, None, -5.0, "%", PUBLISHED_OHMS),
)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the mean of the three pairs, taken to 25 C, against the published resistance."""
    if [leg for leg, quantity in reading.legs if quantity.bound]:
        return cannot_tell(CHECK.name, [reading], "winding_level.open")
    published = scene.machine.number("winding_resistance_25c")
    if published is None:
        return cannot_tell(CHECK.name, [reading], "winding_level.no_plate", {}, ("machine winding_resistance_25c",))
    zero = span_to_base(reading.number("lead_zero") or 0.0, reading.unit)
    ohms = mean([quantity.value for quantity in reading.quantities()]) - zero
    if ohms <= 0:
        return cannot_tell(CHECK.name, [reading], "winding_level.open")
    winding_c = winding_celsius(reading)
    if winding_c is None or winding_c <= -COPPER_ZERO_C:
        told = temperature_from_resistance(published, PLATE_C, ohms) * 1.8 + 32.0
        missing = ("winding_temperature",)
        return cannot_tell(CHECK.name, [reading], "winding_level.no_temperature", {"fahrenheit": told}, missing)
    finding = _judged(reading, scene, ohms, winding_c, published)
    _through_the_cable(finding, reading)
    return finding


def _judged(reading: Reading, scene: Scene, ohms: float, winding_c: float, published: float) -> Finding:
    at_25c = at_temperature(ohms, winding_c, PLATE_C)
    percent = 100.0 * (at_25c / published - 1.0)
    scale = 100.0 * at_25c / (ohms * published)
    legs = reading.quantities()
    parts = [(scale / len(legs), quantity.value, quantity.doubt) for quantity in legs]
    steps = [quantity.step for quantity in legs]
    mean_read = mean([quantity.value for quantity in legs])
    square = expanded(parts) ** 2 + _heat(percent, winding_c, reading) ** 2 + _zeroing(reading, scale, max(steps)) ** 2
    measured = Measured(percent, square**0.5, scale * max(steps))
    finding = decided(CHECK, measured, Scale("%", "%"), limits_for(CHECK, scene, LIMITS), [reading.id])
    finding.legs = [
        leg_json(leg, quantity, finding.verdict, percent + scale * (quantity.value - mean_read))
        for leg, quantity in reading.legs
    ]
    finding.detail["at_25c"] = span_from_base(at_25c, reading.unit)
    finding.detail["winding_c"] = winding_c
    _tell_phases(finding, reading)
    return finding


def _heat(percent: float, winding_c: float, reading: Reading) -> float:
    """Return what the thermometer's step does to the result [%]: (100 + value) / (234.5 + t) per K."""
    return COVERAGE * (100.0 + percent) / (COPPER_ZERO_C + winding_c) * digit_doubt(step_kelvin(reading))


def _zeroing(reading: Reading, scale: float, step: float) -> float:
    """Return what reading the shorted leads to the same step adds [%]; nothing when they were not read."""
    return COVERAGE * scale * digit_doubt(step) if reading.number("lead_zero") else 0.0


def _tell_phases(finding: Finding, reading: Reading) -> None:
    """Tell the phases that would give these three pairs, for either connection."""
    values = [span_from_base(quantity.value, reading.unit) for quantity in reading.quantities()]
    finding.detail["wye_phases"] = list(wye_phases(values[0], values[1], values[2]))
    delta = delta_phases(values[0], values[1], values[2])
    finding.detail["delta_phases"] = None if delta is None else list(delta)


def _through_the_cable(finding: Finding, reading: Reading) -> None:
    if reading.option("leads") != "on":
        return
    finding.fits = False
    if finding.verdict != PASS:
        finding.verdict = CANNOT_TELL
        finding.say("winding_level.through_cable")


CHECK = Check(
    name="winding_level",
    reads=("winding_resistance",),
    unit="%",
    formula="100 x (mean x (234.5 + 25) / (234.5 + winding C) / published at 25 C - 1), lead resistance taken off",
    limits=LIMITS,
    sources=(COPPER, PUBLISHED_OHMS),
    example={
        "machine": {"winding_resistance_25c": 0.15},
        "readings": [
            {
                "point": "winding_resistance",
                "legs": {"T1-T2": "0.1991", "T2-T3": "0.1991", "T3-T1": "0.1991"},
                "unit": "ohm",
                "state": "isolated",
                "leads": "off",
                "winding_temperature": 110,
                "winding_temperature_unit": "C",
            }
        ],
        "value": -0.015,
        "tolerance": 0.02,
        "verdict": "pass",
        "source": "IEEE 112: 0.15 ohm at 25 C is 0.19913 ohm at 110 C",
    },
    find=find,
)

"""Does the head fan draw what its plate says?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..limits import COMMON_PRACTICE, FAIL, WATCH, Limit, Source
from ..odd_units import milli_for_whole
from ..own_limits import limits_for
from ..reading import Reading
from ..side import say_side
from ..uncertainty import expanded

PLATE = Source("head fan amps against the plate", "", "", COMMON_PRACTICE)
LIMITS = (
    Limit(WATCH, None, 50.0, "%", PLATE),
    Limit(WATCH, 105.0, None, "%", PLATE),
    Limit(FAIL, 115.0, None, "%", PLATE),
)
# Below this share of the plate a meter shows no current, above this the fan has volts. Source: common practice.
NO_CURRENT_PERCENT = 2.0
VOLTS_PRESENT = 50.0


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the fan's amps in percent of its plate."""
    rated = scene.machine.part_number("fan", "rated_current")
    if reading.value is None or reading.value.bound:
        return cannot_tell(CHECK.name, [reading], "fan.only_a_bound")
    if reading.state == "isolated":
        return _misplaced(reading)
    if rated is None:
        return cannot_tell(CHECK.name, [reading], "fan_current.no_plate", {}, ("machine fan rated_current",))
    percent = 100.0 * reading.value.value / rated
    if milli_for_whole(reading.value, rated, 0.5, 1.5):
        return cannot_tell(CHECK.name, [reading], "suspicion.milli", {"value": reading.value.as_read, "unit": "A"})
    uncertainty = expanded([(100.0 / rated, reading.value.value, reading.value.doubt)])
    measured = Measured(percent, uncertainty, 100.0 * reading.value.step / rated)
    finding = decided(CHECK, measured, Scale("%", "%"), limits_for(CHECK, scene, LIMITS), [reading.id])
    say_side(finding, ("watch_low", "watch_high"))
    if percent < NO_CURRENT_PERCENT:
        _judge_no_current(finding, reading, scene)
    return finding


def _misplaced(reading: Reading) -> Finding:
    finding = cannot_tell(CHECK.name, [reading], "fan.isolated", {"point": reading.point.name})
    finding.fits = False
    return finding


def _judge_no_current(finding: Finding, reading: Reading, scene: Scene) -> None:
    """No amps with volts is a dead fan; without volts the fault lies before it."""
    volts = scene.nearest("fan_voltage", reading, "running")
    if volts is None or volts.value is None:
        finding.missing = ["fan_voltage"]
        finding.say("fan_current.take_volts")
        return
    finding.readings.append(volts.id)
    if volts.value.value >= VOLTS_PRESENT:
        finding.verdict = FAIL
        finding.said = [("fan_current.dead", {"volts": volts.value.value})]
    else:
        finding.say("fan_current.no_volts", {"volts": volts.value.value})


CHECK = Check(
    name="fan_current",
    reads=("fan_current", "fan_voltage"),
    unit="%",
    formula="100 x amps / plate amps",
    limits=LIMITS,
    sources=(PLATE,),
    example={
        "machine": {"fan": {"rated_current": 0.9}},
        "readings": [{"point": "fan_current", "value": "1.41", "unit": "A", "state": "running"}],
        "value": 156.66666666666666,
        "tolerance": 1e-9,
        "verdict": "fail",
        "source": "arithmetic on the handbook's case F10: 1.41 A against a plate of 0.90 A",
    },
    find=find,
)

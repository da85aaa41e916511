"""Does the head fan turn as fast as its plate says?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..limits import COMMON_PRACTICE, FAIL, WATCH, Limit, Source
from ..own_limits import limits_for
from ..reading import Reading
from ..side import say_side
from ..uncertainty import expanded

PLATE = Source("head fan speed against the plate; below 90 % it does not cool", "", "", COMMON_PRACTICE)
LIMITS = (
    Limit(WATCH, None, -7.0, "%", PLATE),
    Limit(WATCH, 10.0, None, "%", PLATE),
    Limit(FAIL, None, -15.0, "%", PLATE),
)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge how far the fan's speed stands from its plate [%]."""
    rated = scene.machine.part_number("fan", "rated_speed")
    if reading.value is None or reading.value.bound:
        return cannot_tell(CHECK.name, [reading], "fan.only_a_bound")
    if reading.state == "isolated":
        finding = cannot_tell(CHECK.name, [reading], "fan.isolated", {"point": reading.point.name})
        finding.fits = False
        return finding
    if rated is None:
        return cannot_tell(CHECK.name, [reading], "fan_speed.no_plate", {}, ("machine fan rated_speed",))
    uncertainty = expanded([(100.0 / rated, reading.value.value, reading.value.doubt)])
    percent = 100.0 * (reading.value.value - rated) / rated
    measured = Measured(percent, uncertainty, 100.0 * reading.value.step / rated)
    finding = decided(CHECK, measured, Scale("%", "%"), limits_for(CHECK, scene, LIMITS), [reading.id])
    finding.said[0][1]["rpm"] = reading.value.value
    return say_side(finding, ("watch_low", "watch_high"))


CHECK = Check(
    name="fan_speed",
    reads=("fan_speed",),
    unit="%",
    formula="100 x (speed - plate speed) / plate speed",
    limits=LIMITS,
    sources=(PLATE,),
    example={
        "machine": {"fan": {"rated_speed": 1550}},
        "readings": [{"point": "fan_speed", "value": "610", "unit": "rpm", "state": "running"}],
        "value": -60.645161290322584,
        "tolerance": 1e-9,
        "verdict": "fail",
        "source": "arithmetic on the handbook's case F10: 610 rpm against a plate of 1550",
    },
    find=find,
)

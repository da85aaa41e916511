"""Are the volts what the motor is made for?"""

from ..call import Machine, Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..leg import leg_json
from ..limits import FAIL, FROM_MEMORY, PASS, PUBLISHED, WATCH, Limit, Source, rank
from ..own_limits import has_own_limits, limits_for
from ..reading import Quantity, Reading
from ..uncertainty import expanded

MG1 = Source("NEMA MG 1", "12.44.1", "2016", PUBLISHED)
C84 = Source("ANSI C84.1", "Table 1, utilization voltage range A", "2020", FROM_MEMORY)
MOTOR_PERCENT = 10.0
# Utilization range A of a nominal system voltage [V]. Source: C84 above.
RANGE_A = ((208.0, 187.0, 218.0), (240.0, 216.0, 252.0), (480.0, 432.0, 504.0), (600.0, 540.0, 630.0))
LIMITS = (
    Limit(WATCH, None, -100.0 * (460.0 - 432.0) / 460.0, "%", C84, "460 V motor on 480 V"),
    Limit(WATCH, 100.0 * (504.0 - 460.0) / 460.0, None, "%", C84, "460 V motor on 480 V"),
    Limit(FAIL, None, -MOTOR_PERCENT, "%", MG1),
    Limit(FAIL, MOTOR_PERCENT, None, "%", MG1),
)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge each leg against the plate and the supply's normal range; the worst leg speaks."""
    plate = scene.machine.rated_voltage()
    if plate is None:
        return cannot_tell(CHECK.name, [reading], "supply_voltage_level.no_plate", {}, ("machine rated_voltage",))
    limits = limits_for(CHECK, scene, _limits(scene.machine, plate))
    worst: "Finding | None" = None
    legs = []
    for leg, quantity in reading.legs:
        finding = _leg(reading, quantity, plate, limits)
        legs.append(leg_json(leg, quantity, finding.verdict, finding.value))
        if worst is None or _worse(finding, worst):
            worst = finding
            worst.detail["leg"] = leg
    if worst is None:
        return None
    worst.legs = legs
    key, values = worst.said[0]
    values["leg"] = worst.detail["leg"]
    if worst.verdict == PASS and not _normal_range(scene.machine) and not has_own_limits(CHECK, scene):
        worst.said[0] = ("supply_voltage_level.pass_motor", values)
    if reading.state == "stopped":
        worst.say("supply_voltage_level.no_load")
    return worst


def _leg(reading: Reading, quantity: Quantity, plate: float, limits: "tuple[Limit, ...]") -> Finding:
    deviation = 100.0 * (quantity.value - plate) / plate
    uncertainty = expanded([(100.0 / plate, quantity.value, quantity.doubt)])
    measured = Measured(deviation, uncertainty, 100.0 * quantity.step / plate)
    return decided(CHECK, measured, Scale("%", "%"), limits, [reading.id])


def _worse(one: Finding, other: Finding) -> bool:
    if rank(one.verdict) != rank(other.verdict):
        return rank(one.verdict) > rank(other.verdict)
    return abs(one.value or 0.0) > abs(other.value or 0.0)


def _limits(machine: Machine, plate: float) -> "tuple[Limit, ...]":
    """Return the limits in percent of the plate: of a pair, the low bound from the lower, the high from the upper."""
    rated = machine.rated_voltages()
    share = MOTOR_PERCENT / 100.0
    lowest = 100.0 * (rated[0] * (1.0 - share) - plate) / plate if len(rated) > 1 else -MOTOR_PERCENT
    highest = 100.0 * (rated[-1] * (1.0 + share) - plate) / plate if len(rated) > 1 else MOTOR_PERCENT
    fail = (Limit(FAIL, None, lowest, "%", MG1), Limit(FAIL, highest, None, "%", MG1))
    normal = _normal_range(machine)
    if not normal:
        return fail
    below = max(lowest, 100.0 * (normal[0] - plate) / plate)
    above = min(highest, 100.0 * (normal[1] - plate) / plate)
    return (Limit(WATCH, None, below, "%", C84), Limit(WATCH, above, None, "%", C84)) + fail


def _normal_range(machine: Machine) -> "tuple[float, ...]":
    """Return the least and the most volts of the supply's normal range, () when its nominal is not known there."""
    nominal = machine.part_number("supply", "nominal_voltage")
    for volts, low, high in RANGE_A:
        if nominal == volts:
            return low, high
    return ()


CHECK = Check(
    name="supply_voltage_level",
    reads=("line_voltage",),
    unit="%",
    formula="100 x (leg - plate volts) / plate volts, each leg",
    limits=LIMITS,
    sources=(MG1, C84),
    example={
        "machine": {"rated_voltage": 460, "supply": {"nominal_voltage": 480}},
        "readings": [
            {
                "point": "line_voltage",
                "legs": {"L1-L2": "478", "L2-L3": "480", "L3-L1": "479"},
                "unit": "V",
                "state": "running",
            }
        ],
        "value": 4.3478260869565215,
        "tolerance": 1e-9,
        "verdict": "pass",
        "source": "arithmetic on the plate value: 480 V on a 460 V motor is 20/460",
    },
    find=find,
    so_far=find,
)

"""Do the lugs and joints pass the current without heating?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..kinds import Json
from ..leg import from_mean, judged_leg, leg_json
from ..limits import CANNOT_TELL, COMMON_PRACTICE, FAIL, Limit, Source, decide, upper
from ..line_amps import amps_beside, rated_share
from ..own_limits import limits_for
from ..physics.contact import drop_at, milliohms, watts
from ..reading import Quantity, Reading
from ..uncertainty import expanded

TRADE = Source("lug to wire at rated current: below 10 mV is sound, above 50 mV remake", "", "", COMMON_PRACTICE)
LIMITS = upper(10.0, 50.0, "mV", TRADE, "at rated load current")
# Above this as read a joint has failed, whatever the amps, as a contactor pole has. Source: CHECKS.md, pole_drop.
BURNING = (Limit(FAIL, 500.0, None, "mV", TRADE, "as read"),)


class Joint:
    """One joint: its drop, and what that would be at rated current [mV]."""

    def __init__(self, leg: str, drop: Quantity, amps: Quantity, rated: float) -> None:
        self.leg = leg
        self.drop = drop
        self.amps = amps.value
        self.mohm = milliohms(drop.value, amps.value)
        at_rated = drop_at(self.mohm, rated)
        by_volt = 1000.0 * rated / amps.value
        parts = [(by_volt, drop.value, drop.doubt), (-at_rated / amps.value, amps.value, amps.doubt)]
        self.measured = Measured(at_rated, expanded(parts), by_volt * drop.step)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the worst joint at rated current."""
    burning = _burning(reading)
    if burning is not None:
        return burning
    rated = scene.machine.number("rated_load_current")
    if rated is None:
        return cannot_tell(CHECK.name, [reading], "joint_drop.no_plate", {}, ("machine rated_load_current",))
    beside, amps = amps_beside(reading, scene)
    joints = _joints(reading, amps, rated * rated_share(reading))
    if beside is None or not joints:
        return cannot_tell(CHECK.name, [reading], "joint_drop.no_amps", {}, ("running_current",))
    worst = joints[0]
    for joint in joints[1:]:
        if joint.measured.value > worst.measured.value:
            worst = joint
    limits = limits_for(CHECK, scene, LIMITS)
    scale = Scale("mV", reading.unit)
    finding = decided(CHECK, worst.measured, scale, limits, [reading.id, beside.id])
    finding.said[0][1]["leg"] = worst.leg
    finding.detail["leg"] = worst.leg
    finding.legs = [_leg_json(joint, joints, limits, scale) for joint in joints]
    return finding


def _joints(reading: Reading, amps: "list[tuple[str, Quantity]]", rated: float) -> "list[Joint]":
    """Return the joints with the amps through each, none when a leg's amps are missing."""
    through = dict(amps)
    joints = []
    for leg, drop in reading.legs:
        current = through.get(leg)
        if current is None or current.value <= 0:
            return []
        joints.append(Joint(leg, drop, current, rated))
    return joints


def _leg_json(joint: Joint, joints: "list[Joint]", limits: "tuple[Limit, ...]", scale: Scale) -> Json:
    verdict = decide(joint.measured.low, joint.measured.high, limits).verdict
    told = leg_json(joint.leg, joint.drop, verdict, from_mean(joint.mohm, [other.mohm for other in joints]))
    told["mohm"] = joint.mohm
    told["watts"] = watts(joint.mohm, joint.amps)
    told["amps"] = joint.amps
    return judged_leg(told, scale.value(joint.measured.value), scale.span(joint.measured.uncertainty))


def _burning(reading: Reading) -> "Finding | None":
    worst_leg, worst = reading.legs[0]
    for leg, drop in reading.legs:
        if drop.value > worst.value:
            worst_leg, worst = leg, drop
    millivolts = 1000.0 * worst.value
    uncertainty = 1000.0 * expanded([(1.0, worst.value, worst.doubt)])
    if decide(millivolts - uncertainty, millivolts + uncertainty, BURNING).verdict != FAIL:
        return None
    scale = Scale("mV", reading.unit)
    finding = Finding(CHECK.name, FAIL, [reading.id])
    finding.value, finding.unit = scale.value(millivolts), reading.unit
    finding.uncertainty = scale.span(uncertainty)
    finding.limits = [scale.limit(limit) for limit in BURNING]
    drops = [drop.value for drop in reading.quantities()]
    finding.legs = [
        leg_json(leg, drop, FAIL if drop is worst else CANNOT_TELL, from_mean(drop.value, drops))
        for leg, drop in reading.legs
    ]
    return finding.say("joint_drop.burning", {"leg": worst_leg, "value": worst.as_read, "unit": worst.unit})


CHECK = Check(
    name="joint_drop",
    reads=("joint_drop", "running_current", "half_current"),
    unit="mV",
    formula="mV x rated load current / amps of that leg",
    limits=LIMITS + BURNING,
    sources=(TRADE,),
    example={
        "machine": {"rated_load_current": 34.0},
        "readings": [
            {"point": "joint_drop", "legs": {"L1": "3", "L2": "41", "L3": "4"}, "unit": "mV", "state": "running"},
            {
                "point": "running_current",
                "legs": {"L1": "24.8", "L2": "25.1", "L3": "24.6"},
                "unit": "A",
                "state": "running",
            },
        ],
        "value": 55.53784860557769,
        "tolerance": 1e-9,
        "verdict": "fail",
        "source": "Ohm's law: 41 mV at 25.1 A is 1.63 mohm, 55.5 mV at 34 A, above the 50 mV of trade practice",
    },
    find=find,
    so_far=find,
)

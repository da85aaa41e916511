"""Does an uneven current stay with the line or move with the motor lead?"""

from ..call import Scene
from ..check import Check
from ..finding import Finding, cannot_tell
from ..limits import COMMON_PRACTICE, PASS, Source
from ..physics.lead_roll import NEITHER, LeadRoll
from ..physics.three_phase import unbalance
from ..reading import Reading
from ..uncertainty import expanded

EASA = Source("EASA and maintenance press: leads rolled, sums by line and by motor lead", "", "", COMMON_PRACTICE)
ROLLS = (0, 1, 2)
# Below this unbalance in every position there is nothing to follow [%]. Source: common practice, no source.
UNEVEN_PERCENT = 2.0


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Tell from the positions read so far what the unevenness follows; there is no limit and so no fail."""
    roll = reading.number("roll")
    if not roll:
        return None
    if roll not in ROLLS:
        return cannot_tell(CHECK.name, [reading], "lead_roll.no_such_roll", {"roll": roll})
    taken = _positions(reading, scene)
    if taken[0][0] != 0:
        return cannot_tell(CHECK.name, [reading], "lead_roll.no_start", {}, ("running_current roll 0",))
    rolled = LeadRoll([(position, [quantity.value for quantity in one.quantities()]) for position, one in taken])
    finding = Finding(CHECK.name, PASS, [one.id for _, one in taken if one.id])
    follows = _follows(rolled, taken)
    finding.detail = {
        "follows": follows,
        "positions": len(taken),
        "line_sums": rolled.line_sums,
        "motor_sums": rolled.motor_sums,
        "unit": "A",
    }
    return finding.say("lead_roll." + follows, {"positions": len(taken)})


def _positions(reading: Reading, scene: Scene) -> "list[tuple[int, Reading]]":
    """Return the newest complete reading of each roll of this call, this one for its own; this round's go first."""
    found = []
    for roll in ROLLS:
        if roll == reading.number("roll"):
            found.append((roll, reading))
            continue
        here = [one for one in scene.all(CHECK.reads[0]) if _usable(one, roll)]
        if not here:
            for round_ in scene.call.rounds:
                here.extend([one for one in round_.readings if _usable(one, roll)])
        if here:
            found.append((roll, here[-1]))
    return found


def _usable(reading: Reading, roll: int) -> bool:
    if reading.point.name != CHECK.reads[0] or not reading.sound() or reading.option("twin"):
        return False
    amps = [quantity.value for quantity in reading.quantities()]
    return (reading.number("roll") or 0.0) == roll and min(amps) >= 0 and max(amps) > 0


def _follows(rolled: LeadRoll, taken: "list[tuple[int, Reading]]") -> str:
    uneven = max([unbalance(amps)[0] for _, amps in rolled.positions if max(amps) > 0] or [0.0])
    if uneven < UNEVEN_PERCENT:
        return NEITHER
    parts = []
    for row, (_, one) in zip(rolled.sensitivities(), taken):
        for sensitivity, quantity in zip(row, one.quantities()):
            parts.append((sensitivity, quantity.value, quantity.doubt))
    return rolled.follows(expanded(parts))


CHECK = Check(
    name="lead_roll",
    reads=("running_current",),
    unit="A",
    formula="amps of the positions added by line and by motor lead; the sums further apart are what it follows",
    limits=(),
    sources=(EASA,),
    example={
        "readings": [
            {
                "point": "running_current",
                "legs": {"L1": "39.2", "L2": "35.4", "L3": "31.6"},
                "unit": "A",
                "state": "running",
            },
            {
                "point": "running_current",
                "legs": {"L1": "38.9", "L2": "35.6", "L3": "31.7"},
                "unit": "A",
                "state": "running",
                "roll": 1,
            },
        ],
        "value": None,
        "tolerance": 0.0,
        "verdict": "pass",
        "source": "handbook, case F2: the high leg stayed on L1 after the leads were rolled, so it is the supply",
    },
    find=find,
)

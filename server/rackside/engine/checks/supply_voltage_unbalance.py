"""Are the three supply voltages alike?"""

from ..balance import balance
from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..limits import PUBLISHED, Source, upper
from ..own_limits import limits_for
from ..physics.three_phase import derating_factor, extra_heating, negative_sequence
from ..reading import Reading
from ..so_far import balance_so_far

MG1 = Source("NEMA MG 1", "14.36", "2016", PUBLISHED)
LIMITS = upper(1.0, 2.0, "%", MG1)
# A leg below half the mean is lost, not unbalanced. Source: common practice, no source.
LOST_SHARE = 0.5


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the largest deviation of a line-to-line voltage from the mean."""
    spread = balance(reading.legs)
    if spread is None:
        return cannot_tell(CHECK.name, [reading], "supply_voltage_unbalance.no_volts")
    measured = Measured(spread.percent, spread.uncertainty, spread.step_percent)
    finding = decided(CHECK, measured, Scale("%", "%"), limits_for(CHECK, scene, LIMITS), [reading.id])
    finding.legs = spread.legs_json(finding.limits)
    values = [quantity.value for quantity in reading.quantities()]
    finding.detail["negative_sequence_percent"] = negative_sequence(values[0], values[1], values[2])
    finding.detail["derating_factor"] = derating_factor(spread.percent)
    finding.detail["extra_heating_percent"] = extra_heating(spread.percent)
    if min(values) < LOST_SHARE * spread.mean:
        finding.say("supply_voltage_unbalance.lost_leg", {"leg": spread.lowest_leg})
    elif spread.percent > 5.0:
        finding.say("supply_voltage_unbalance.must_not_run")
    if scene.machine.word("start") == "drive":
        finding.say("supply_voltage_unbalance.drive_fed")
    return finding


def so_far(reading: Reading, scene: Scene) -> "Finding | None":
    """Show the volts typed so far against their mean."""
    return balance_so_far(CHECK, reading.legs, LIMITS, reading, scene)


CHECK = Check(
    name="supply_voltage_unbalance",
    reads=("line_voltage",),
    unit="%",
    formula="100 x largest deviation of a leg from the mean / mean",
    limits=LIMITS,
    sources=(MG1,),
    example={
        "readings": [
            {
                "point": "line_voltage",
                "legs": {"L1-L2": "462", "L2-L3": "463", "L3-L1": "455"},
                "unit": "V",
                "state": "running",
            }
        ],
        "value": 1.0869565217391304,
        "tolerance": 1e-9,
        "verdict": "watch",
        "source": "NEMA MG 1 definition, figures of the DOE motor tip sheet (mean 460, deviation 5, printed 1.1 %)",
    },
    find=find,
    so_far=so_far,
)

"""Does the cable alone hold off the ground?"""

from ..call import Scene
from ..check import Check, decided
from ..finding import Finding, Scale
from ..insulation_reading import InsulationReading
from ..limits import COMMON_PRACTICE, FAIL, PUBLISHED, WATCH, Limit, Source
from ..own_limits import limits_for
from ..reading import Reading

NETA = Source("ANSI/NETA MTS", "Table 100.1 (equipment of 600 V: 100 Mohm)", "2019", PUBLISHED)
MOTOR = Source("below the motor's own minimum of 5 Mohm a cable hides the motor", "", "", COMMON_PRACTICE)
LIMITS = (
    Limit(WATCH, None, 100.0, "Mohm", NETA, "as read"),
    Limit(FAIL, None, 5.0, "Mohm", MOTOR, "as read"),
)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the cable, both ends off, as read."""
    megohms = InsulationReading(reading)
    limits = limits_for(CHECK, scene, LIMITS)
    finding = decided(CHECK, megohms.as_read(), Scale("Mohm", megohms.unit), limits, [reading.id])
    if not megohms.over_limit:
        finding.detail["as_read"] = megohms.in_unit(megohms.mohm)
    else:
        finding.value = finding.uncertainty = None
        finding.said = [("cable_insulation.over_limit", {})]
    return finding


CHECK = Check(
    name="cable_insulation",
    reads=("cable_insulation_resistance",),
    unit="Mohm",
    formula="as read, both ends off",
    limits=LIMITS,
    sources=(NETA, MOTOR),
    example={
        "readings": [
            {"point": "cable_insulation_resistance", "value": "40", "unit": "Mohm", "state": "isolated", "leads": "off"}
        ],
        "value": 40.0,
        "tolerance": 1e-9,
        "verdict": "watch",
        "source": "ANSI/NETA MTS-2019 Table 100.1: 100 Mohm for 600 V equipment; 40 is below, and above the motor's 5",
    },
    find=find,
)

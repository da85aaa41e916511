"""Does the discharge gas leave hot enough to have been dry when it came in?"""

from ..call import Scene
from ..check import Check
from ..finding import Finding, cannot_tell
from ..kinds import Json
from ..limits import COMMON_PRACTICE, Source, lower
from ..own_limits import limits_for
from ..reading import Reading
from ..saturation import Saturation, compared, impossible, not_running, refusal

DRY = Source("discharge line 50 F over saturated condensing or more when no liquid comes in", "", "", COMMON_PRACTICE)
LIMITS = lower(50.0, 25.0, "F", DRY)
SETTLED_SECONDS = 600.0
USUAL_F = (25.0, 160.0)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the discharge line above the dew temperature of condensing, once it has run 10 min."""
    if not_running(reading):
        return None
    saturation = Saturation(reading, "discharge_pressure", "dew", scene)
    refused = refusal(CHECK.name, reading, saturation)
    if refused is not None or reading.value is None:
        return refused
    since = reading.number("since_start")
    if since is not None and since < SETTLED_SECONDS:
        finding = cannot_tell(CHECK.name, [reading], "discharge_superheat.too_early", {"seconds": since})
        finding.fits = False
        return finding
    measured = saturation.over(reading.value)
    wrong = impossible(CHECK.name, measured, reading, saturation, USUAL_F, "discharge_superheat.impossible")
    if wrong is not None:
        return wrong
    return compared(CHECK, measured, reading, saturation, limits_for(CHECK, scene, LIMITS))


EXAMPLE: Json = {
    "machine": {"refrigerant": "R-448A"},
    "readings": [
        {"point": "discharge_temperature", "value": "212", "unit": "F", "state": "running", "since_start": 1200},
        {"point": "discharge_pressure", "value": "230", "unit": "psig", "state": "running"},
    ],
    "value": 106.9,
    "tolerance": 0.1,
    "verdict": "pass",
    "source": "handbook case F10 after repair: 212 F at 230 psig of R-448A (dew 105.1 F by CoolProp)",
}
CHECK = Check(
    name="discharge_superheat",
    reads=("discharge_temperature", "discharge_pressure"),
    unit="F",
    formula="discharge line - dew temperature at the discharge pressure",
    limits=LIMITS,
    sources=(DRY,),
    example=EXAMPLE,
    find=find,
    difference=True,
)

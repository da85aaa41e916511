"""Is the liquid line full of liquid?"""

from ..call import Scene
from ..check import Check
from ..finding import Finding
from ..kinds import Json
from ..limits import COMMON_PRACTICE, FAIL, Limit, Source, lower
from ..own_limits import limits_for
from ..reading import Reading
from ..saturation import Saturation, compared, impossible, not_running, refusal

LIQUID = Source(
    "liquid some degrees below its bubble temperature feeds the valves without flash gas", "", "", COMMON_PRACTICE
)
LIMITS = lower(5.0, None, "F", LIQUID)
FLASH = Limit(FAIL, None, 0.0, "F", LIQUID, "flash gas seen in the liquid glass")
USUAL_F = (0.0, 40.0)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the liquid line below the bubble temperature at the liquid pressure."""
    if not_running(reading):
        return None
    saturation = Saturation(reading, "liquid_pressure", "bubble", scene)
    refused = refusal(CHECK.name, reading, saturation)
    if refused is not None or reading.value is None:
        return refused
    measured = saturation.under(reading.value)
    flash = scene.sign("flash_gas_seen")
    # A line short of liquid carries gas, and gas may be warmer than saturation.
    wrong = None if flash else impossible(CHECK.name, measured, reading, saturation, USUAL_F, "subcooling.impossible")
    if wrong is not None:
        return wrong
    defaults = LIMITS + (FLASH,) if flash else LIMITS
    return compared(CHECK, measured, reading, saturation, limits_for(CHECK, scene, defaults))


EXAMPLE: Json = {
    "machine": {"refrigerant": "R-134a"},
    "readings": [
        {"point": "liquid_temperature", "value": "97", "unit": "F", "state": "running"},
        {"point": "liquid_pressure", "value": "135", "unit": "psig", "state": "running"},
    ],
    "value": 8.02,
    "tolerance": 0.05,
    "verdict": "pass",
    "source": "check values 9.53: R-134a at 135 psig, bubble 105.02 F by CoolProp 8.0.0, subcooling 8.02 F",
}
CHECK = Check(
    name="subcooling",
    reads=("liquid_temperature", "liquid_pressure"),
    unit="F",
    formula="bubble temperature at the liquid pressure - liquid line",
    limits=LIMITS + (FLASH,),
    sources=(LIQUID,),
    example=EXAMPLE,
    find=find,
    difference=True,
)

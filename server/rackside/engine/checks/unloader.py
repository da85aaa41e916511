"""Does the unloader step?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..limits import COMMON_PRACTICE, Source, lower
from ..own_limits import limits_for
from ..reading import Reading
from ..uncertainty import expanded

STEP = Source("amps change by 20 to 40 % when a bank unloads", "", "", COMMON_PRACTICE)
LIMITS = lower(None, 15.0, "%", STEP)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge by how much the amps fall from loaded to unloaded [%]."""
    loaded, unloaded = reading.leg("loaded"), reading.leg("unloaded")
    if loaded is None or unloaded is None or loaded.bound or unloaded.bound or loaded.value <= 0.0:
        return cannot_tell(CHECK.name, [reading], "unloader.no_amps")
    step = 100.0 * (loaded.value - unloaded.value) / loaded.value
    by_loaded = 100.0 * unloaded.value / (loaded.value * loaded.value)
    by_unloaded = -100.0 / loaded.value
    parts = [(by_loaded, loaded.value, loaded.doubt), (by_unloaded, unloaded.value, unloaded.doubt)]
    measured = Measured(step, expanded(parts), -by_unloaded * max(loaded.step, unloaded.step))
    if (measured.high or 0.0) <= -15.0:
        return cannot_tell(CHECK.name, [reading], "unloader.swapped", {"value": -step})
    return decided(CHECK, measured, Scale("%", "%"), limits_for(CHECK, scene, LIMITS), [reading.id])


CHECK = Check(
    name="unloader",
    reads=("unloader_step",),
    unit="%",
    formula="100 x (loaded - unloaded) / loaded",
    limits=LIMITS,
    sources=(STEP,),
    example={
        "readings": [
            {"point": "unloader_step", "legs": {"loaded": "25.0", "unloaded": "17.5"}, "unit": "A", "state": "running"}
        ],
        "value": 30.0,
        "tolerance": 1e-9,
        "verdict": "pass",
        "source": "arithmetic: 7.5 of 25 A is 30 %, inside the 20 to 40 % the handbook (A15) calls usual",
    },
    find=find,
)

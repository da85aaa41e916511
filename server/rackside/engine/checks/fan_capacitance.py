"""Does the head fan's run capacitor still have its microfarads?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..limits import FROM_MEMORY, Limit, Source, lower, upper
from ..own_limits import limits_for
from ..physics.capacitor import microfarads
from ..reading import Quantity, Reading
from ..uncertainty import expanded

MARKED = Source("UL 810 / IEC 60252-1", "tolerance of the marked value, commonly 6 or 10 %", "", FROM_MEMORY)
LIMITS: "tuple[Limit, ...]" = upper(6.0, 10.0, "%", MARKED) + lower(-6.0, -10.0, "%", MARKED)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge how far the capacitor stands from its marking [%], read directly or from its amps and volts."""
    marked = scene.machine.part_number("fan", "capacitance")
    if reading.value is None or reading.value.bound:
        return cannot_tell(CHECK.name, [reading], "fan.only_a_bound")
    if marked is None:
        return cannot_tell(CHECK.name, [reading], "fan_capacitance.no_plate", {}, ("machine fan capacitance",))
    if reading.point.name == "fan_capacitance":
        return _judged(reading, _percent(reading.value, marked), scene)
    return _from_current(reading, reading.value, marked, scene)


def _percent(direct: Quantity, marked: float) -> Measured:
    uncertainty = expanded([(100.0 / marked, direct.value, direct.doubt)])
    return Measured(100.0 * (direct.value - marked) / marked, uncertainty, 100.0 * direct.step / marked)


def _judged(reading: Reading, measured: Measured, scene: Scene) -> Finding:
    return decided(CHECK, measured, Scale("%", "%"), limits_for(CHECK, scene, LIMITS), [reading.id])


def _from_current(reading: Reading, amps: Quantity, marked: float, scene: Scene) -> Finding:
    """Work the microfarads out of amps, the volts across the capacitor itself, and the frequency."""
    volts = scene.nearest("fan_capacitor_voltage", reading, "running")
    hertz = _hertz(reading, scene)
    missing = []
    if volts is None or volts.value is None or volts.value.value <= 0.0:
        missing.append("fan_capacitor_voltage")
    if hertz is None:
        missing.append("line_frequency")
    if missing or volts is None or volts.value is None or hertz is None:
        values = {"points": missing}
        return cannot_tell(CHECK.name, [reading], "fan_capacitance.missing", values, tuple(missing))
    found = microfarads(amps.value, volts.value.value, hertz)
    scale = 100.0 / marked
    per_amp, per_volt = scale * microfarads(1.0, volts.value.value, hertz), -scale * found / volts.value.value
    parts = [(per_amp, amps.value, amps.doubt), (per_volt, volts.value.value, volts.value.doubt)]
    step = max(per_amp * amps.step, -per_volt * volts.value.step)
    finding = _judged(reading, Measured(scale * (found - marked), expanded(parts), step), scene)
    finding.readings.append(volts.id)
    finding.detail["microfarads"] = found
    return finding


def _hertz(reading: Reading, scene: Scene) -> "float | None":
    measured = scene.nearest("line_frequency", reading)
    if measured is not None and measured.value is not None and measured.value.value > 0.0:
        return measured.value.value
    return scene.machine.number("rated_frequency")


CHECK = Check(
    name="fan_capacitance",
    reads=("fan_capacitance", "fan_capacitor_current", "fan_capacitor_voltage", "line_frequency"),
    unit="%",
    formula="100 x (microfarads - marked) / marked; from amps I and volts V across it: 1e6 I / (2 pi f V)",
    limits=LIMITS,
    sources=(MARKED,),
    example={
        "machine": {"fan": {"capacitance": 5.0}},
        "readings": [{"point": "fan_capacitance", "value": "2.6", "unit": "uF", "state": "isolated"}],
        "value": -48.0,
        "tolerance": 1e-9,
        "verdict": "fail",
        "source": "handbook case F10: 2.6 of 5.0 microfarads, 48 % low",
    },
    find=find,
    judges=("fan_capacitance", "fan_capacitor_current"),
)

"""Does the crankcase heater heat?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..limits import COMMON_PRACTICE, FAIL, Limit, Source
from ..odd_units import milli_for_whole
from ..own_limits import limits_for
from ..physics.heater import expected_amps, ohms
from ..reading import Quantity, Reading
from ..side import say_side
from ..uncertainty import expanded

PLATE = Source("heater amps by Ohm's law from its plate", "", "", COMMON_PRACTICE)
PTC = Source("a self-regulating heater draws less as it warms", "", "", COMMON_PRACTICE)
LIMITS = (Limit(FAIL, None, -15.0, "%", PLATE), Limit(FAIL, 15.0, None, "%", PLATE))
SELF_REGULATING = (Limit(FAIL, None, -80.0, "%", PTC, "PTC heater"),)
# Below this the heater has no supply. Source: common practice, no source.
VOLTS_PRESENT = 10.0


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the heater's amps against its plate at the volts it has."""
    power = scene.machine.part_number("heater", "power")
    rated = scene.machine.part_number("heater", "voltage")
    volts = scene.nearest("heater_voltage", reading)
    missing = _missing(power, rated, volts)
    if reading.value is None or reading.value.bound:
        return cannot_tell(CHECK.name, [reading], "fan.only_a_bound")
    if missing or power is None or rated is None or volts is None or volts.value is None:
        return cannot_tell(CHECK.name, [reading], "heater.missing", {"needs": list(missing)}, missing)
    if volts.value.value < VOLTS_PRESENT:
        return cannot_tell(CHECK.name, [reading, volts], "heater.no_volts", {"volts": volts.value.value})
    expected = expected_amps(power, rated, volts.value.value)
    if milli_for_whole(reading.value, expected, 0.85, 1.15):
        values = {"value": reading.value.as_read, "unit": "A"}
        return cannot_tell(CHECK.name, [reading, volts], "suspicion.milli", values)
    finding = _judged(reading.value, volts.value, expected, scene)
    finding.readings = [reading.id, volts.id]
    finding.detail["expected_amps"] = expected
    finding.detail["plate_ohms"] = ohms(power, rated)
    return finding


def _missing(power: "float | None", rated: "float | None", volts: "Reading | None") -> "tuple[str, ...]":
    missing = []
    if power is None:
        missing.append("machine heater power")
    if rated is None:
        missing.append("machine heater voltage")
    if volts is None or volts.value is None:
        missing.append("heater_voltage")
    return tuple(missing)


def _judged(amps: Quantity, volts: Quantity, expected: float, scene: Scene) -> Finding:
    ratio = amps.value / expected
    parts = [(100.0 / expected, amps.value, amps.doubt), (-100.0 * ratio / volts.value, volts.value, volts.doubt)]
    step = max(100.0 * amps.step / expected, 100.0 * ratio * volts.step / volts.value)
    measured = Measured(100.0 * (ratio - 1.0), expanded(parts), step)
    ptc = scene.machine.part("heater", "kind") == "ptc"
    limits = limits_for(CHECK, scene, SELF_REGULATING if ptc else LIMITS)
    finding = decided(CHECK, measured, Scale("%", "%"), limits, [])
    finding.said[0][1].update({"amps": amps.as_read, "unit_amps": amps.unit, "expected": expected})
    if amps.value > 0.0:
        finding.detail["ohms"] = volts.value / amps.value
    elif finding.verdict == FAIL:
        finding.said[0] = ("heater.open", {"volts": volts.value})
    return say_side(finding, ("fail_low", "fail_high"))


CHECK = Check(
    name="heater",
    reads=("heater_current", "heater_voltage"),
    unit="%",
    formula="100 x (amps / (power x volts / rated volts^2) - 1)",
    limits=LIMITS + SELF_REGULATING,
    sources=(PLATE, PTC),
    example={
        "machine": {"heater": {"power": 100, "voltage": 120}},
        "readings": [
            {"point": "heater_current", "value": "0.83", "unit": "A", "state": "stopped"},
            {"point": "heater_voltage", "value": "119", "unit": "V", "state": "stopped"},
        ],
        "value": 0.43697478991596,
        "tolerance": 1e-9,
        "verdict": "pass",
        "source": "arithmetic on the handbook's case F6: 100 W at 120 V has 0.83 A; at 119 V 0.826 A",
    },
    find=find,
)

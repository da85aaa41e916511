"""Which outcome of the model a finding or a reading is. Everything that cannot tell has none."""

from ..call import Machine
from ..finding import Finding
from ..kinds import Any
from ..limits import CANNOT_TELL, PASS
from ..physics.refrigerant import bubble_temperature
from ..reading import Reading

# A dead feed, against the leg's own plate volts. Source: judgement.
DEAD_PERCENT = -80.0
# One lug stands out by this. Source: HANDBOOK.md, A6 (common practice).
HOT_JOINT_F = 15.0
# Heads and regulator lines within this are alike. Source: HANDBOOK.md, A13 (heads 20 F); the strainer's is judgement.
UNEVEN_HEADS_F = 20.0
STRAINER_DROP_F = 15.0
LOW_RESERVOIR = 0.25
COLD_SUMP_F = 60.0
# Saturated condensing over outdoor air. Source: HANDBOOK.md, B4 (J).
HIGH_SPLIT_F = 20.0
UNEVEN_HALVES_PERCENT = 10.0
LATE_HALF_SECONDS = 2.0
UNEVEN_DRIVE_PERCENT = 5.0


def finding_labels(finding: Finding) -> "tuple[str, ...]":
    """Return what a finding is called in the model, most particular first; () when it tells nothing."""
    if finding.check in _SPECIAL:
        return tuple(_SPECIAL[finding.check](finding))
    if finding.verdict == CANNOT_TELL:
        return ()
    side = side_of(finding)
    if not side:
        return (finding.verdict,)
    return (finding.verdict + "_" + side, side, finding.verdict)


def side_of(finding: Finding) -> str:
    """Return on which side of its limits a finding lies: "low", "high", "" when on neither."""
    if finding.verdict == PASS or finding.value is None:
        return ""
    for limit in finding.limits:
        if limit.get("below") is not None and finding.value < limit["below"]:
            return "low"
        if limit.get("above") is not None and finding.value > limit["above"]:
            return "high"
    return ""


def _plain(finding: Finding) -> "tuple[str, ...]":
    return () if finding.verdict == CANNOT_TELL else (finding.verdict,)


def _insulation(finding: Finding) -> "tuple[str, ...]":
    leads = "off_" if finding.detail.get("leads") == "off" else "joined_"
    return tuple([leads + label for label in _plain(finding)])


def _winding_balance(finding: Finding) -> "tuple[str, ...]":
    return ("open",) if finding.detail.get("open") and finding.verdict != CANNOT_TELL else _plain(finding)


def _start_current(finding: Finding) -> "tuple[str, ...]":
    key = finding.said[0][0] if finding.said else ""
    if key == "start_current.lost_leg":
        return ("lost_leg",)
    for label in ("locked", "slow"):
        if key == "start_current." + label:
            return (label, "whole")
    return () if finding.verdict == CANNOT_TELL else (finding.verdict, "whole")


def _net_oil(finding: Finding) -> "tuple[str, ...]":
    trend = finding.detail.get("trend") or []
    values = [point["value"] for point in trend]
    if finding.verdict != PASS and len(values) > 1 and values[0] >= 2.0 * values[-1] and side_of(finding) == "low":
        return ("falling",)
    if finding.verdict == CANNOT_TELL:
        return ()
    side = side_of(finding)
    return (finding.verdict + "_" + side, finding.verdict) if side else (finding.verdict,)


def _overload(finding: Finding) -> "tuple[str, ...]":
    """Return which way the dial stands off."""
    if finding.verdict in (CANNOT_TELL, PASS):
        return _plain(finding)
    return (side_of(finding),)


def _level(finding: Finding) -> "tuple[str, ...]":
    if finding.verdict == CANNOT_TELL or finding.value is None:
        return ()
    deviations = [float(leg["deviation"]) for leg in finding.legs if leg.get("deviation") is not None]
    if deviations and max(deviations) < DEAD_PERCENT:
        return ("dead",)
    side = side_of(finding)
    return (finding.verdict + "_" + side,) if side else (finding.verdict,)


def _roll(finding: Finding) -> "tuple[str, ...]":
    follows = finding.detail.get("follows")
    return (follows,) if follows else ()


_SPECIAL: "dict[str, Any]" = {
    "insulation": _insulation,
    "winding_balance": _winding_balance,
    "start_current": _start_current,
    "net_oil_pressure": _net_oil,
    "overload_setting": _overload,
    "supply_voltage_level": _level,
    "lead_roll": _roll,
}


def reading_label(reading: Reading, beside: "list[Reading]", machine: Machine) -> str:
    """Return what a reading without a check of its own is called in the model, "" when it tells nothing."""
    name = reading.point.name
    if name in _WORDS:
        return _WORDS[name].get(reading.word, "")
    found = _NUMBERS.get(name)
    return found(reading, beside, machine) if found is not None else ""


def _values(reading: Reading) -> "list[float]":
    return [quantity.value for quantity in reading.quantities()]


def _joints(reading: Reading, beside: "list[Reading]", machine: Machine) -> str:
    values = _values(reading)
    return "one_hot" if max(values) - min(values) > HOT_JOINT_F else "alike"


def _heads(reading: Reading, beside: "list[Reading]", machine: Machine) -> str:
    values = _values(reading)
    return "uneven" if max(values) - min(values) > UNEVEN_HEADS_F else "alike"


def _strainer(reading: Reading, beside: "list[Reading]", machine: Machine) -> str:
    before, after = _values(reading)
    return "drop" if before - after > STRAINER_DROP_F else "alike"


def _reservoir(reading: Reading, beside: "list[Reading]", machine: Machine) -> str:
    return "low" if reading.value is not None and reading.value.value < LOW_RESERVOIR else "filled"


def _sump(reading: Reading, beside: "list[Reading]", machine: Machine) -> str:
    """Return whether a stopped machine's oil is warm enough to hold no liquid."""
    ambient = [other for other in beside if other.point.name == "ambient_temperature" and other.value is not None]
    if reading.value is None or reading.state == "running":
        return ""
    edge = ambient[-1].value.value if ambient and ambient[-1].value is not None else COLD_SUMP_F
    return "cold" if reading.value.value < edge else "warm"


def _condensing(reading: Reading, beside: "list[Reading]", machine: Machine) -> str:
    outdoor = [other for other in beside if other.point.name == "outdoor_temperature" and other.value is not None]
    if reading.value is None or reading.state == "stopped" or not outdoor or outdoor[-1].value is None:
        return ""
    condensing = bubble_temperature(machine.word("refrigerant"), reading.value.value + machine.atmosphere())
    if condensing is None:
        return ""
    return "high" if condensing - outdoor[-1].value.value > HIGH_SPLIT_F else "usual"


def _halves(reading: Reading, beside: "list[Reading]", machine: Machine) -> str:
    values = _values(reading)
    first, second = values[0] + values[1] + values[2], values[3] + values[4] + values[5]
    mean = (first + second) / 2.0
    return "apart" if mean > 0 and 100.0 * abs(first - mean) / mean > UNEVEN_HALVES_PERCENT else "alike"


def _second_half(reading: Reading, beside: "list[Reading]", machine: Machine) -> str:
    return "late" if reading.value is not None and reading.value.value > LATE_HALF_SECONDS else "in_time"


def _drive(reading: Reading, beside: "list[Reading]", machine: Machine) -> str:
    values = _values(reading)
    mean = (values[0] + values[1] + values[2]) / 3.0
    worst = max([abs(value - mean) for value in values])
    return "uneven" if mean > 0 and 100.0 * worst / mean > UNEVEN_DRIVE_PERCENT else "even"


_WORDS = {
    "phase_sequence": {"forward": "forward", "reverse": "reverse"},
    "injection_line": {"cold": "cold", "warm": "warm"},
    "oil_acid": {"negative": "negative", "positive": "positive"},
    "oil_colour": {
        "clear": "clear", "straw": "clear", "amber": "amber", "dark": "amber", "red-brown": "amber",
        "black": "black", "glitter": "glitter",
    },
}  # fmt: skip
_NUMBERS: "dict[str, Any]" = {
    "joint_temperature": _joints,
    "head_temperature": _heads,
    "regulator_inlet_temperature": _strainer,
    "reservoir_level": _reservoir,
    "sump_temperature": _sump,
    "discharge_pressure": _condensing,
    "half_current": _halves,
    "second_half_delay": _second_half,
    "drive_output_current": _drive,
}

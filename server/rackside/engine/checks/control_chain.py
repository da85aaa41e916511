"""Where in the control string do the volts end?"""

from .. import units
from ..call import Scene
from ..check import Check
from ..finding import Finding, cannot_tell
from ..kinds import Json
from ..limits import CANNOT_TELL, COMMON_PRACTICE, FAIL, PASS, WATCH, Limit, Source, decide
from ..number import read_number
from ..own_limits import limits_for
from ..reading import Reading
from ..uncertainty import COVERAGE, digit_doubt

HOPSCOTCH = Source(
    "hopscotch tracing with one probe on the return: volts in and none out is open", "", "", COMMON_PRACTICE
)
LIMITS = (
    Limit(WATCH, 5.0, None, "%", HOPSCOTCH, "dropped across one device that should be closed"),
    Limit(FAIL, 80.0, None, "%", HOPSCOTCH, "dropped across one device that should be closed"),
)
# Less than this share of the control volts is none. Source: CHECKS.md, control_chain.
NONE_PERCENT = 5.0
# The coil of a closed string has at least this share of the control volts. Source: as for coil_voltage, 85 %.
COIL_SHARE = 0.85


class Device:
    """One device of the string: volts on its far side (or across it), and how they stand against the control volts.

    volts: None when unreadable. dropped: lost across this device [%]; uncertainty [%]. state: what it turned out to be.
    """

    def __init__(self, raw: Json, unit: str) -> None:
        number = read_number(raw.get("volts"))
        good = number is not None and not number.bound
        self.name = str(raw.get("name") or "")
        self.closed = raw.get("expected") != "open"
        self.volts = units.to_base(number.value, unit) if number is not None and good else None
        self.step = units.span_to_base(number.step, unit) if number is not None and good else 0.0
        self.as_read = number.value if number is not None and good else None
        self.dropped: "float | None" = None
        self.uncertainty = 0.0
        self.verdict = CANNOT_TELL


class String:
    """The devices in drawing order and the volts that feed them: read at the transformer, or from the plate."""

    def __init__(self, devices: "list[Device]", supply: float, read: bool, limits: "tuple[Limit, ...]") -> None:
        self.devices = devices
        self.supply = supply
        self.read = read
        self.limits = limits

    def percent(self, volts: float) -> float:
        return 100.0 * volts / self.supply

    def judge(self, device: Device, dropped: float, steps: "tuple[float, ...]") -> None:
        """Set what a device drops and what that alone would get."""
        square = 0.0
        for step in steps:
            square += digit_doubt(step) * digit_doubt(step)
        device.dropped = self.percent(dropped)
        device.uncertainty = COVERAGE * self.percent(square**0.5)
        low, high = device.dropped - device.uncertainty, device.dropped + device.uncertainty
        device.verdict = decide(low, high, self.limits).verdict


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the string device by device while it is called."""
    devices = [Device(raw, reading.unit) for raw in reading.raw.get("contacts") or []]
    unread = [device.name for device in devices if device.volts is None]
    if not devices or unread:
        return cannot_tell(CHECK.name, [reading], "control_chain.unread", {"devices": unread}, ("contacts",))
    if reading.option("called") is False:
        return cannot_tell(CHECK.name, [reading], "control_chain.not_called")
    supply, read = _supply(reading, scene, devices)
    if supply is None:
        return cannot_tell(CHECK.name, [reading], "control_chain.no_supply", {}, ("control_voltage",))
    string = String(devices, supply, read, limits_for(CHECK, scene, LIMITS))
    if reading.option("method") == "across":
        finding = _across(string, reading, scene)
    else:
        finding = _to_return(string, reading)
    finding.limits = [limit.as_json() for limit in string.limits]
    finding.legs = [_leg_json(device, reading.unit) for device in devices]
    return finding


def _supply(reading: Reading, scene: Scene, devices: "list[Device]") -> "tuple[float | None, bool]":
    """Return the control volts and whether they were read: at the transformer, the plate's, or the first device's."""
    read = scene.nearest("control_voltage", reading)
    if read is not None and read.value is not None and read.value.value > 0:
        return read.value.value, True
    for name in ("control_voltage", "coil_voltage"):
        plate = scene.machine.number(name)
        if plate is not None:
            return plate, False
    first = devices[0].volts
    known = reading.option("method") != "across" and first is not None and first > 0
    return (first if known else None), False


def _to_return(string: String, reading: Reading) -> Finding:
    """Walk the string: the first device with volts in and none out is open; else the one that drops most speaks."""
    before, step = _volts_in(string), 0.0
    unexpected: "Device | None" = None
    for index in range(len(string.devices)):
        device = string.devices[index]
        after = device.volts or 0.0
        if string.percent(after - before) > NONE_PERCENT:
            return _told(reading, device, CANNOT_TELL, "control_chain.rises")
        ends = string.percent(after) < NONE_PERCENT
        if ends and not device.closed:
            device.verdict = PASS
            return _open_as_drawn(string, reading, device, string.devices[index + 1 :])
        string.judge(device, max(0.0, before - after), (step, device.step))
        if ends or device.verdict == FAIL:
            device.verdict = FAIL
            return _told(reading, device, FAIL, "control_chain.open")
        if not device.closed and unexpected is None:
            unexpected = device
        before, step = after, device.step
    finding = _worst(string, reading)
    if unexpected is not None and finding.verdict == PASS:
        unexpected.verdict = WATCH
        return _told(reading, unexpected, WATCH, "control_chain.closed_not_open")
    return finding


def _volts_in(string: String) -> float:
    """Return the volts before the first device: those read, or its own when the plate's volts are near enough."""
    first = string.devices[0].volts or 0.0
    if string.read or first < COIL_SHARE * string.supply:
        return string.supply
    return first


def _open_as_drawn(string: String, reading: Reading, device: Device, rest: "list[Device]") -> Finding:
    """An open device ends the string: what comes after it can't be told, what came before is."""
    finding = _worst(string, reading)
    if finding.verdict == PASS and rest:
        names = [other.name for other in rest]
        return _told(reading, device, CANNOT_TELL, "control_chain.ends", {"devices": names})
    return finding


def _worst(string: String, reading: Reading) -> Finding:
    """Return the finding of the device that dropped most."""
    worst = string.devices[0]
    for device in string.devices[1:]:
        if (device.dropped or 0.0) > (worst.dropped or 0.0):
            worst = device
    verdict = worst.verdict if worst.dropped is not None else PASS
    return _told(reading, worst, verdict, "control_chain." + verdict)


def _across(string: String, reading: Reading, scene: Scene) -> Finding:
    """Judge volts across each device: full volts is open, none proves nothing unless the coil has its volts."""
    for device in string.devices:
        string.judge(device, device.volts or 0.0, (device.step,))
    opened = [device for device in string.devices if device.verdict == FAIL]
    if len(opened) > 1:
        names = [device.name for device in opened]
        return _told(reading, opened[0], CANNOT_TELL, "control_chain.two_open", {"devices": names})
    if opened:
        device = opened[0]
        expected = not device.closed
        return _told(
            reading, device, PASS if expected else FAIL, "control_chain." + ("as_drawn" if expected else "open")
        )
    finding = _worst(string, reading)
    if finding.verdict != PASS:
        return finding
    if _coil_has_volts(string, reading, scene):
        return finding
    for device in string.devices:
        device.verdict = CANNOT_TELL
    return _told(reading, string.devices[0], CANNOT_TELL, "control_chain.across_proves_nothing")


def _coil_has_volts(string: String, reading: Reading, scene: Scene) -> bool:
    coil = scene.nearest("coil_voltage", reading)
    return (
        coil is not None
        and coil.value is not None
        and coil.option("called") is True
        and coil.value.value >= COIL_SHARE * string.supply
    )


def _told(reading: Reading, device: Device, verdict: str, key: str, more: "Json | None" = None) -> Finding:
    finding = Finding(CHECK.name, verdict, [reading.id])
    finding.value, finding.unit = device.dropped, "%"
    finding.uncertainty = device.uncertainty if device.dropped is not None else None
    finding.detail["device"] = device.name
    values: Json = {"device": device.name, "value": device.dropped, "volts": device.as_read, "unit": reading.unit}
    values.update(more or {})
    return finding.say(key, values)


def _leg_json(device: Device, unit: str) -> Json:
    return {
        "leg": device.name,
        "value": device.as_read,
        "unit": unit,
        "deviation": device.dropped,
        "deviation_unit": "%",
        "expected": "closed" if device.closed else "open",
        "verdict": device.verdict,
    }


CHECK = Check(
    name="control_chain",
    reads=("control_chain", "control_voltage", "coil_voltage"),
    unit="%",
    formula="volts dropped across one device / control volts; full volts in and none out is open",
    limits=LIMITS,
    sources=(HOPSCOTCH,),
    example={
        "machine": {"control_voltage": 120},
        "readings": [
            {
                "point": "control_chain",
                "contacts": [
                    {"name": "fuse", "volts": "119.8", "expected": "closed"},
                    {"name": "high pressure", "volts": "119.5", "expected": "closed"},
                    {"name": "oil control", "volts": "57.5", "expected": "closed"},
                ],
                "unit": "V",
                "state": "stopped",
                "called": True,
                "method": "to_return",
            }
        ],
        "value": 51.666666666666664,
        "tolerance": 1e-9,
        "verdict": "watch",
        "source": "handbook A7: 62 V across a closed 120 V contact is a burnt one; 62/120",
    },
    find=find,
)

"""Before a reset: what opened, and whether the motor holds off the shell. Source: CHECKS.md, Gates."""

from .. import moment
from ..kinds import Json
from ..limits import FAIL, PASS, WATCH
from .gate import Block, Need
from .known import Known, fails, reading_of

# A complaint names the device; of the others nothing need have tripped.
COMPLAINT_DEVICES = {
    "oil_trip": "oil_control",
    "overload_trip": "overload",
    "breaker_trip": "breaker",
    "protector_trip": "module",
    "high_pressure_trip": "high_pressure",
    "phase_alarm": "phase_monitor",
    "high_discharge_temperature": "head_temperature",
}
NOTHING_TRIPPED = ("routine", "high_current", "low_current", "unbalanced_current", "noise")
SIGN_DEVICES = (
    ("breaker_tripped", "breaker"),
    ("fuse_open", "fuse"),
    ("overload_tripped", "overload"),
    ("module_locked_out", "module"),
    ("high_pressure_tripped", "high_pressure"),
)
SHORT_SIGNS = ("trips_instantly", "trips_when_hot", "burnt_smell")
# A winding at or above this was tested hot. Source: judgement; the reference of IEEE 43.
HOT_C = 40.0


def tripped(known: Known) -> "list[tuple[str, str]]":
    """Return (device, what shows it) of all known to have opened: by the log, the first to trip first; by sign."""
    trips = [event for event in known.call.events if event["what"] == "trip"]
    dated = sorted(
        [(not event.get("at"), moment.seconds(event.get("at") or "") or 0.0, event["device"]) for event in trips]
    )
    found = [(device, "event:" + device) for _, _, device in dated]
    found.extend([(device, "sign:" + sign) for sign, device in SIGN_DEVICES if known.call.sign(sign)])
    return found


def reset_needs(known: Known) -> "list[Need]":
    devices = tripped(known)
    if not devices and known.call.complaint in NOTHING_TRIPPED and not _short_suspected(known):
        return []
    needs = [Need("what_opened", "", _what_opened(known, devices))]
    if insulation_asked(known):
        needs.append(_firm(Need("insulation", "insulation_resistance", known.good("insulation"))))
        if known.call.sign("trips_when_hot"):
            needs.append(_firm(Need("insulation_hot", "insulation_resistance", _hot_insulation(known))))
        if _cable_suspected(known):
            needs.append(_firm(Need("cable_insulation", "cable_insulation_resistance", known.good("cable_insulation"))))
    return needs


def _firm(need: Need) -> Need:
    """Mark a need that no person may pass: a breaker is not closed on an untested winding."""
    need.overridable = False
    return need


def _what_opened(known: Known, devices: "list[tuple[str, str]]") -> "str | None":
    if devices:
        return devices[0][1]
    photos: "list[Json]" = [photo for photo in known.call.photos if photo["shows"] == "alarm"]
    return "photo:" + str(photos[0].get("id") or "alarm") if photos else None


def insulation_asked(known: Known) -> bool:
    """Return whether insulation comes before a reset: breaker, fuse, a short suspected, or nobody knows what opened."""
    devices = [device for device, _ in tripped(known)]
    said = COMPLAINT_DEVICES.get(known.call.complaint)
    if said is not None:
        devices.append(said)
    return "breaker" in devices or "fuse" in devices or _short_suspected(known) or not devices


def _short_suspected(known: Known) -> bool:
    return bool([sign for sign in SHORT_SIGNS if known.call.sign(sign)])


def _hot_insulation(known: Known) -> "str | None":
    for _, finding in known.findings("insulation"):
        hot = finding.detail.get("winding_c") is not None and finding.detail["winding_c"] >= HOT_C
        if finding.verdict in (PASS, WATCH) and (hot or known.call.sign("motor_still_hot")):
            return reading_of(finding)
    return None


def _cable_suspected(known: Known) -> bool:
    """Return whether motor and cable together were low and the motor alone is good: then the cable is the low one."""
    low, cleared = False, False
    for _, finding in known.findings("insulation"):
        if finding.detail.get("leads") == "off":
            cleared = finding.verdict in (PASS, WATCH)
        elif finding.verdict == FAIL:
            low, cleared = True, False
        elif finding.verdict == PASS:
            low = False
    return low and cleared


def insulation_blocks(known: Known) -> "list[Block]":
    """Return what was found below its minimum; none of it may be passed by a person."""
    blocks = []
    for check in ("insulation", "cable_insulation"):
        if fails(known, check):
            blocks.append(Block(check, reading_of(known.decided[check]), False))
    if _grounded_by_ohmmeter(known):
        blocks.append(Block("winding_ground", reading_of(known.decided["winding_ground"]), False))
    return blocks


def _grounded_by_ohmmeter(known: Known) -> bool:
    """Return whether an ohmmeter found a ground that no later insulation test of motor and cable took back."""
    if not fails(known, "winding_ground"):
        return False
    last = known.findings("winding_ground")[-1][0]
    after = [finding for at, finding in known.findings("insulation") if at >= last and finding.verdict == PASS]
    joined = [finding for finding in after if finding.detail.get("leads") != "off"]
    return not (joined or (after and known.good("cable_insulation")))

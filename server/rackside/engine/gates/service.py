"""Before leaving it running: the proof of a start and a run, the cause named, everything closed. Source: CHECKS.md."""

from .. import moment
from ..causes.found_phase import REPAIRS, first_repair
from ..kinds import Json
from ..limits import CANNOT_TELL, FAIL
from ..open_items import open_items
from ..points.point import STARTING
from ..reading import Reading
from .gate import Block, Need
from .known import Known, name_of

RUN_IN_SECONDS = 900.0
NOT_FOUND = ("nothing_found", "unknown")
# Devices that protect the machine and can be made to trip on purpose.
CONTROLS = ("oil_control", "overload", "module", "high_pressure", "low_pressure", "head_temperature", "phase_monitor")
RUN_IN = (
    ("run_in_current", "running_current", ""),
    ("run_in_net_oil", "pump_pressure", "net_oil_pressure"),
    ("run_in_superheat", "suction_temperature", "suction_superheat"),
    ("run_in_sump", "sump_temperature", ""),
    ("run_in_discharge", "discharge_temperature", ""),
)
# Other points that give the three currents: the halves of a part-winding motor, a drive's output.
INSTEAD = {"running_current": ("half_current", "drive_output_current")}


def service_needs(known: Known) -> "list[Need]":
    needs = [Need("witnessed_start", _start_point(known), _start_seen(known))]
    for name, point, check in RUN_IN:
        if point == "pump_pressure" and (known.machine.word("oil_pump") == "none" or known.machine.kind() == "welded"):
            continue
        ran = [_ran(known, one, check) for one in (point,) + INSTEAD.get(point, ())]
        shown = [one for one in ran if one is not None]
        needs.append(Need(name, point, shown[0] if shown else None))
    needs.append(Need("cause_named", "", _cause_named(known)))
    needs.append(Need("closed_out", "", None if open_items(known.call) else "log"))
    for device in touched_controls(known):
        point = "trip_delay" if device == "oil_control" else ""
        needs.append(Need("trip_test", point, _trip_tested(known, device), {"device": device}))
    decision = known.call.decision or {}
    needs.append(Need("watch_date", "", "decision" if decision.get("watch_until") else None))
    return needs


def _proofs(known: Known, point: str) -> "list[Reading]":
    """Return the readings of a point that prove the machine as it is left: as left, else after the last repair."""
    left = []
    for round_, _ in known.judged:
        if round_.label == "as_left":
            left.extend([reading for reading in round_.readings if reading.point.name == point and reading.sound()])
    repaired = known.last_action(REPAIRS)
    if left:
        return [reading for reading in left if not _before(known, reading, repaired)]
    if known.actions(REPAIRS) and repaired is None:
        return []
    return [reading for reading in known.readings(point) if not _before(known, reading, repaired)]


def _before(known: Known, reading: Reading, edge: "float | None") -> bool:
    at = known.when(reading)
    return edge is not None and at is not None and at < edge


def _start_point(known: Known) -> str:
    return "drive_output_current" if known.machine.word("start") == "drive" else "start_current"


def _start_seen(known: Known) -> "str | None":
    """Return the reading of a start with three legs, when the least volts of a start were read too."""
    starts = _proofs(known, _start_point(known))
    starts = starts or [one for one in _proofs(known, "half_current") if one.state == STARTING]
    volts = _proofs(known, "start_voltage") + _proofs(known, "start_line_voltage")
    shaped = known.machine.word("start") in ("drive", "soft")
    return name_of(starts[-1]) if starts and (volts or shaped) else None


def _ran(known: Known, point: str, check: str) -> "str | None":
    """Return a reading of a point after a quarter of an hour's run; where a check is named it must tell something."""
    for reading in reversed(_proofs(known, point)):
        since = reading.number("since_start")
        at = known.when(reading)
        start = known.timeline.before(at) if since is None and at is not None else None
        if since is None and start is not None and at is not None:
            since = at - start
        if since is not None and since >= RUN_IN_SECONDS and (not check or _tells(known, check, reading)):
            return name_of(reading)
    return None


def _tells(known: Known, check: str, reading: Reading) -> bool:
    for _, finding in known.findings(check):
        if finding.verdict != CANNOT_TELL and (reading.id in finding.readings or not reading.id):
            return True
    return False


def _cause_named(known: Known) -> "str | None":
    """Return "decision" when it names the cause with its repair, or states that none was found."""
    decision = known.call.decision or {}
    if decision.get("decision") == "no_fault_found" or decision.get("cause") in NOT_FOUND:
        return "decision"
    if not decision.get("cause"):
        return None
    return "decision" if decision.get("repair") or known.actions(REPAIRS) else None


def touched_controls(known: Known) -> "list[str]":
    """Return the devices that a setting, a jumper or a new part touched, by the words of the action."""
    found: "list[str]" = []
    for action in known.actions(("setting_changed", "part_fitted", "jumper_on")):
        words = str(action.get("what") or "").lower()
        found.extend([device for device in CONTROLS if device.replace("_", " ") in words])
    return [device for device in CONTROLS if device in found]


def _trip_tested(known: Known, device: str) -> "str | None":
    """Return what shows that a control was made to trip after it was touched: its time, or a trip a person caused."""
    touched = known.last_action(("setting_changed", "part_fitted", "jumper_on")) or 0.0
    if device == "oil_control":
        delays = [reading for reading in known.readings("trip_delay") if (known.when(reading) or 0.0) >= touched]
        if delays:
            return name_of(delays[-1])
    for event in known.call.events:
        at = moment.seconds(event["at"]) if event.get("at") else None
        if event["device"] == device and is_test(event) and at is not None and at >= touched:
            return "event:" + device
    return None


def is_test(event: Json) -> bool:
    """Return whether a trip was made on purpose."""
    return event["what"] == "trip" and "test" in (str(event.get("text") or "") + str(event.get("source") or "")).lower()


def service_blocks(known: Known) -> "list[Block]":
    blocks = [Block(check, "finding:" + check, True, "failed") for check in unanswered_fails(known)]
    trips = _trips_in_run_in(known)
    if trips:
        blocks.append(Block("trip_in_run_in", "event:" + trips[0]["device"]))
    return blocks


def unanswered_fails(known: Known) -> "list[str]":
    """Return the checks that fail in the last round, with no repair after the reading."""
    if not known.judged:
        return []
    round_, findings = known.judged[-1]
    repaired = known.last_action(REPAIRS)
    found = []
    for finding in findings:
        at = finding.at if finding.at is not None else round_.at
        answered = repaired is not None and at is not None and repaired >= at
        if finding.carries and finding.verdict == FAIL and not answered:
            found.append(finding.check)
    return sorted(found)


def _trips_in_run_in(known: Known) -> "list[Json]":
    """Return the trips after the last repair, or after the last start when nothing was repaired, tests left out."""
    since = known.last_action(REPAIRS) if first_repair(known.call) is not None else known.timeline.last_start()
    found = []
    for event in known.call.events:
        at = moment.seconds(event["at"]) if event.get("at") else None
        if event["what"] == "trip" and not is_test(event) and at is not None and since is not None and at > since:
            found.append(event)
    return found

"""Due times computed from the readings; the page runs them. Source: CHECKS.md, Gates; HANDBOOK.md, A9, A10, A21."""

from . import moment
from .gates.known import Known
from .gates.restart import next_start
from .kinds import Json
from .limits import CANNOT_TELL
from .number import read_number
from .say import say
from .timeline import LOCKED_WAIT, START_WAIT

HOUR = 3600.0
DAY = 24.0 * HOUR
INSULATION_SECONDS = 60.0
USUAL_DELAY = 120.0
HOT_PROTECTOR_WAIT = HOUR
LINE_BREAK_WAIT = 4.0 * HOUR
# What to look at in the watch window: the words' key, and after how long from the decision.
WATCH = (("first_day", DAY), ("three_days", 3.0 * DAY), ("one_week", 7.0 * DAY), ("two_weeks", 14.0 * DAY))
INSULATION_WATCH = 30.0 * DAY
# What a check says of a protector that has only to cool.
HOT_PROTECTOR = ("winding_balance.protector_may_be_open", "protector.tripped_hot", "protector.open_hot")
LEFT_RUNNING = ("restart", "repair", "run_under_watch", "no_fault_found")
# Every rule by which a clock runs: the clock, the words' key, seconds from what the words say, values of the words.
RULES: "tuple[tuple[str, str, float, Json], ...]" = (
    ("next_start_allowed", "after_start", START_WAIT, {}),
    ("next_start_allowed", "after_locked", LOCKED_WAIT, {}),
    ("cooling", "locked_cools", LOCKED_WAIT, {}),
    ("cooling", "protector_cools", HOT_PROTECTOR_WAIT, {"hours": HOT_PROTECTOR_WAIT / HOUR}),
    ("cooling", "protector_cools", LINE_BREAK_WAIT, {"hours": LINE_BREAK_WAIT / HOUR}),
    ("oil_timing", "oil_timing", USUAL_DELAY, {"seconds": USUAL_DELAY}),
    ("insulation_minute", "insulation_minute", INSULATION_SECONDS, {}),
) + tuple([("watch_until", key, after, {}) for key, after in WATCH + (("thirty_days", INSULATION_WATCH),)])  # fmt: skip


def rules_described(language: str) -> "list[Json]":
    """Return every rule of the clocks; a machine's own delay wins over the seconds of `oil_timing`."""
    return [
        {"clock": clock, "rule": key, "seconds": seconds, "text": say("clock." + key, values, language)}
        for clock, key, seconds, values in RULES
    ]


def clocks(known: Known, language: str) -> "list[Json]":
    """Return the clocks of a call, the next due first."""
    found = _starting(known) + _cooling(known) + _oil(known) + _insulation(known) + _watching(known)
    told = []
    for what, due, key, values in sorted(found, key=lambda clock: (clock[1], clock[0], clock[2])):
        zone = moment.zone_of(known.call.now_text) if known.call.now_text else "+00:00"
        told.append({"what": what, "due": moment.written(due, zone), "because": say("clock." + key, values, language)})
    return told


def _starting(known: Known) -> "list[tuple[str, float, str, Json]]":
    due = next_start(known)
    locked = known.timeline.last_locked()
    if due is None:
        return []
    key = "after_locked" if locked is not None and due == locked + LOCKED_WAIT else "after_start"
    return [("next_start_allowed", due, key, {})]


def _cooling(known: Known) -> "list[tuple[str, float, str, Json]]":
    found: "list[tuple[str, float, str, Json]]" = []
    locked = known.timeline.last_locked()
    if locked is not None:
        found.append(("cooling", locked + LOCKED_WAIT, "locked_cools", {}))
    for at, finding in known.findings("winding_balance") + known.findings("protector"):
        hot = [key for key, _ in finding.said if key in HOT_PROTECTOR]
        if hot and at > 0.0 and finding.carries:
            line_break = known.machine.part("protector", "kind") == "line-break"
            wait = LINE_BREAK_WAIT if line_break else HOT_PROTECTOR_WAIT
            found.append(("cooling", at + wait, "protector_cools", {"hours": wait / HOUR}))
    return found


def _oil(known: Known) -> "list[tuple[str, float, str, Json]]":
    start = known.timeline.last_start()
    if start is None or known.machine.word("oil_pump") == "none" or known.machine.kind() == "welded":
        return []
    delay = known.machine.part_number("oil_control", "delay") or USUAL_DELAY
    return [("oil_timing", start + delay, "oil_timing", {"seconds": delay})]


def _insulation(known: Known) -> "list[tuple[str, float, str, Json]]":
    """Return when the minute of the newest insulation test is over, when it was read before."""
    reading = known.latest("insulation_resistance")
    at = known.when(reading) if reading is not None else None
    if reading is None or at is None:
        return []
    seconds = read_number(reading.option("seconds"))
    if seconds is None or seconds.value >= INSULATION_SECONDS:
        return []
    return [("insulation_minute", at + INSULATION_SECONDS - seconds.value, "insulation_minute", {})]


def _watching(known: Known) -> "list[tuple[str, float, str, Json]]":
    """Return the dates of the watch window from the decision on, and the one the decision names."""
    decision = known.call.decision or {}
    found: "list[tuple[str, float, str, Json]]" = []
    until = moment.seconds(decision.get("watch_until") or "")
    if until is not None:
        found.append(("watch_until", until, "watch_until", {}))
    decided = moment.seconds(decision.get("at") or "") or known.call.now
    if decision.get("decision") not in LEFT_RUNNING or decided is None:
        return found
    for key, after in WATCH:
        found.append(("watch_until", decided + after, key, {}))
    finding = known.standing.get("insulation")
    corrected = finding.detail.get("at_40c") if finding is not None and finding.verdict != CANNOT_TELL else None
    if corrected is not None and 5.0 <= corrected <= 100.0:
        found.append(("watch_until", decided + INSULATION_WATCH, "thirty_days", {}))
    return found

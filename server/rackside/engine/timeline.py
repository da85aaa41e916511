"""When the machine was started, and which attempts stood locked: from the log, the readings and their findings."""

from . import moment
from .call import Call, Round
from .finding import Finding
from .points.point import STARTING

# Two records of one start lie closer together than any two starts may. Source: judgement.
SAME_START_SECONDS = 60.0
START_WAIT = 300.0
LOCKED_WAIT = 1800.0
MOST_ATTEMPTS = 2


class Timeline:
    """Starts of the machine, oldest first [s since 1970 UTC], and the attempts that stood locked."""

    def __init__(self, call: Call, judged: "list[tuple[Round, list[Finding]]]") -> None:
        times = [moment.seconds(event["at"]) for event in call.events if event["what"] == "start" and event.get("at")]
        locked = [moment.seconds(sign["at"]) for sign in _hums(call)]
        for round_, findings in judged:
            times.extend(_starts_of(round_))
            locked.extend([_when(finding, round_) for finding in findings if _stood_locked(finding)])
        self.locked = _merged(locked)
        self.starts = _merged(times + locked)

    def last_start(self) -> "float | None":
        return self.starts[-1] if self.starts else None

    def last_locked(self) -> "float | None":
        return self.locked[-1] if self.locked else None

    def before(self, at: float) -> "float | None":
        """Return the last start not after a moment, None when none is known."""
        found = [start for start in self.starts if start <= at]
        return found[-1] if found else None


def _hums(call: Call) -> "list[dict[str, str]]":
    signs = call.case.get("signs") or []
    return [sign for sign in signs if sign["sign"] == "hums_no_rotation" and sign["present"] and sign.get("at")]


def _starts_of(round_: Round) -> "list[float | None]":
    """Return the starts that readings of a round tell of: taken in one, or with the seconds since it."""
    found: "list[float | None]" = []
    for reading in round_.readings:
        at = reading.at if reading.at is not None else round_.at
        since = reading.number("since_start")
        if not reading.sound() or reading.option("twin") or at is None:
            continue
        if since is not None:
            found.append(at - since)
        elif reading.state == STARTING:
            found.append(at)
    return found


def _stood_locked(finding: Finding) -> bool:
    return finding.check == "start_current" and bool(finding.said) and finding.said[0][0] == "start_current.locked"


def _when(finding: Finding, round_: Round) -> "float | None":
    return finding.at if finding.at is not None else round_.at


def _merged(times: "list[float | None]") -> "list[float]":
    merged: "list[float]" = []
    for time in sorted([time for time in times if time is not None]):
        if not merged or time - merged[-1] > SAME_START_SECONDS:
            merged.append(time)
    return merged

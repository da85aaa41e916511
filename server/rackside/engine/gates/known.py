"""What a call knows, as the gates ask for it: the latest reading, the standing verdict, who saw what and when."""

from .. import moment
from ..call import Call, Round
from ..causes.found_phase import REPAIRS, content
from ..finding import Finding
from ..kinds import Json
from ..limits import CANNOT_TELL, FAIL, PASS, WATCH, rank
from ..reading import Reading
from ..timeline import Timeline

ORDER = {"as_found": 0, "interim": 1, "as_left": 2}


class Known:
    """A call with its findings, in the order of time.

    standing: for each check the last carrying finding of a reading that was taken. decided: the last of those that is
    not cannot_tell. So a reading left out, or one that decides nothing, takes back neither a pass nor a fail.
    """

    def __init__(self, call: Call, judged: "list[tuple[Round, list[Finding]]]") -> None:
        self.call = call
        self.machine = call.machine
        self.judged = _in_time(judged)
        self.standing: "dict[str, Finding]" = {}
        self.decided: "dict[str, Finding]" = {}
        for _, findings in self.judged:
            self._note(findings)
        self.timeline = Timeline(call, judged)
        self._readings = _readings(self.judged)

    def _note(self, findings: "list[Finding]") -> None:
        for finding in findings:
            if finding.carries and not finding.unread():
                self.standing[finding.check] = finding
                if finding.verdict != CANNOT_TELL:
                    self.decided[finding.check] = finding

    def verdict(self, check: str) -> str:
        """Return the standing verdict of a check, "" when it was never judged."""
        finding = self.standing.get(check)
        return finding.verdict if finding is not None else ""

    def good(self, check: str) -> "str | None":
        """Return the reading by which a check stands at pass or watch, None when it does not."""
        finding = self.standing.get(check)
        return reading_of(finding) if finding is not None and finding.verdict in (PASS, WATCH) else None

    def findings(self, check: str) -> "list[tuple[float, Finding]]":
        """Return (time, finding) of every finding of a check, in the order of time."""
        found = []
        for round_, findings in self.judged:
            for finding in findings:
                if finding.check == check:
                    when = finding.at if finding.at is not None else round_.at
                    found.append((when or 0.0, finding))
        return sorted(found, key=lambda pair: (pair[0], pair[1].readings, rank(pair[1].verdict)))

    def readings(self, point: str, state: str = "") -> "list[Reading]":
        """Return the sound readings of a point on this machine, oldest first."""
        found = [reading for _, reading in self._readings if reading.point.name == point]
        return [reading for reading in found if not state or reading.state in ("", state)]

    def latest(self, point: str, state: str = "") -> "Reading | None":
        found = self.readings(point, state)
        return found[-1] if found else None

    def value(self, point: str) -> "float | None":
        """Return the latest value of a point in its base unit, None without one."""
        reading = self.latest(point)
        return reading.value.value if reading is not None and reading.value is not None else None

    def when(self, wanted: Reading) -> "float | None":
        for at, reading in self._readings:
            if reading is wanted:
                return at
        return None

    def sign_at(self, name: str) -> "float | None":
        """Return when the latest answer to a sign was given, None when it was not dated."""
        times = [
            moment.seconds(sign["at"])
            for sign in self.call.case.get("signs") or []
            if sign["sign"] == name and sign.get("at")
        ]
        dated = [time for time in times if time is not None]
        return max(dated) if dated else None

    def actions(self, kinds: "tuple[str, ...]") -> "list[Json]":
        return [action for action in self.call.actions if action["kind"] in kinds]

    def last_action(self, kinds: "tuple[str, ...]" = REPAIRS) -> "float | None":
        """Return when the last action of some kinds was taken, None when none was or none is dated."""
        times = [moment.seconds(action["at"]) for action in self.actions(kinds) if action.get("at")]
        dated = [time for time in times if time is not None]
        return max(dated) if dated else None


def reading_of(finding: "Finding | None") -> str:
    """Return the id of the reading a finding stands on; the check's name when the reading has none."""
    if finding is None:
        return ""
    named = [reading for reading in finding.readings if reading]
    return named[0] if named else "finding:" + finding.check


def name_of(reading: Reading) -> str:
    """Return the id of a reading; its point when it has none."""
    return reading.id or "reading:" + reading.point.name


def _in_time(judged: "list[tuple[Round, list[Finding]]]") -> "list[tuple[Round, list[Finding]]]":
    keyed = []
    for index in range(len(judged)):
        round_ = judged[index][0]
        keyed.append((ORDER.get(round_.label, 1), round_.at or 0.0, round_.id, index))
    return [judged[index] for _, _, _, index in sorted(keyed)]


def _readings(judged: "list[tuple[Round, list[Finding]]]") -> "list[tuple[float | None, Reading]]":
    """Return (time, reading) of all sound readings of this machine: by round, then by time, then by id."""
    found = []
    for place in range(len(judged)):
        round_ = judged[place][0]
        for reading in round_.readings:
            if reading.sound() and not reading.option("twin"):
                at = reading.at if reading.at is not None else round_.at
                found.append(((place, at or 0.0, reading.id, content(reading)), (at, reading)))
    return [pair for _, pair in sorted(found, key=lambda one: one[0])]


def fails(known: Known, check: str) -> bool:
    """Return whether a check failed and nothing decided since took that back."""
    finding = known.decided.get(check)
    return finding is not None and finding.verdict == FAIL

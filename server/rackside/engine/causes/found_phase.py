"""What was found, before anything was repaired: only that is evidence of the cause."""

from .. import moment
from ..call import Call, Round
from ..finding import Finding
from ..limits import rank
from ..reading import Reading

REPAIRS = ("part_fitted", "cleaned", "setting_changed", "oil_added", "charge_added")
# A later, better test of these replaces an earlier one; of everything else the worse counts, since faults come and go.
LATEST_COUNTS = ("insulation", "cable_insulation", "winding_balance", "winding_ground", "protector")
# Judged at more than one place in a round, so every reading of it counts and not only the carrying one.
EVERY_READING = ("supply_voltage_level",)


def first_repair(call: Call) -> "float | None":
    """Return when the first repair was made, None when none is dated."""
    first = None
    for action in call.actions:
        at = moment.seconds(action["at"]) if action["kind"] in REPAIRS and action.get("at") else None
        if at is not None and (first is None or at < first):
            first = at
    return first


class FoundPhase:
    """The rounds that show the machine as it was found: not as left, and not after the first repair."""

    def __init__(self, call: Call, judged: "list[tuple[Round, list[Finding]]]") -> None:
        self.repaired = first_repair(call)
        before = [pair for pair in judged if pair[0].label != "as_left"]
        self.judged = before or judged
        self.as_found = [pair for pair in self.judged if pair[0].label == "as_found"] or self.judged

    def counts(self, at: "float | None", round_: Round) -> bool:
        """Return whether something read at a time belongs to what was found."""
        when = round_.at if at is None else at
        return self.repaired is None or when is None or when <= self.repaired

    def findings(self) -> "list[Finding]":
        """Return for each check the findings that speak: all that may, in the order of time."""
        found = []
        for round_, findings in self.judged:
            for finding in findings:
                speaks = finding.carries or (finding.check in EVERY_READING and finding.fits)
                if speaks and self.counts(finding.at, round_):
                    when = finding.at if finding.at is not None else round_.at
                    found.append(((when or 0.0, finding.check, finding.readings, rank(finding.verdict)), finding))
        return [finding for _, finding in sorted(found, key=lambda pair: pair[0])]

    def readings(self, as_found_only: bool = False) -> "list[Reading]":
        """Return the sound readings of this machine, in the order of time."""
        found = []
        for round_, _ in self.as_found if as_found_only else self.judged:
            for reading in round_.readings:
                if reading.sound() and self.counts(reading.at, round_) and not reading.option("twin"):
                    when = reading.at if reading.at is not None else round_.at
                    found.append(((when or 0.0, reading.id, content(reading)), reading))
        return [reading for _, reading in sorted(found, key=lambda pair: pair[0])]

    def twins(self) -> "list[Reading]":
        """Return the readings of these rounds that were taken on the like machine beside."""
        found = []
        for round_, _ in self.judged:
            found.extend([reading for reading in round_.readings if reading.sound() and reading.option("twin")])
        return found


def content(reading: Reading) -> str:
    """Return what tells two readings apart that have neither time nor id, so that their order in the case does not."""
    if reading.id:
        return ""
    legs = reading.raw.get("legs") or {}
    texts = [str(legs.get(key)) for key in reading.point.keys]
    return reading.point.name + " " + str(reading.raw.get("value")) + " " + " ".join(texts)


def stronger(check: str, one: Finding, other: Finding) -> Finding:
    """Return which of two findings of a check, the second later, speaks for what was found."""
    if check in LATEST_COUNTS:
        return other
    return one if rank(one.verdict) > rank(other.verdict) else other

"""A limit, where it comes from, and the one rule that turns a value into a verdict.

Decision rule: guard bands of JCGM 106:2012, 8.3 (guarded acceptance and rejection); from memory. With lo and hi being
value minus and plus its expanded uncertainty: fail when the whole interval lies beyond the fail limit, pass when it
lies within the watch limit, watch when it lies within the fail limit, else cannot tell.
"""

from .kinds import Json

PASS = "pass"
WATCH = "watch"
FAIL = "fail"
CANNOT_TELL = "cannot_tell"
# Worse to the right: what can't be told is not known to be better than a fail.
ORDER = (PASS, WATCH, CANNOT_TELL, FAIL)

PUBLISHED = "published"
COMMON_PRACTICE = "common practice"
FROM_MEMORY = "from memory"


class Source:
    """Where a number comes from: document, clause, edition and how it was seen."""

    def __init__(self, work: str, clause: str, edition: str, status: str) -> None:
        self.work = work
        self.clause = clause
        self.edition = edition
        self.status = status

    def as_json(self) -> Json:
        return {"work": self.work, "clause": self.clause, "edition": self.edition, "status": self.status}


TRADE = Source("common practice, no source", "", "", COMMON_PRACTICE)


class Limit:
    """One bound: values above (or below) it get at least this verdict. `unit` is the check's own."""

    def __init__(
        self, verdict: str, above: "float | None", below: "float | None", unit: str, source: Source, when: str = ""
    ) -> None:
        self.verdict = verdict
        self.above = above
        self.below = below
        self.unit = unit
        self.source = source
        self.when = when

    def as_json(self) -> Json:
        told: Json = {"verdict": self.verdict, "unit": self.unit, "source": self.source.as_json()}
        if self.above is not None:
            told["above"] = self.above
        if self.below is not None:
            told["below"] = self.below
        if self.when:
            told["when"] = self.when
        return told


def upper(
    watch: "float | None", fail: "float | None", unit: str, source: Source, when: str = ""
) -> "tuple[Limit, ...]":
    """Return the limits of a value that must not be too high."""
    found = []
    if watch is not None:
        found.append(Limit(WATCH, watch, None, unit, source, when))
    if fail is not None:
        found.append(Limit(FAIL, fail, None, unit, source, when))
    return tuple(found)


def lower(
    watch: "float | None", fail: "float | None", unit: str, source: Source, when: str = ""
) -> "tuple[Limit, ...]":
    """Return the limits of a value that must not be too low."""
    found = []
    if watch is not None:
        found.append(Limit(WATCH, None, watch, unit, source, when))
    if fail is not None:
        found.append(Limit(FAIL, None, fail, unit, source, when))
    return tuple(found)


class Decision:
    """A verdict and the limit that decided it (None when nothing was near)."""

    def __init__(self, verdict: str, limit: "Limit | None") -> None:
        self.verdict = verdict
        self.limit = limit


def decide(low: "float | None", high: "float | None", limits: "tuple[Limit, ...]") -> Decision:
    """Return the decision for a value known to lie from low to high; None is unbounded on that side."""
    above = _side(high, low, [limit for limit in limits if limit.above is not None], 1.0)
    below = _side(_negated(low), _negated(high), [limit for limit in limits if limit.below is not None], -1.0)
    if rank(above.verdict) == rank(below.verdict):
        return below if above.limit is None else above
    return above if rank(above.verdict) > rank(below.verdict) else below


def rank(verdict: str) -> int:
    """Return how bad a verdict is; higher is worse."""
    return ORDER.index(verdict)


def worse(one: str, other: str) -> str:
    """Return the worse of two verdicts."""
    return one if rank(one) >= rank(other) else other


def _negated(value: "float | None") -> "float | None":
    return None if value is None else -value


def _bound(limit: Limit, sign: float) -> float:
    edge = limit.above if sign > 0 else limit.below
    return sign * edge if edge is not None else 0.0


def _strictest(limits: "list[Limit]", verdict: str, sign: float) -> "Limit | None":
    chosen = None
    for limit in limits:
        if limit.verdict == verdict and (chosen is None or _bound(limit, sign) < _bound(chosen, sign)):
            chosen = limit
    return chosen


def _side(far: "float | None", near: "float | None", limits: "list[Limit]", sign: float) -> Decision:
    """Judge one side; far is the end of the interval toward the limit, near the other end."""
    watch = _strictest(limits, WATCH, sign)
    fail = _strictest(limits, FAIL, sign)
    first = watch or fail
    if first is None:
        return Decision(PASS, None)
    if fail is not None and near is not None and near > _bound(fail, sign):
        return Decision(FAIL, fail)
    if far is not None and far <= _bound(first, sign):
        return Decision(PASS, first)
    if watch is not None and (fail is None or (far is not None and far <= _bound(fail, sign))):
        return Decision(WATCH, watch)
    return Decision(CANNOT_TELL, fail or watch)

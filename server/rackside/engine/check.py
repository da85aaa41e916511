"""A check: what it reads, its formula, its limits with their sources, its worked example."""

import math

from .finding import Finding, Scale
from .kinds import Any, Json
from .limits import CANNOT_TELL, WATCH, Decision, Limit, Source, decide
from .uncertainty import COVERAGE, digit_doubt

# Nearer to a limit than this, relative, a value stands on it; the rest is arithmetic.
AT_LIMIT = 1e-9
FINER_STEP = "decide.finer_step"


class Check:
    """One check, one file. `find(reading, scene)` answers a Finding, or None when it has nothing to say.

    reads: the points it uses. judges: those whose readings get a finding, the first when not told. unit: the unit its
    limits are in.
    untaken: finds for a reading that was not taken, where the reason is itself an answer.
    so_far: finds for a reading whose legs are still being typed; `find` itself where each leg is judged by itself.
    limits: all defaults, for people and programs to read. example: a small case with the value and verdict it must
    give, and the source of that value.
    """

    def __init__(
        self,
        name: str,
        reads: "tuple[str, ...]",
        unit: str,
        formula: str,
        limits: "tuple[Limit, ...]",
        example: Json,
        find: Any,
        sources: "tuple[Source, ...]" = (),
        difference: bool = False,
        carry: Any = None,
        judges: "tuple[str, ...]" = (),
        untaken: Any = None,
        so_far: Any = None,
    ) -> None:
        self.name = name
        self.reads = reads
        self.unit = unit
        self.formula = formula
        self.limits = limits
        self.example = example
        self.find = find
        self.sources = sources
        self.difference = difference
        self.carry = carry
        self.judges = judges or reads[:1]
        self.untaken = untaken
        self.so_far = so_far


class Measured:
    """A number a check arrived at, before any limit is applied. All in the check's unit.

    low, high: where it lies (None unbounded). step: the meter's step in the same unit, 0 when it does not matter.
    """

    def __init__(self, value: float, uncertainty: float, step: float = 0.0) -> None:
        self.value = value
        self.uncertainty = uncertainty
        self.step = step
        self.low: "float | None" = value - uncertainty
        self.high: "float | None" = value + uncertainty
        self.bound = ""


def decided(
    check: Check, measured: Measured, scale: Scale, limits: "tuple[Limit, ...]", readings: "list[str]"
) -> Finding:
    """Return the finding of a measured value against limits, with the sentence `<check>.<verdict>` and its numbers."""
    decision = decide(measured.low, measured.high, limits)
    finding = Finding(check.name, decision.verdict, readings)
    finding.value = scale.value(measured.value)
    finding.unit = scale.shown
    finding.uncertainty = scale.span(measured.uncertainty)
    finding.limits = [scale.limit(limit) for limit in limits]
    if measured.bound:
        finding.detail["bound"] = measured.bound
    numbers = _numbers(finding, measured, decision, scale)
    finding.say(_sentence(check, measured, decision), numbers)
    if decision.verdict == CANNOT_TELL:
        _say_what_would_decide(finding, measured, decision, scale)
    return finding


def _sentence(check: Check, measured: Measured, decision: Decision) -> str:
    if decision.verdict == WATCH and measured.bound:
        return "decide.range_ended"
    if decision.verdict == WATCH and _within(measured, decision.limit):
        return "decide.not_clear_of"
    return check.name + "." + decision.verdict


def _within(measured: Measured, limit: "Limit | None") -> bool:
    """Return whether the value itself lies inside a limit that its uncertainty reaches over."""
    if limit is None:
        return False
    if limit.above is not None:
        return measured.value <= limit.above
    return limit.below is not None and measured.value >= limit.below


def _numbers(finding: Finding, measured: Measured, decision: Decision, scale: Scale) -> Json:
    return {
        "value": finding.value,
        "uncertainty": finding.uncertainty,
        "unit": scale.shown,
        "limit": scale.edge(decision.limit),
        "bound": measured.bound,
    }


def finer_step(step: float, values: Json) -> float:
    """Return the step, a power of ten, whose doubt would fit into the gap to the limit; step: the meter's now."""
    finer = step * values["needed"] / values["uncertainty"]
    return float(10.0 ** math.floor(math.log(finer) / math.log(10.0)))


def _say_what_would_decide(finding: Finding, measured: Measured, decision: Decision, scale: Scale) -> None:
    """Name the resolution or uncertainty that would decide; at the limit itself no meter does."""
    edge = scale.edge(decision.limit)
    if edge is None or finding.value is None or measured.bound:
        finding.say("decide.other_test")
        return
    gap = abs(finding.value - edge)
    values = {"limit": edge, "unit": scale.shown, "needed": gap, "uncertainty": finding.uncertainty}
    if gap <= AT_LIMIT * max(1.0, abs(edge)):
        finding.say("decide.at_limit", values)
    elif measured.step > 0 and COVERAGE * digit_doubt(measured.step) >= 0.25 * measured.uncertainty:
        values["step"], values["step_unit"] = finer_step(scale.span(measured.step), values), scale.shown
        finding.say(FINER_STEP, values)
    else:
        finding.say("decide.better_meter", values)

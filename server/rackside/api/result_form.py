"""The form of a result: what the judge answers. The engine writes it; these models describe it."""

from typing import Any, Literal

from pydantic import Field

from rackside.api.told import Told

Verdict = Literal["pass", "watch", "fail", "cannot_tell"]


class Engine(Told):
    """Which engine judged: the same digest judges the same case alike everywhere."""

    version: str
    rules: str
    digest: str


class Summary(Told):
    """The checks that need somebody, and which gates are open."""

    verdict: Verdict
    fail: list[str]
    watch: list[str]
    cannot_tell: list[str]
    gates: dict[str, bool]


class Source(Told):
    work: str
    clause: str
    edition: str
    status: str = Field(description="published, common practice or from memory")


class Limit(Told):
    """A limit, in the unit of the finding's value."""

    verdict: Verdict
    above: float | None = None
    below: float | None = None
    unit: str | None
    source: Source


class Leg(Told):
    leg: str
    value: float | str | None
    unit: str | None
    verdict: Verdict | None = None


class Said(Told):
    """The sentence of `because` as a key and its values."""

    key: str
    values: dict[str, Any]


class Finding(Told):
    """One check of one reading: its verdict, its number with the meter's doubt, and the limit behind it."""

    check: str
    verdict: Verdict
    value: float | str | None
    unit: str | None
    uncertainty: float | None
    legs: list[Leg]
    limits: list[Limit]
    detail: dict[str, Any]
    because: str
    said: Said
    readings: list[str] = Field(description="The readings it rests on")
    missing: list[str] = Field(description="What was not given")
    carries: bool = Field(description="Whether this reading decides the check for gates and comparison")


class RoundFindings(Told):
    label: str
    findings: list[Finding]


class Cause(Told):
    cause: str
    probability: float = Field(ge=0, le=1, description="All causes, `unknown` included, sum to 1")
    for_: list[dict[str, Any]] = Field(alias="for")
    against: list[dict[str, Any]]


class NextTest(Told):
    point: str
    because: str
    caution: str | None
    expected_information: float


class Need(Told):
    need: str
    point: str | None
    text: str
    met_by: str | None
    overridable: bool


class Gate(Told):
    """What must be known before a decision, and whether it is."""

    open: bool
    needs: list[str]
    blocked_by: list[str]
    overridden: dict[str, Any] | None
    unmet: list[Need]


class Gates(Told):
    reset: Gate
    restart: Gate
    return_to_service: Gate
    condemn: Gate


class Clock(Told):
    what: str
    due: str
    because: str


class OpenItem(Told):
    kind: str
    what: str
    since: str | None


class Compared(Told):
    check: str
    as_found: float | str | None
    as_left: float | str | None
    unit: str | None


class Result(Told):
    """What a judge answers to a case."""

    engine: Engine
    summary: Summary
    rounds: list[RoundFindings]
    causes: list[Cause]
    next_test: NextTest | None
    gates: Gates
    clocks: list[Clock]
    open_items: list[OpenItem]
    comparison: list[Compared]

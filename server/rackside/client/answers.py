"""The answers a program reads most, as types. Members may be added; the API's own page describes all of them."""

from typing import Any, Literal, TypedDict

Json = dict[str, Any]
Verdict = Literal["pass", "watch", "fail", "cannot_tell"]
State = Literal["open", "submitted", "returned", "watching", "accepted", "closed"]
Table = Literal["sites", "machines", "people"]


class Named(TypedDict, total=False):
    """A site or machine as other answers name it."""

    id: str
    name: str | None
    tag: str | None
    rack: str | None
    time_zone: str | None


class Call(TypedDict):
    id: str
    complaint: str | None
    opened_at: str | None
    assigned_to: str | None
    follows: str | None
    author: str
    decision: str | None
    cause: str | None
    watch_until: str | None
    state: State
    machine: Named
    site: Named
    verdict: Verdict | None
    changed: int
    changed_at: str


class Machine(TypedDict):
    id: str
    rack: str | None
    tag: str | None
    type: str | None
    refrigerant: str | None
    retired: bool
    confirmed: bool
    changed: int
    changed_at: str
    site: Named
    plate: Json
    history: list[Json]


class Finding(TypedDict):
    check: str
    verdict: Verdict
    value: float | str | None
    unit: str | None
    uncertainty: float | None
    legs: list[Json]
    limits: list[Json]
    detail: Json
    because: str
    readings: list[str]
    missing: list[str]
    carries: bool


class Round(TypedDict):
    label: str
    findings: list[Finding]


class Result(TypedDict):
    """What a judge answers to a case."""

    engine: Json
    summary: Json
    rounds: list[Round]
    causes: list[Json]
    next_test: Json | None
    gates: dict[str, Json]
    clocks: list[Json]
    open_items: list[Json]
    comparison: list[Json]


class Results(TypedDict):
    """The server's judgement of a call."""

    call: str
    machine: str
    state: State
    judged_at: str
    result: Result
    phone: Json | None
    entries: int


class Entry(TypedDict, total=False):
    """What a device writes, once and for ever; the server adds cursor and received_at."""

    id: str
    schema: int
    kind: str
    call: str | None
    base: list[str]
    made_at: str
    device: str
    author: str
    body: Json
    cursor: int
    received_at: str


class EntryResult(TypedDict):
    id: str | None
    status: Literal["accepted", "repeated", "refused"]
    cursor: int | None
    code: str | None
    detail: str | None
    remedy: str | None


class Imported(TypedDict):
    kind: Table
    dry_run: bool
    new: int
    changed: int
    same: int
    wrong: int
    rows: list[Json]


class Webhook(TypedDict, total=False):
    """`secret` is told only when it is made."""

    id: str
    url: str
    events: list[str]
    sites: list[str] | None
    note: str | None
    created_at: str
    created_by: str
    ended_at: str | None
    paused_at: str | None
    old_secret_until: str | None
    secret: str


class Delivery(TypedDict):
    id: str
    event: str
    state: Literal["pending", "delivered", "dead"]
    attempts: int
    created_at: str
    call: str | None
    next_at: str | None
    log: list[Json]
    payload: Json

"""The form of calls, machines, sites, people, keys and webhooks as they are answered."""

from typing import Any

from pydantic import Field

from rackside.api.result_form import Engine, Result, Verdict
from rackside.api.told import Listed, Told


class SiteName(Told):
    id: str | None
    name: str | None
    time_zone: str | None


class MachineName(Told):
    id: str
    tag: str | None
    rack: str | None


class Call(Told):
    """A call as lists answer it."""

    id: str
    complaint: str | None
    opened_at: str | None
    assigned_to: str | None
    follows: str | None = Field(description="The call inside whose watch window this one came")
    author: str
    decision: str | None
    cause: str | None
    watch_until: str | None
    state: str = Field(description="open, submitted, returned, watching, accepted or closed")
    machine: MachineName
    site: SiteName
    verdict: Verdict | None = Field(description="Of the last judgement")
    changed: int = Field(description="The cursor of its last entry: what a review gives as `seen`")
    changed_at: str


class RoundOfCall(Told):
    id: str
    label: str
    at: str
    readings: int


class PhotoOfCall(Told):
    id: str
    sha256: str = Field(description="GET /photos/{sha256} gives the picture once it has arrived")
    media_type: str
    size: int | None
    shows: str | None
    of: str | None
    caption: str | None
    taken_at: str | None


class ReviewOfCall(Told):
    id: str
    author: str
    received_at: str
    outcome: str


class WholeCall(Call):
    """A call with its rounds, photos, reviews and followers."""

    retracted: bool
    reported: str | None
    rounds: list[RoundOfCall]
    photos: list[PhotoOfCall]
    reviews: list[ReviewOfCall]
    followed_by: list[str]


class Calls(Listed):
    items: list[Call]


class PhoneJudgement(Told):
    """What the phone judged last; `agrees` is null where engine, entries or earlier rounds differ."""

    engine: Engine
    agrees: bool | None
    differences: list[dict[str, Any]]


class Results(Told):
    """The server's judgement of a call's present entries."""

    call: str
    machine: str
    state: str
    judged_at: str
    result: Result
    phone: PhoneJudgement | None
    entries: int = Field(description="The cursor of the last entry it leans on")


class ManyResults(Listed):
    items: list[Results]


class Judgement(Told):
    id: int
    entries: int
    digest: str
    judged_at: str
    result: Result


class Judgements(Listed):
    items: list[Judgement]


class EntryKept(Told):
    """An entry as the log holds it."""

    id: str
    kind: str
    cursor: int
    received_at: str


class Reviewed(Told):
    entry: EntryKept
    call: WholeCall


class Machine(Told):
    """A machine as its entries say now."""

    id: str
    rack: str | None
    tag: str | None
    type: str | None
    refrigerant: str | None
    retired: bool
    retracted: bool
    same_as: str | None
    confirmed: bool = Field(description="Whether the office accepted its plate")
    changed: int
    changed_at: str
    site: SiteName
    plate: dict[str, Any] = Field(description="The body of its entries: the machine keys of a case")
    history: list[dict[str, Any]] = Field([], description="Its last rounds, as a case takes them")


class Machines(Listed):
    items: list[Machine]


class TrendPoint(Told):
    check: str
    at: str | None
    label: str
    value: float
    unit: str | None
    uncertainty: float | None
    verdict: Verdict
    call: str
    round: str | None
    legs: list[dict[str, Any]]
    detail: dict[str, Any]


class Trends(Listed):
    machine: str
    items: list[TrendPoint]


class Site(Told):
    id: str
    name: str
    changed: int
    changed_at: str


class Sites(Listed):
    items: list[Site]


class Meter(Told):
    id: str


class Meters(Listed):
    items: list[Meter]


class Person(Told):
    id: str
    name: str
    role: str
    active: bool
    created_at: str
    sites: list[str] | None = Field(description="Null means all")


class People(Listed):
    items: list[Person]


class Device(Told):
    """A phone of a person, or a key (then with scopes and without a person)."""

    id: str
    name: str
    person: str | None
    created_at: str
    valid_until: str | None
    last_seen: str | None
    revoked_at: str | None
    scopes: list[str] | None
    sites: list[str] | None = Field(
        description="The only sites a key sees; null of a key that sees all, and of a phone"
    )


class Devices(Listed):
    items: list[Device]


class Key(Told):
    id: str
    token: str = Field(description="Shown this once")
    name: str
    scopes: list[str]
    valid_until: str | None


class Renewed(Told):
    id: str
    token: str = Field(description="Shown this once")


class Health(Told):
    status: str
    version: str
    schema_: str = Field(alias="schema")
    epoch: str
    engine: str

"""Which machine needs somebody most, and why, in words. Pure."""

from datetime import datetime, timedelta
from typing import Any, NamedTuple

from rackside.office.trend_series import Mark
from rackside.records import clock
from rackside.reports.text import moment, name, zone

Json = dict[str, Any]
UNSEEN = timedelta(days=180)
NOTHING = 99


class Reason(NamedTuple):
    """Why a machine stands where it does. `rank` orders, the least first; `call` is where to read on."""

    rank: int
    words: str
    call: str | None = None


class Known(NamedTuple):
    """What the office knows beside each machine's own standing, by machine id."""

    trips: dict[str, int]
    repeats: dict[str, list[Json]]
    overdue: dict[str, list[Json]]
    marks: dict[str, list[Mark]]


def ranked(machines: list[Json], known: Known, now: datetime) -> list[Json]:
    """Return the machines with their reasons, the worst first; those without any last."""
    told = [machine | {"reasons": reasons(machine, known, now)} for machine in machines]
    return sorted(told, key=lambda machine: (_rank(machine), -len(machine["reasons"]), machine["tag"] or ""))


def _rank(machine: Json) -> int:
    return min((reason.rank for reason in machine["reasons"]), default=NOTHING)


def reasons(machine: Json, known: Known, now: datetime) -> list[Reason]:
    """Return why a machine needs somebody, the weightiest first."""
    where, found = zone(machine["site"]), [*_open_call(machine), *_left(machine)]
    for repeat in known.repeats.get(machine["id"], []):
        found.append(Reason(1, f"repeat trip on {moment(repeat['opened_at'], where, '%d %b')}", repeat["id"]))
    trips = known.trips.get(machine["id"], 0)
    if trips >= 2:
        found.append(Reason(1, f"{trips} trips in 30 days"))
    for watch in known.overdue.get(machine["id"], []):
        day = moment(watch["watch_until"], where, "%d %b")
        found.append(Reason(2, f"its watch ended on {day} and nobody has measured since", watch["id"]))
    for mark in known.marks.get(machine["id"], [])[:3]:
        found.append(Reason(4, mark.words, mark.call))
    return sorted([*found, *_unseen(machine, now, where)])


def _open_call(machine: Json) -> list[Reason]:
    last = machine["last"]
    if not last or last["phase"] == "accepted":
        return []
    stage = {"open": "open call", "submitted": "call waiting for review", "returned": "call sent back"}[last["phase"]]
    rank = 5 if last["complaint"] == "routine" else 0
    return [Reason(rank, f"{stage}: {name('complaint', last['complaint']) or 'not said'}", last["id"])]


def _left(machine: Json) -> list[Reason]:
    """Return what the last judged call left standing, by its words."""
    found = []
    for rank, verdict, words in ((3, "fail", "left failing"), (6, "watch", "left to watch")):
        checks = [check for check, word in machine["left"].items() if word == verdict]
        if checks:
            named = ", ".join(name("check", check).lower() for check in sorted(checks))
            found.append(Reason(rank, f"{words}: {named}", machine["judged"]["id"]))
    return found


def _unseen(machine: Json, now: datetime, where: Any) -> list[Reason]:
    last = machine["last"]
    if last is None:
        return [Reason(7, "never measured")]
    if last["opened_at"] and now - clock.read(last["opened_at"]) > UNSEEN:
        return [Reason(7, f"not seen since {moment(last['opened_at'], where, '%d %b %Y')}", last["id"])]
    return []

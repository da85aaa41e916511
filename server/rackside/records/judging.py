"""Judge the calls of the log, and keep every judgement.

A call is judged when it is submitted, when somebody asks for results older than its entries, and when somebody asks to
judge it again. The engine runs between two transactions: nobody waits for it with the log in hand.
"""

import json
from typing import Any, NamedTuple

from sqlalchemy import Connection, delete, func, insert, select

from rackside import host
from rackside.records import clock, history, log, marking
from rackside.records.database import Database
from rackside.records.judged import Finding, Judgement, Verdict
from rackside.records.log import CALLS
from rackside.records.refused import Refused
from rackside.records.rows import TABLES

JUDGEMENTS = Judgement.__table__  # type: ignore[attr-defined]
VERDICTS = Verdict.__table__  # type: ignore[attr-defined]
FINDINGS = Finding.__table__  # type: ignore[attr-defined]
MACHINES, SITES, METERS = TABLES["machine"], TABLES["site"], TABLES["meter"]
Json = dict[str, Any]


class Judged(NamedTuple):
    """A judgement as kept; `result` is the engine's JSON text."""

    id: int
    upto: int
    digest: str
    judged_at: str
    result: str


def log_of(connection: Connection, call_id: str) -> Json:
    """Return what the engine composes a case from: the entries of call, machine, site and meters, and the history."""
    call = connection.execute(select(CALLS).where(CALLS.c.id == call_id)).first()
    if call is None:
        raise Refused("not_found", f"There is no call {call_id} here.")
    entries = log.of_call(connection, call_id)
    past = history.of_machine(connection, call.machine_id, before=call.opened_at, follows=call.follows)
    earlier = [reading for round_ in past for reading in round_.get("readings") or []]
    things = {call.machine_id, call.site_id, *meters_in(entries), *_meters_of(earlier)}
    around = log.of_things(connection, things)
    around += log.about(connection, [entry["id"] for entry in around], "retraction")
    return {"call": call_id, "entries": entries + around, "history": past}


def meters_in(entries: list[Json]) -> set[str]:
    """Return the meters that readings name: one for a reading, or one for each leg."""
    return _meters_of([entry["body"] for entry in entries if entry["kind"] == "reading"])


def _meters_of(readings: list[Json]) -> set[str]:
    named: set[str] = set()
    for reading in readings:
        meter = reading.get("meter")
        named.update(one for one in (meter.values() if isinstance(meter, dict) else [meter]) if isinstance(one, str))
    return named


def case_of(database: Database, call_id: str) -> Json:
    """Return a call as a case."""
    with database.reading() as connection:
        gathered = log_of(connection, call_id)
    return host.compose(gathered)


def judged(database: Database, call_id: str) -> Judged:
    """Return the judgement of a call's present entries, making it when there is none yet."""
    with database.reading() as connection:
        kept = _fresh(connection, call_id)
    return kept or judge_again(database, call_id)


def _fresh(connection: Connection, call_id: str) -> Judged | None:
    verdict = connection.execute(select(VERDICTS).where(VERDICTS.c.call_id == call_id)).first()
    if verdict is None or verdict.upto != upto(connection, call_id, json.loads(verdict.meters)):
        return None
    row = connection.execute(select(JUDGEMENTS).where(JUDGEMENTS.c.id == verdict.judgement_id)).one()
    return Judged(row.id, row.upto, row.digest, row.judged_at, row.result)


def upto(connection: Connection, call_id: str, meters: list[str]) -> int:
    """Return the cursor of the last entry a call's judgement leans on."""
    asked = (
        select(CALLS.c.changed, MACHINES.c.changed, SITES.c.changed)
        .outerjoin(MACHINES, MACHINES.c.id == CALLS.c.machine_id)
        .outerjoin(SITES, SITES.c.id == CALLS.c.site_id)
    )
    own = connection.execute(asked.where(CALLS.c.id == call_id)).first()
    if own is None:
        raise Refused("not_found", f"There is no call {call_id} here.")
    tools = connection.scalar(select(func.max(METERS.c.changed)).where(METERS.c.id.in_(meters))) if meters else 0
    return max(own[0], own[1] or 0, own[2] or 0, tools or 0)


def judge_again(database: Database, call_id: str, asked_by: str | None = None) -> Judged:
    """Judge a call by today's rules and keep the answer beside the earlier ones."""
    with database.reading() as connection:
        gathered = log_of(connection, call_id)
        meters = sorted(meters_in(gathered["entries"]))
        reached = upto(connection, call_id, meters)
    result = host.judge(host.compose(gathered))
    with database.writing() as connection:
        return _keep(connection, call_id, reached, meters, result, asked_by)


def _keep(
    connection: Connection, call_id: str, reached: int, meters: list[str], result: Json, asked_by: str | None
) -> Judged:
    log.state(connection, lock=True)
    same = (JUDGEMENTS.c.call_id == call_id) & (JUDGEMENTS.c.upto == reached)
    row = connection.execute(select(JUDGEMENTS).where(same, JUDGEMENTS.c.digest == host.digest())).first()
    if row is None:
        values = {"call_id": call_id, "upto": reached, "digest": host.digest(), "asked_by": asked_by}
        values |= {"judged_at": clock.written(clock.now()), "result": json.dumps(result)}
        row = connection.execute(insert(JUDGEMENTS).values(**values).returning(*JUDGEMENTS.c)).one()
    held = connection.scalar(select(VERDICTS.c.upto).where(VERDICTS.c.call_id == call_id))
    if held is None or held <= reached:
        _show(connection, call_id, row, meters, result)
    return Judged(row.id, row.upto, row.digest, row.judged_at, row.result)


def _show(connection: Connection, call_id: str, row: Any, meters: list[str], result: Json) -> None:
    """Make this judgement the one that counts for lists and trends."""
    connection.execute(delete(VERDICTS).where(VERDICTS.c.call_id == call_id))
    verdict = {"call_id": call_id, "judgement_id": row.id, "upto": row.upto, "meters": json.dumps(meters)}
    connection.execute(insert(VERDICTS), verdict | {"verdict": result["summary"]["verdict"]})
    machine_id = connection.scalar(select(CALLS.c.machine_id).where(CALLS.c.id == call_id))
    before = connection.execute(select(FINDINGS.c.machine_id).where(FINDINGS.c.call_id == call_id).distinct()).scalars()
    marking.forget(connection, {*before, machine_id} - {None})
    connection.execute(delete(FINDINGS).where(FINDINGS.c.call_id == call_id))
    found = [_finding(call_id, machine_id, told, one) for told in result["rounds"] for one in told["findings"]]
    if found:
        connection.execute(insert(FINDINGS), found)


def _finding(call_id: str, machine_id: str | None, round_: Json, finding: Json) -> Json:
    plain = {name: finding.get(name) for name in ("check", "value", "unit", "uncertainty", "verdict")}
    if isinstance(plain["value"], str):
        plain["value"] = None
    whose = {"call_id": call_id, "machine_id": machine_id, "round_id": finding.get("round") or round_.get("round")}
    when = {"label": round_["label"], "at": clock.sortable(round_.get("at"))}
    inside = {"legs": json.dumps(finding.get("legs") or []), "detail": json.dumps(finding.get("detail") or {})}
    return plain | whose | when | inside


def all_of(connection: Connection, call_id: str) -> list[Judged]:
    """Return every judgement of a call, newest first."""
    columns = [JUDGEMENTS.c[name] for name in Judged._fields]
    asked = select(*columns).where(JUDGEMENTS.c.call_id == call_id).order_by(JUDGEMENTS.c.id.desc())
    return [Judged(*row) for row in connection.execute(asked)]

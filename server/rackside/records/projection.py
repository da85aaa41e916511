"""The log laid out in typed tables, entry by entry or all over again."""

import json
from collections import defaultdict
from collections.abc import Iterable
from hashlib import sha256
from typing import Any

from sqlalchemy import Connection, Table, delete, insert, or_, select, update

from rackside.engine.settle import things_of
from rackside.records import log, marking, rows, searching, states
from rackside.records.bulk import insert_many
from rackside.records.canonical import canonical
from rackside.records.log import CALLS, ENTRIES, Logged
from rackside.records.projected import PROJECTED, Site

ROUNDS = rows.TABLES["round"]
SITES = Site.__table__  # type: ignore[attr-defined]
STEERING = ("submission", "review", "decision")


def project(connection: Connection, new: list[Logged]) -> None:
    """Bring the typed tables up to these entries, which are already in the log."""
    touched = marking.touched(new)
    marking.forget_of_calls(connection, touched)
    _insert_first_entries(connection, new)
    for logged in new:
        if logged.entry["base"] and logged.entry["kind"] in rows.TABLES:
            _refresh(connection, logged.entry["kind"], logged.thing_id, logged)
        elif logged.about_id:
            _follow(connection, logged)
    _touch_calls(connection, new)
    marking.forget_of_calls(connection, touched)
    searching.note(connection, new)


def rebuild_and_compare(connection: Connection) -> tuple[int, bool]:
    """Rebuild while nobody pushes; return how many entries were read, and whether the tables say what they said."""
    log.state(connection, lock=True)
    before = fingerprint(connection)
    return rebuild(connection), fingerprint(connection) == before


def rebuild(connection: Connection) -> int:
    """Empty the typed tables and fill them from the log; return how many entries were read.

    It takes the counter, so that an entry is either read here or pushed after it.
    """
    log.state(connection, lock=True)
    for table in PROJECTED:
        connection.execute(delete(table.__table__))  # type: ignore[attr-defined]
    connection.execute(delete(searching.WORDS))
    connection.execute(delete(marking.MARKS))
    count = 0
    for part in log.whole(connection):
        project(connection, part)
        count += len(part)
    return count


def _insert_first_entries(connection: Connection, new: list[Logged]) -> None:
    call_machines: dict[str, str] = {}
    parted: dict[str, list[Logged]] = defaultdict(list)
    for logged in new:
        if not logged.entry["base"]:
            parted[logged.entry["kind"]].append(logged)
    for kind, table in rows.TABLES.items():
        firsts = parted.get(kind)
        if not firsts:
            continue
        if kind == "round":
            call_machines = _machines_of(connection, {logged.entry["call"] for logged in firsts})
        insert_many(connection, table, [rows.row_of(logged, logged.entry["body"], call_machines) for logged in firsts])


def _machines_of(connection: Connection, calls: Iterable[str]) -> dict[str, str]:
    found = {}
    for part in log.in_parts(calls):
        for row in connection.execute(select(CALLS.c.id, CALLS.c.machine_id).where(CALLS.c.id.in_(part))):
            found[row.id] = row.machine_id
    return found


def _refresh(connection: Connection, kind: str, thing_id: str, cause: Logged) -> None:
    """Write a thing's row anew from all its entries; a thing taken back leaves its row marked, or goes."""
    table = rows.TABLES[kind]
    entries = log.of_thing(connection, thing_id)
    first = entries[0]
    retractions = log.about(connection, [entry["id"] for entry in entries], "retraction")
    standing = [thing for thing in things_of(entries + retractions) if thing.id == thing_id]
    gone = not standing
    body = (standing or things_of(entries))[0].body
    owner = Logged(first, "", "", thing_id, None, cause.site_id, cause.cursor, cause.received_at)
    row = rows.row_of(owner, body, _machines_of(connection, [first["call"]]) if kind == "round" else {})
    place = table.c.cursor == first["cursor"] if kind == "reading" else table.c.id == thing_id
    connection.execute(delete(table).where(place))
    if gone and "retracted" not in table.c:
        return
    row.update(_marks(connection, kind, entries, retractions, gone))
    connection.execute(insert(table), row)
    if kind == "call":
        _move_call(connection, thing_id, row["machine_id"], row["site_id"])
        _refresh_progress(connection, thing_id)
    elif kind == "machine":
        _move_machine(connection, thing_id, row["site_id"])


def _marks(
    connection: Connection, kind: str, entries: list[dict[str, Any]], retractions: list[dict[str, Any]], gone: bool
) -> dict[str, Any]:
    marks: dict[str, Any] = {"retracted": gone} if kind in rows.MARKED else {}
    if kind == "machine":
        thing_id = entries[0]["id"]
        same = [retraction["body"].get("same_as") for retraction in retractions if retraction["body"]["of"] == thing_id]
        reviews = log.about(connection, [thing_id], "review")
        accepted = [review["cursor"] for review in reviews if review["body"]["outcome"] == "accepted"]
        marks["same_as"] = same[-1] if gone and same else None
        marks["confirmed"] = bool(accepted) and accepted[-1] > entries[-1]["cursor"]
    if kind == "site":
        marks["arrivals"] = _arrivals(connection, entries[0]["id"])
    return marks


def _follow(connection: Connection, logged: Logged) -> None:
    """Act on a retraction or a review of a thing: its row changes though it got no entry of its own."""
    target = _target(connection, logged.about_id or "")
    if target is None:
        return
    cause = Logged(logged.entry, "", "", target.thing_id, None, target.site_id, logged.cursor, logged.received_at)
    if target.kind in rows.TABLES:
        _refresh(connection, target.kind, target.thing_id, cause)
    elif target.kind in STEERING and target.call_id:
        _refresh_progress(connection, target.call_id)


def _target(connection: Connection, entry_id: str) -> log.Known | None:
    target = log.known(connection, [entry_id]).get(entry_id)
    while target is not None and target.kind == "retraction":
        about = connection.scalar(select(ENTRIES.c.about_id).where(ENTRIES.c.id == target.id))
        target = log.known(connection, [about]).get(about) if about else None
    return target


def _move_machine(connection: Connection, machine_id: str, site_id: str) -> None:
    """Take a machine's entries and calls to its site, where they are not there yet."""
    own = or_(ENTRIES.c.id == machine_id, ENTRIES.c.corrects == machine_id)
    stale = own & (ENTRIES.c.site_id != site_id)
    connection.execute(update(ENTRIES).where(stale).values(site_id=site_id))
    calls = select(CALLS.c.id).where(CALLS.c.machine_id == machine_id, CALLS.c.site_id != site_id)
    for call_id in list(connection.execute(calls).scalars()):
        _move_call(connection, call_id, machine_id, site_id)
    connection.execute(update(SITES).where(SITES.c.id == site_id).values(arrivals=_arrivals(connection, site_id)))


def _move_call(connection: Connection, call_id: str, machine_id: str, site_id: str) -> None:
    connection.execute(update(CALLS).where(CALLS.c.id == call_id).values(machine_id=machine_id, site_id=site_id))
    connection.execute(update(ENTRIES).where(ENTRIES.c.call_id == call_id).values(site_id=site_id))
    connection.execute(update(ROUNDS).where(ROUNDS.c.call_id == call_id).values(machine_id=machine_id))


def _arrivals(connection: Connection, site_id: str) -> int:
    """Count the corrections that brought machines to a site: phones that hold the site must then pull it anew."""
    moved = log.documents(connection, ENTRIES.c.site_id == site_id, ENTRIES.c.kind == "machine")
    return sum(1 for entry in moved if entry["base"] and "site" in entry["body"])


def _touch_calls(connection: Connection, new: list[Logged]) -> None:
    last = {logged.entry["call"]: logged for logged in new if logged.entry["call"]}
    for call_id, logged in last.items():
        values = {"changed": logged.cursor, "changed_at": logged.received_at}
        connection.execute(update(CALLS).where(CALLS.c.id == call_id).values(**values))
    steered = {logged.entry["call"] for logged in new if logged.entry["kind"] in STEERING and logged.entry["call"]}
    for call_id in steered:
        _refresh_progress(connection, call_id)


def _refresh_progress(connection: Connection, call_id: str) -> None:
    entries = log.documents(connection, ENTRIES.c.call_id == call_id, ENTRIES.c.kind.in_(STEERING))
    retractions = log.about(connection, [entry["id"] for entry in entries], "retraction")
    received = {entry["id"]: entry["received_at"] for entry in entries}
    steps = [states.Step(thing.kind, thing.body, received[thing.id]) for thing in things_of(entries + retractions)]
    progress = states.progress_of(steps)
    connection.execute(update(CALLS).where(CALLS.c.id == call_id).values(**progress._asdict()))


def fingerprint(connection: Connection) -> str:
    """Return one hash over what every row of the typed tables says, however its body is written."""
    total = sha256()
    for model in PROJECTED:
        table: Table = model.__table__  # type: ignore[attr-defined]
        for row in connection.execute(select(table).order_by(table.c.id)).mappings():
            body = {"body": json.loads(row["body"])} if "body" in row else {}
            total.update(canonical({**row, **body}).encode())
    return total.hexdigest()

"""Sites and machines from rows of a table: new ones are entered, known ones corrected, all of them or none."""

from collections.abc import Iterator
from typing import Any, NamedTuple
from uuid import uuid4

from sqlalchemy import Connection, select

from rackside.engine.settle import things_of
from rackside.records import Refused, clock, log
from rackside.records.caller import Caller
from rackside.records.rows import TABLES
from rackside.sync.fields import SCHEMA
from rackside.sync.prepare import prepare
from rackside.sync.push import Answer, take

MOST_ROWS = 5000
Json = dict[str, Any]
Key = tuple[str, ...]


class Row(NamedTuple):
    """What becomes of a row: new, changed, same, or wrong with its faults."""

    number: int
    status: str
    id: str | None = None
    errors: tuple[Json, ...] = ()


class Register:
    """The sites or machines there are, found by id or by what people call them."""

    def __init__(self, connection: Connection, kind: str, caller: Caller) -> None:
        self.connection, self.kind = connection, kind
        sites = TABLES["site"]
        listed = connection.execute(select(sites.c.id, sites.c.name).where(sites.c.retracted.is_(False)))
        self.sites = {row.id: row.name for row in listed if caller.sees(row.id)}
        self.known: dict[Key, str] = {}
        for thing_id, key in self._things():
            self.known[key] = self.known[(thing_id,)] = thing_id

    def _things(self) -> Iterator[tuple[str, Key]]:
        if self.kind == "site":
            yield from ((site_id, ("site", name)) for site_id, name in self.sites.items())
            return
        table = TABLES["machine"]
        standing = select(table).where(table.c.retracted.is_(False))
        for row in self.connection.execute(standing):
            if row.site_id in self.sites:
                yield row.id, (row.site_id, row.rack or "", row.tag or "")

    def body_of(self, row: Any) -> Json:
        """Return the body a row asks for; a machine may name its site as people do."""
        if not isinstance(row, dict):
            raise _wrong("", "A row is a JSON object.")
        body = {name: value for name, value in row.items() if name != "id"}
        if self.kind == "machine":
            body["site"] = self._site(body.get("site"))
        return body

    def _site(self, named: Any) -> str:
        if named is None:
            raise _wrong("/site", "Missing: the id or the name of its site.")
        found = [site_id for site_id, name in self.sites.items() if named in (site_id, name)]
        if len(found) != 1:
            raise _wrong(
                "/site", f"There {'is no site' if not found else 'are several sites'} {named!r} of yours here."
            )
        return found[0]

    def key_of(self, row: Json, body: Json) -> Key:
        if row.get("id"):
            return (str(row["id"]),)
        if self.kind == "site":
            return ("site", str(body.get("name")))
        return (str(body["site"]), str(body.get("rack") or ""), str(body.get("tag") or ""))


def _wrong(pointer: str, detail: str) -> Refused:
    return Refused("invalid_body", detail, errors=[{"pointer": pointer, "detail": detail}])


def take_rows(connection: Connection, caller: Caller, kind: str, rows: list[Any], entry_limit: int) -> list[Row]:
    """Write what the rows ask for, in the caller's transaction; a wrong row is told, and nobody commits it."""
    if len(rows) > MOST_ROWS:
        raise Refused("batch_too_large", f"{len(rows)} rows were sent; at most {MOST_ROWS} are taken.")
    state = log.state(connection, lock=True)
    register, seen = Register(connection, kind, caller), set[Key]()
    planned = [_plan(register, seen, caller, number, row) for number, row in enumerate(rows, 1)]
    entries = {row.number: entry for row, entry in planned if entry is not None}
    answers, _ = take(connection, state, caller, [prepare(entry, entry_limit) for entry in entries.values()])
    refused = {number: answer for number, answer in zip(entries, answers, strict=True) if answer.refused}
    return [_refused(row, refused[row.number]) if row.number in refused else row for row, _ in planned]


def _plan(register: Register, seen: set[Key], caller: Caller, number: int, row: Any) -> tuple[Row, Json | None]:
    try:
        body = register.body_of(row)
        key = register.key_of(row, body)
        if key in seen:
            raise _wrong("", "An earlier row is about the same thing.")
    except Refused as refused:
        return Row(number, "wrong", None, tuple(refused.members["errors"])), None
    seen.add(key)
    thing_id = register.known.get(key)
    if thing_id is None:
        entry = _entry(caller, register.kind, body, [], row.get("id"))
        return Row(number, "new", entry["id"]), entry
    now, heads = _standing(register.connection, thing_id)
    changes = {name: value for name, value in body.items() if now.get(name) != value}
    if not changes:
        return Row(number, "same", thing_id), None
    return Row(number, "changed", thing_id), _entry(caller, register.kind, changes, heads)


def _standing(connection: Connection, thing_id: str) -> tuple[Json, list[str]]:
    """Return what a thing says now, and the versions of it that nothing replaces."""
    entries = log.of_thing(connection, thing_id)
    replaced = {base for entry in entries for base in entry["base"]}
    return things_of(entries)[0].body, [entry["id"] for entry in entries if entry["id"] not in replaced]


def _entry(caller: Caller, kind: str, body: Json, base: list[str], entry_id: Any = None) -> Json:
    head = {"id": entry_id or str(uuid4()), "schema": SCHEMA, "kind": kind, "call": None, "base": base}
    made = {"made_at": clock.written(clock.now()), "device": caller.device_id, "author": caller.author}
    return head | made | {"body": body}


def _refused(row: Row, answer: Answer) -> Row:
    refused = answer.refused
    assert refused is not None
    faults = refused.members.get("errors") or [{"pointer": "", "detail": refused.detail}]
    told = [{"pointer": fault["pointer"].removeprefix("/body"), "detail": fault["detail"]} for fault in faults]
    return Row(row.number, "wrong", row.id, tuple(told))

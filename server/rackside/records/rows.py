"""One row of a typed table from what a thing says now. Pure."""

from typing import Any

from sqlalchemy import Table

from rackside.records import clock
from rackside.records.canonical import canonical
from rackside.records.keys import key_of
from rackside.records.log import Logged
from rackside.records.projected import Call, Machine, Meter, Photo, Reading, Round, Site

TABLES: dict[str, Table] = {
    kind: model.__table__  # type: ignore[attr-defined]
    for kind, model in (
        ("site", Site),
        ("machine", Machine),
        ("meter", Meter),
        ("call", Call),
        ("round", Round),
        ("reading", Reading),
        ("photo", Photo),
    )
}
MARKED = ("site", "machine", "meter", "call")
Row = dict[str, Any]


def row_of(logged: Logged, body: Row, machines: dict[str, str]) -> Row:
    """Return the row of a thing; `machines` gives the machine of a round's call."""
    kind = logged.entry["kind"]
    row: Row = {"id": logged.thing_id}
    if kind in MARKED:
        row |= {"changed": logged.cursor, "changed_at": logged.received_at, "retracted": False}
    if kind == "round":
        row["machine_id"] = machines[logged.entry["call"]]
    if kind != "photo":
        row["body"] = canonical(_shown(logged, body))
    return row | _OWN[kind](logged, body)


def _shown(logged: Logged, body: Row) -> Row:
    """Return a body as it is answered: rounds and readings as the history of a case has them."""
    kind = logged.entry["kind"]
    if kind not in ("round", "reading"):
        return body
    shown = body | {"at": body.get("at") or logged.entry["made_at"]}
    shown.pop("round", None)
    if kind == "reading":
        shown["id"] = logged.thing_id
    return shown


def _site(_logged: Logged, body: Row) -> Row:
    return {"name": body["name"], "time_zone": body.get("time_zone"), "arrivals": 0}


def _machine(_logged: Logged, body: Row) -> Row:
    plain = {name: key_of(body.get(name)) for name in ("rack", "tag", "type", "refrigerant")}
    fresh = {"same_as": None, "confirmed": False}
    return plain | fresh | {"site_id": body["site"], "retired": bool(body.get("retired"))}


def _meter(_logged: Logged, body: Row) -> Row:
    return {name: body.get(name) for name in ("name", "kind", "serial")}


def _call(logged: Logged, body: Row) -> Row:
    plain = {name: key_of(body.get(name)) for name in ("complaint", "assigned_to", "follows")}
    progress = {"phase": "open", "decision": None, "cause": None, "watch_until": None, "settled_at": None}
    opened_at = clock.sortable(body.get("opened_at")) or clock.sortable(logged.entry["made_at"])
    own = {"machine_id": body["machine"], "site_id": logged.site_id, "opened_at": opened_at}
    return plain | progress | own | {"author": key_of(logged.entry["author"])}


def _round(logged: Logged, body: Row) -> Row:
    at = clock.sortable(body.get("at")) or clock.sortable(logged.entry["made_at"])
    return {"call_id": logged.entry["call"], "label": body["label"], "at": at, "cursor": logged.entry_cursor}


def _reading(logged: Logged, body: Row) -> Row:
    at = clock.sortable(body.get("at"))
    own = {"point": body["point"], "at": at, "cursor": logged.entry_cursor}
    return own | {"call_id": logged.entry["call"], "round_id": body["round"]}


def _photo(logged: Logged, body: Row) -> Row:
    plain = {name: body.get(name) for name in ("sha256", "media_type", "size", "shows", "of", "caption", "taken_at")}
    return plain | {"call_id": logged.entry["call"], "site_id": logged.site_id}


_OWN = {
    "site": _site,
    "machine": _machine,
    "meter": _meter,
    "call": _call,
    "round": _round,
    "reading": _reading,
    "photo": _photo,
}

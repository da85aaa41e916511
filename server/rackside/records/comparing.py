"""A phone's judgement beside the server's of the very same entries."""

import json
from typing import Any

import structlog
from sqlalchemy import Connection, delete, insert, select

from rackside import host
from rackside.records import judging, log
from rackside.records.database import Database
from rackside.records.judged import Comparison
from rackside.records.log import ENTRIES

COMPARISONS = Comparison.__table__  # type: ignore[attr-defined]
SPOKEN = ("because", "text", "caution", "engine", "work", "clause", "when")
TOLERANCE = 1e-9
MOST_SHOWN = 20
Json = dict[str, Any]
defects = structlog.get_logger("rackside.defect")


def phone_of(database: Database, call_id: str) -> Json | None:
    """Return what the phone judged last: its engine, and whether the server's judgement of those entries agrees.

    `agrees` is None where the engines differ, the server lacks one of the entries, or it has other earlier rounds.
    """
    with database.reading() as connection:
        told = log.documents(connection, ENTRIES.c.call_id == call_id, ENTRIES.c.kind == "judgement")
        if not told:
            return None
        entry = told[-1]
        same = (COMPARISONS.c.entry_id == entry["id"]) & (COMPARISONS.c.digest == host.digest())
        kept = connection.execute(select(COMPARISONS).where(same)).first()
        seen = None if kept else _as_seen(connection, call_id, entry["body"])
    engine = entry["body"]["engine"]
    if kept:
        return {"engine": engine, "agrees": kept.agrees, "differences": json.loads(kept.differences)}
    if engine.get("digest") != host.digest() or seen is None:
        return {"engine": engine, "agrees": None, "differences": []}
    return {"engine": engine} | _compare(database, entry, seen)


def _as_seen(connection: Connection, call_id: str, told: Json) -> Json | None:
    """Return the log as the phone had it, None when it can't be had here.

    A phone that names no entries of machine, site or meters is taken to have had today's.
    """
    gathered = judging.log_of(connection, call_id)
    earlier = [round_["extra"]["content_hash"] for round_ in gathered["history"]]
    extra = told.get("extra")
    if isinstance(extra, dict) and extra.get("history", earlier) != earlier:
        return None
    ids = set(told["upto"])
    seen = [entry for entry in gathered["entries"] if entry["call"] is not None and entry["id"] in ids]
    beside = ids - {entry["id"] for entry in seen}
    seen += _around(connection, beside) if beside else [one for one in gathered["entries"] if one["call"] is None]
    return gathered | {"entries": seen} if ids <= {entry["id"] for entry in seen} else None


def _around(connection: Connection, ids: set[str]) -> list[Json]:
    no_call = ENTRIES.c.call_id.is_(None)
    parts = [log.documents(connection, ENTRIES.c.id.in_(part), no_call) for part in log.in_parts(ids)]
    return [entry for part in parts for entry in part]


def _compare(database: Database, entry: Json, seen: Json) -> Json:
    found = differences(entry["body"]["result"], host.judge(host.compose(seen)))[:MOST_SHOWN]
    row = {"entry_id": entry["id"], "digest": host.digest(), "agrees": not found, "differences": json.dumps(found)}
    with database.writing() as connection:
        same = (COMPARISONS.c.entry_id == entry["id"]) & (COMPARISONS.c.digest == host.digest())
        connection.execute(delete(COMPARISONS).where(same))
        connection.execute(insert(COMPARISONS), row)
    if found:
        defects.error("judgements differ", call=entry["call"], entry=entry["id"], differences=found)
    return {"agrees": not found, "differences": found}


def differences(phone: Any, server: Any, pointer: str = "") -> list[Json]:
    """Return where two results differ, by JSON pointer; sentences may be in another language and are left aside."""
    if isinstance(phone, dict) and isinstance(server, dict):
        names = [name for name in sorted({*phone, *server}) if name not in SPOKEN]
        return [one for name in names for one in differences(phone.get(name), server.get(name), f"{pointer}/{name}")]
    if isinstance(phone, list) and isinstance(server, list) and len(phone) == len(server):
        pairs = enumerate(zip(phone, server, strict=True))
        return [one for index, pair in pairs for one in differences(*pair, f"{pointer}/{index}")]
    return [] if _same(phone, server) else [{"pointer": pointer, "phone": phone, "server": server}]


def _same(phone: Any, server: Any) -> bool:
    numbers = all(isinstance(one, int | float) and not isinstance(one, bool) for one in (phone, server))
    if not numbers:
        return bool(phone == server)
    return bool(abs(phone - server) <= TOLERANCE * max(1.0, abs(phone), abs(server)))

"""Take a batch of entries: one transaction, one answer for each, in the order sent."""

from typing import Any, NamedTuple

from sqlalchemy import Connection

from rackside.records import Database, Refused, log, outbox, photos, projection, scopes
from rackside.records.caller import Caller
from rackside.records.log import Known, Logged
from rackside.records.tables import LogState
from rackside.sync.decide import Ledger, decide
from rackside.sync.prepare import Prepared, prepare

Json = dict[str, Any]


class Answer(NamedTuple):
    """What became of one entry."""

    id: str | None
    status: str
    cursor: int | None = None
    refused: Refused | None = None


class Outcome(NamedTuple):
    """What became of a batch."""

    answers: list[Answer]
    photos_wanted: list[str]
    cursor: int
    epoch: str
    taken: list[Logged]


def push(database: Database, caller: Caller, epoch: str | None, entries: list[Any], entry_limit: int) -> Outcome:
    """Take what can be taken and say of every entry what became of it. A repeat moves nothing."""
    batch = [prepare(raw, entry_limit) for raw in entries]
    with database.writing() as connection:
        state = log.state(connection, lock=True)
        if epoch is not None and epoch != state.epoch:
            raise Refused("epoch_changed", f"The server's log is now {state.epoch}.", epoch=state.epoch)
        answers, taken = take(connection, state, caller, batch)
        scopes.seen(connection, caller.device_id)
        wanted = photos.wanted(connection, [_sha256(one.entry) for one in batch if not one.refused])
        return Outcome(_with_cursors(answers, taken), wanted, state.cursor, state.epoch, taken)


def take(
    connection: Connection, state: LogState, caller: Caller, batch: list[Prepared]
) -> tuple[list[Answer], list[Logged]]:
    """Decide about a batch and write what is taken, in a transaction that holds the counter."""
    ledger = _ledger(connection, batch, state.secret)
    answers, taken = _decide_all(batch, ledger, caller)
    log.append(connection, state, taken)
    projection.project(connection, taken)
    outbox.note(connection, taken)
    for site_id in ledger.fresh_sites:
        scopes.extend_scope(connection, caller, site_id)
    return answers, taken


def _sha256(entry: Json) -> str | None:
    return entry["body"].get("sha256") if entry["kind"] == "photo" else None


def _ledger(connection: Connection, batch: list[Prepared], secret: str) -> Ledger:
    known = log.known(connection, {name for prepared in batch for name in prepared.names()})
    own = [prepared.entry for prepared in batch if prepared.refused is None]
    corrected = {known[base].thing_id for entry in own for base in entry["base"] if base in known}
    versions = {thing_id: log.of_thing(connection, thing_id) for thing_id in corrected}
    owners = scopes.owners(connection, list({entry["device"] for entry in own}))
    return Ledger(known, versions, owners, secret)


def _decide_all(batch: list[Prepared], ledger: Ledger, caller: Caller) -> tuple[list[Answer], list[Logged]]:
    answers, taken = [], []
    for prepared in batch:
        try:
            decided = decide(prepared, ledger, caller)
        except Refused as refused:
            answers.append(Answer(prepared.id, "refused", refused=refused))
            continue
        if isinstance(decided, Known):
            answers.append(Answer(prepared.id, "repeated", decided.cursor or None))
        else:
            ledger.take(decided, caller.author)
            taken.append(decided)
            answers.append(Answer(prepared.id, "accepted"))
    return answers, taken


def _with_cursors(answers: list[Answer], taken: list[Logged]) -> list[Answer]:
    cursors = {logged.entry["id"]: logged.cursor for logged in taken}
    return [
        answer if answer.refused or answer.cursor else Answer(answer.id, answer.status, cursors[answer.id or ""])
        for answer in answers
    ]

"""A phone as the page is one: a log, an outbox and a cursor that change together, or not at all."""

import json
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Any, Protocol

Json = dict[str, Any]
ADDED = ("cursor", "received_at", "seal")
BATCH = 500
REVIVING = ("retraction", "decision")
MAY_PASS_LATER = ("foreign_site", "missing_reference")


class Cut(Exception):
    """The line broke: nobody knows how far the request came."""


class Died(Exception):
    """The phone went off between two transactions of its store."""


class Line(Protocol):
    """How a phone reaches a server."""

    def push(self, device: str, epoch: str | None, entries: list[Json]) -> Json: ...

    def pull(self, after: int, scope: str | None, epoch: str | None) -> Json: ...

    def call(self, call: str) -> list[Json]: ...


@dataclass(frozen=True)
class Store:
    """What is on the disk of the phone. `outbox` gives the device each unsent entry was made on, in the order made;
    `shown` is what the server gave since this phone last read from the beginning."""

    rows: dict[str, Json] = field(default_factory=dict)
    outbox: dict[str, str] = field(default_factory=dict)
    refused: dict[str, Json] = field(default_factory=dict)
    own: frozenset[str] = frozenset()
    cursor: int = 0
    epoch: str | None = None
    scope: str | None = None
    shown: frozenset[str] = frozenset()
    rereading: bool = False


def made(entry: Json) -> Json:
    """Return an entry as it was made, without what the server added."""
    return {name: value for name, value in entry.items() if name not in ADDED}


def offered(entry: Json) -> Json:
    """Return an entry as it is sent: with the server's seal, where it has one."""
    return {name: value for name, value in entry.items() if name not in ("cursor", "received_at")}


class Replica:
    """One phone. Every method changes its store by whole transactions; `dies_after` counts down to a dead battery."""

    def __init__(self, device: str, author: str) -> None:
        self.device, self.author = device, author
        self.store = Store()
        self.dies_after: int | None = None

    def commit(self, **changed: Any) -> None:
        """One transaction of the phone's store."""
        if self.dies_after is not None:
            self.dies_after -= 1
            if self.dies_after < 0:
                self.dies_after = None
                raise Died
        self.store = replace(self.store, **changed)

    def keep(self, *entries: Json) -> None:
        ids = [entry["id"] for entry in entries]
        rows = self.store.rows | dict(zip(ids, entries, strict=True))
        outbox = self.store.outbox | dict.fromkeys(ids, self.device)
        self.commit(rows=rows, outbox=outbox, own=self.store.own | set(ids))

    def waiting(self) -> list[Json]:
        """This device's unsent entries, but none that leans on what another sign-in has still to send."""
        held = {entry_id for entry_id, device in self.store.outbox.items() if device != self.device}
        batch = []
        for entry_id, device in self.store.outbox.items():
            entry = self.store.rows[entry_id]
            if device == self.device and not held & leans_on(entry):
                batch.append(offered(entry))
            elif device == self.device:
                held.add(entry_id)
        return batch[:BATCH]

    def exchange(self, line: Line) -> None:
        """Send all that waits, then read all there is."""
        self.again(lambda: self._send(line))
        self.again(lambda: self._read(line))

    def again(self, step: Callable[[], bool]) -> None:
        for _ in range(200):
            if step():
                return
        raise AssertionError("the phone goes round in circles")

    def _send(self, line: Line) -> bool:
        batch = self.waiting()
        if not batch:
            return True
        answer = line.push(self.device, self.store.epoch, batch)
        if answer.get("code") == "epoch_changed":
            self.send_all_again(answer["epoch"])
        else:
            self.settle(answer)
        return False

    def settle(self, answer: Json) -> None:
        rows, outbox, refused = dict(self.store.rows), dict(self.store.outbox), dict(self.store.refused)
        for result in answer["results"]:
            if result["id"] not in rows:
                continue
            if result["status"] == "refused":
                refused[result["id"]] = result
            else:
                rows[result["id"]] = {**rows[result["id"]], "cursor": result["cursor"]}
            outbox.pop(result["id"], None)
        self.commit(rows=rows, outbox=outbox, refused=refused, epoch=self.store.epoch or answer["epoch"])

    def send_all_again(self, epoch: str) -> None:
        """Another epoch: offer all that was made here or bears the server's seal, in the order of the old log."""
        place = list(self.store.rows)
        order = sorted(self.store.rows.values(), key=lambda row: (row.get("cursor") or 1 << 60, place.index(row["id"])))
        outbox = {row["id"]: self.device if "seal" in row else row["device"] for row in order}
        rows = {entry_id: offered(row) for entry_id, row in self.store.rows.items()}
        self.commit(rows=rows, outbox=outbox, epoch=epoch, cursor=0, refused={})

    def send_again(self) -> bool:
        """A person offers again what was refused for its place or for what it leans on; whether there was anything."""
        again = [name for name, told in self.store.refused.items() if told["code"] in MAY_PASS_LATER]
        refused = {name: told for name, told in self.store.refused.items() if name not in again}
        rows = self.store.rows
        outbox = self.store.outbox | {name: rows[name]["device"] for name in rows if name in again}
        self.commit(outbox=outbox, refused=refused)
        return bool(again)

    def _read(self, line: Line) -> bool:
        asked = self.store
        page = line.pull(asked.cursor, asked.scope, asked.epoch)
        if page.get("code") == "epoch_changed":
            self.send_all_again(page["epoch"])
            self.again(lambda: self._send(line))
            return False
        if page.get("code") == "scope_changed" or (asked.scope and not asked.cursor and asked.scope != page["scope"]):
            self.commit(cursor=0, scope=None, shown=frozenset(), rereading=True)
            return False
        for call in self._calls_lacked(page["items"]):
            self.keep_rows(line.call(call))
        return self.keep_page(page, asked) and not page["more"] and self._finish_reading()

    def _calls_lacked(self, items: list[Json]) -> list[str]:
        """Calls the server did not show from their beginning, and settled ones that may come back to life."""
        arriving = {item["id"] for item in items}
        here = (self.store.rows.keys() & self.store.shown) | arriving
        settled = {row["call"] for row in self.store.rows.values() if row["body"].get("outcome") == "accepted"}
        revived = {item["call"] for item in items if item["kind"] in REVIVING and item["call"] in settled - arriving}
        return sorted({item["call"] for item in items if item["call"] and item["call"] not in here} | revived)

    def keep_rows(self, items: list[Json]) -> None:
        fresh = {item["id"]: item for item in items}
        self.commit(rows=self.store.rows | fresh, shown=self.store.shown | fresh.keys())

    def keep_page(self, page: Json, asked: Store) -> bool:
        """A page and the cursor it reaches are one transaction; a page asked for from elsewhere is asked for anew."""
        if any(getattr(self.store, name) != getattr(asked, name) for name in ("cursor", "epoch", "rereading")):
            return False
        fresh = {item["id"]: item for item in page["items"]}
        reached = {name: page[name] for name in ("cursor", "epoch", "scope")}
        self.commit(rows=self.store.rows | fresh, shown=self.store.shown | fresh.keys(), **reached)
        return True

    def _finish_reading(self) -> bool:
        """After a pull from the beginning: what left the scope goes, what was made here or is unsent stays."""
        if self.store.rereading:
            kept = self.store.shown | self.store.own | self.store.outbox.keys()
            rows = {name: row for name, row in self.store.rows.items() if name in kept}
            self.commit(rows=rows, rereading=False)
        return True

    def make_room(self) -> None:
        """The disk is full: rows of others in calls without an entry of this phone go, and are read again later."""
        calls = {self.store.rows[name]["call"] for name in self.store.own if name in self.store.rows}
        spared = self.store.own | self.store.outbox.keys()
        rows = {
            name: row
            for name, row in self.store.rows.items()
            if name in spared or row["call"] is None or row["call"] in calls
        }
        self.commit(rows=rows, cursor=0)

    def evict(self) -> None:
        """The browser emptied the store."""
        self.store = Store()


def leans_on(entry: Json) -> set[str]:
    """Return the ids an entry names, and whatever other words its body holds."""
    named = [entry["call"], *entry["base"], *entry["body"].values()]
    return {one for one in named if isinstance(one, str) and one != entry["id"]}


def content(entry: Json) -> str:
    return json.dumps(made(entry), sort_keys=True)

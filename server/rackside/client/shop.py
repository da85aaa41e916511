"""Everything a person can do, for a program."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, datetime
from hashlib import sha256
from itertools import islice
from types import TracebackType
from typing import Any, Self, cast
from uuid import uuid4

from rackside.client.answers import (
    Call,
    Delivery,
    Entry,
    EntryResult,
    Imported,
    Json,
    Machine,
    Result,
    Results,
    State,
    Table,
    Webhook,
)
from rackside.client.connection import Connection, EntryRefused

BATCH = 500


class Rackside:
    """A server, seen by one key or one person's device."""

    def __init__(self, url: str, token: str | None = None, timeout: float = 60.0) -> None:
        self.url = url
        self.connection = Connection(url, token, timeout)
        self.epoch: str | None = None
        self._me: Json | None = None

    @classmethod
    def sign_in(cls, url: str, name: str, password: str, device: str) -> Self:
        """Sign a device in as a person; `device` is its name, or its id when it signs in again."""
        asked = {"name": name, "password": password, "device": device}
        with cls(url) as nobody:
            given = nobody.connection.ask("POST", "/devices", json=asked)
        return cls(url, given["token"])

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self.close()

    def close(self) -> None:
        self.connection.http.close()

    @property
    def me(self) -> Json:
        """Who the token speaks for, asked once."""
        if self._me is None:
            self._me = cast(Json, self.connection.ask("GET", "/me"))
        return self._me

    def sign_out(self) -> None:
        self.connection.ask("DELETE", f"/devices/{self.me['device']}")

    # The log: how other software writes.

    def entry(
        self,
        kind: str,
        body: Json,
        call: str | None = None,
        base: Iterable[str] = (),
        made_at: datetime | None = None,
        entry_id: str | None = None,
    ) -> Entry:
        """Return an entry as this device writes it; the first entry of a call names itself."""
        entry_id, base = entry_id or str(uuid4()), list(base)
        own = entry_id if kind == "call" and not base else call
        at = (made_at or datetime.now(UTC)).isoformat()
        head: Entry = {"id": entry_id, "schema": 1, "kind": kind, "call": own, "base": base, "made_at": at}
        return {**head, "device": self.me["device"], "author": self.me["person"], "body": body}

    def push(self, entries: Iterable[Entry]) -> list[EntryResult]:
        """Send entries in batches; sending again what was sent before changes nothing."""
        waiting, results = iter(entries), []
        while batch := list(islice(waiting, BATCH)):
            told = {"device": self.me["device"], "epoch": self.epoch, "entries": batch}
            answer = self.connection.ask("POST", "/entries", json=told)
            self.epoch = answer["epoch"]
            results += answer["results"]
        return results

    def keep(self, *entries: Entry) -> list[EntryResult]:
        """Send entries that must all be taken; raise EntryRefused for the first that is not."""
        results = self.push(entries)
        for result in results:
            if result["status"] == "refused":
                raise EntryRefused(cast(Json, result))
        return results

    def pull(self, after: int = 0, call: str | None = None) -> Iterator[Entry]:
        """Yield the log from a cursor on, oldest first: all of one's scope, or one call's."""
        asked: Json = {"after": after, "limit": BATCH} | ({"call": call} if call else {})
        more = True
        while more:
            page = self.connection.ask("GET", "/entries", params=asked)
            yield from page["items"]
            asked["after"], more = page["cursor"], page["more"]

    def put_photo(self, content: bytes, media_type: str = "image/jpeg") -> str:
        """Send a picture that an entry has announced; return its name, the SHA-256 of its bytes."""
        name = sha256(content).hexdigest()
        self.connection.answer("PUT", f"/photos/{name}", content=content, headers={"Content-Type": media_type})
        return name

    def photo(self, name: str) -> bytes:
        return self.connection.answer("GET", f"/photos/{name}").content

    # Calls and their results.

    def calls(
        self, state: Sequence[State] | None = None, since: str | int | None = None, **only: str
    ) -> Iterator[Call]:
        """Yield calls, last changed first; `only` takes site, machine, assigned_to, complaint and cause."""
        return self.connection.listed("/calls", state=state, since=since, **only)

    def call(self, call_id: str) -> Json:
        return cast(Json, self.connection.ask("GET", f"/calls/{call_id}"))

    def case(self, call_id: str) -> Json:
        return cast(Json, self.connection.ask("GET", f"/calls/{call_id}/case"))

    def results(self, call_id: str) -> Results:
        return cast(Results, self.connection.ask("GET", f"/calls/{call_id}/results"))

    def results_csv(self, call_id: str) -> str:
        return self.connection.answer("GET", f"/calls/{call_id}/results.csv").text

    def all_results(
        self, state: Sequence[State] | None = None, since: str | int | None = None, **only: str
    ) -> Iterator[Results]:
        """Yield the results of many calls, last changed first; `only` takes site and machine."""
        return self.connection.listed("/results", state=state, since=since, **only)

    def report(self, call_id: str) -> str:
        return self.connection.answer("GET", f"/calls/{call_id}/report.html").text

    def review(self, call_id: str, outcome: str, seen: int, note: str | None = None) -> Json:
        """Accept a call or send it back, unless it changed after `seen`, the `changed` of the call as it was read."""
        told = {"id": str(uuid4()), "outcome": outcome, "seen": seen, "note": note}
        return cast(Json, self.connection.ask("POST", f"/calls/{call_id}/reviews", json=told))

    def judge_again(self, call_id: str) -> Json:
        return cast(Json, self.connection.ask("POST", f"/calls/{call_id}/judgements"))

    def analyse(self, case: Json) -> Result:
        """Judge a case; nothing is stored."""
        return cast(Result, self.connection.ask("POST", "/analyse", json=case))

    def vocabulary(self) -> Json:
        return cast(Json, self.connection.ask("GET", "/vocabulary"))

    def search(self, words: str) -> list[Json]:
        """Return the calls, machines and sites whose entries hold every word, latest mentioned first."""
        return list(self.connection.listed("/search", words=words))

    def watches(self) -> list[Json]:
        """Return the watches that fall due, the earliest first."""
        return list(self.connection.listed("/watches"))

    # The register.

    def machines(self, site: str | None = None, history: int | None = None) -> Iterator[Machine]:
        return self.connection.listed("/machines", site=site, history=history)

    def machine(self, machine_id: str) -> Machine:
        return cast(Machine, self.connection.ask("GET", f"/machines/{machine_id}"))

    def trends(self, machine_id: str, *checks: str) -> list[Json]:
        asked = {"check": list(checks)} if checks else {}
        return cast(list[Json], self.connection.ask("GET", f"/machines/{machine_id}/trends", params=asked)["items"])

    def sites(self) -> list[Json]:
        return list(self.connection.listed("/sites"))

    def enter(self, kind: Table, table: str | Sequence[Json], dry_run: bool = False) -> Imported:
        """Enter a table of sites, machines or people: CSV text, or rows."""
        body: Any = {"json": table}
        if isinstance(table, str):
            body = {"content": table.encode(), "headers": {"Content-Type": "text/csv"}}
        asked = self.connection.ask("POST", f"/import/{kind}", params={"dry_run": dry_run}, **body)
        return cast(Imported, asked)

    # People, keys and webhooks, for an admin.

    def people(self) -> list[Json]:
        return list(self.connection.listed("/people"))

    def add_person(self, name: str, password: str, role: str, sites: Sequence[str] | None = None) -> Json:
        told = {"name": name, "password": password, "role": role, "sites": sites}
        return cast(Json, self.connection.ask("POST", "/people", json=told))

    def add_key(
        self, name: str, scopes: Sequence[str], sites: Sequence[str] | None = None, days: int | None = None
    ) -> str:
        """Make a key and return its token, which is shown this once."""
        told = {"name": name, "scopes": scopes, "sites": sites, "days": days}
        return cast(str, self.connection.ask("POST", "/keys", json=told)["token"])

    def webhooks(self) -> list[Webhook]:
        return list(self.connection.listed("/webhooks"))

    def add_webhook(
        self, url: str, events: Sequence[str], sites: Sequence[str] | None = None, note: str | None = None
    ) -> Webhook:
        """Ask to be told of events; the answer holds the secret, which is shown this once."""
        told = {"url": url, "events": events, "sites": sites, "note": note}
        return cast(Webhook, self.connection.ask("POST", "/webhooks", json=told))

    def try_webhook(self, webhook_id: str) -> Delivery:
        """Send a message that only tries the address; its delivery log says what became of it."""
        return cast(Delivery, self.connection.ask("POST", f"/webhooks/{webhook_id}/test"))

    def renew_webhook_secret(self, webhook_id: str) -> str:
        """Return a new secret, which is shown this once; for a day the old one signs too."""
        return cast(str, self.connection.ask("POST", f"/webhooks/{webhook_id}/secret")["secret"])

    def pause_webhook(self, webhook_id: str) -> Webhook:
        return cast(Webhook, self.connection.ask("POST", f"/webhooks/{webhook_id}/pause"))

    def resume_webhook(self, webhook_id: str) -> Webhook:
        """Have what waits sent, and go on being told."""
        return cast(Webhook, self.connection.ask("POST", f"/webhooks/{webhook_id}/resume"))

    def remove_webhook(self, webhook_id: str) -> None:
        self.connection.ask("DELETE", f"/webhooks/{webhook_id}")

    def deliveries(self, webhook_id: str, state: str | None = None) -> Iterator[Delivery]:
        return self.connection.listed(f"/webhooks/{webhook_id}/deliveries", state=state)

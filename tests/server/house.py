"""A server in this process on a free port, and phones that talk to it as real ones do."""

import threading
import time
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import httpx
import uvicorn

from rackside.access import devices, people
from rackside.app import create_app
from rackside.records import Database
from rackside.settings import Settings
from tests.fixtures.servers import free_port

Json = dict[str, Any]
PASSWORD = "a long enough password"
MADE_AT = "2026-10-14T21:40:00-05:00"


@dataclass
class Phone:
    """Somebody's signed-in device."""

    http: httpx.Client
    author: str
    device: str
    epoch: str | None = None
    sent: list[Json] = field(default_factory=list)

    def make(self, kind: str, body: Json, call: str | None = None, **head: Any) -> Json:
        """An entry as a device makes it; a first `call` entry names itself."""
        entry_id = str(uuid.uuid4())
        own = entry_id if kind == "call" and not head.get("base") else call
        about = {"id": entry_id, "schema": 1, "kind": kind, "call": own, "base": [], "made_at": MADE_AT}
        return about | {"device": self.device, "author": self.author, "body": body} | head

    def push(self, *entries: Any) -> Json:
        answer = self.http.post(
            "/api/v1/entries", json={"device": self.device, "epoch": self.epoch, "entries": list(entries)}
        )
        assert answer.status_code == 200, answer.text
        return answer.json()

    def keep(self, *entries: Json) -> Json:
        """Push entries that must all be taken."""
        answer = self.push(*entries)
        refused = [result for result in answer["results"] if result["status"] == "refused"]
        assert refused == []
        return answer

    def write(self, kind: str, body: Json, call: str | None = None, **head: Any) -> Json:
        made = self.make(kind, body, call, **head)
        self.keep(made)
        return made

    def get(self, path: str, status: int = 200, **query: Any) -> Json:
        answer = self.http.get(f"/api/v1{path}", params=query)
        assert answer.status_code == status, answer.text
        return answer.json()

    def pull(self, after: int = 0, **query: Any) -> list[Json]:
        """All pages from a cursor on."""
        items: list[Json] = []
        while True:
            page = self.get("/entries", after=after, **query)
            items += page["items"]
            after = page["cursor"]
            if not page["more"]:
                return items


@dataclass
class House:
    """A running server and its database."""

    url: str
    database: Database
    settings: Settings

    def person(self, name: str, role: str = "technician", sites: list[str] | None = None) -> str:
        with self.database.writing() as connection:
            return people.add(connection, name, PASSWORD, role, sites)

    def sign_in(self, name: str, device: str = "phone") -> Phone:
        asked = {"name": name, "password": PASSWORD, "device": device}
        answer = httpx.post(f"{self.url}/api/v1/devices", json=asked, trust_env=False)
        assert answer.status_code == 201, answer.text
        return Phone(self.client(answer.json()["token"]), name, answer.json()["device"])

    def phone(self, name: str, role: str = "technician", sites: list[str] | None = None) -> Phone:
        self.person(name, role, sites)
        return self.sign_in(name)

    def key(self, name: str, *scopes: str, sites: list[str] | None = None) -> Phone:
        with self.database.writing() as connection:
            made = devices.add_key(connection, name, list(scopes), sites, None)
        return Phone(self.client(made["token"]), name, made["id"])

    def client(self, token: str | None = None) -> httpx.Client:
        headers = {"Authorization": f"Bearer {token}"} if token else {}
        return httpx.Client(base_url=self.url, headers=headers, trust_env=False, timeout=20)


@contextmanager
def running(database_url: str, folder: Path, **settings: Any) -> Iterator[House]:
    """Serve from a thread of this process until the test is over."""
    chosen = Settings(database_url=database_url, photos=folder / "photos", port=free_port(), **settings)
    app = create_app(chosen)
    server = uvicorn.Server(uvicorn.Config(app, chosen.host, chosen.port, log_level="warning", access_log=False))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        assert thread.is_alive(), "the server did not start"
        time.sleep(0.01)
    try:
        yield House(f"http://{chosen.host}:{chosen.port}", app.state.database, chosen)
    finally:
        server.should_exit = True
        thread.join(20)


@dataclass
class Story:
    """A site with a machine and an open call, written by a phone."""

    site: str
    machine: str
    call: str
    round: str
    entries: list[Json]


def story(phone: Phone, tag: str = "B3") -> Story:
    """Make, but not send, a site, machine, call, round and one reading."""
    site = phone.make("site", {"name": "Tannery Lane Cold Store", "time_zone": "America/Chicago"})
    plate = {"rated_voltage": 460, "rated_load_current": 34, "supply": {"nominal_voltage": 480}}
    machine = phone.make("machine", {"site": site["id"], "tag": tag, "rack": "B", **plate})
    call = phone.make("call", {"machine": machine["id"], "complaint": "oil_trip", "opened_at": MADE_AT})
    found = phone.make("round", {"label": "as_found", "at": MADE_AT}, call["id"])
    volts = phone.make("reading", line_voltage(found["id"]), call["id"])
    return Story(site["id"], machine["id"], call["id"], found["id"], [site, machine, call, found, volts])


def line_voltage(round_id: str, *volts: str) -> Json:
    legs = dict(zip(("L1-L2", "L2-L3", "L3-L1"), volts or ("478", "480", "479"), strict=True))
    return {"round": round_id, "point": "line_voltage", "legs": legs, "unit": "V", "state": "running", "at": MADE_AT}

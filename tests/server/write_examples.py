"""Writes the examples of the API's document anew, from a run over the demo: python -m tests.server.write_examples"""

import json
import tempfile
from collections.abc import Generator
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from typing import Any
from unittest.mock import patch
from zoneinfo import ZoneInfo

import httpx

from rackside.api.examples import FILE
from rackside.hooks.sending import Sender, Sent
from seed_demo import load
from seed_demo.loading import SEED, story_of
from seed_demo.plant import TIME_ZONE
from tests.server.house import PASSWORD, House, running
from tests.server.replay import PICTURE, PICTURE_WORDS, Replay

Json = dict[str, Any]
Steps = Generator[Json, Any, None]
ADMIN = "Demo admin"
SECRETS = {"token": "rs_shown-once-and-kept-only-as-a-hash", "secret": "whsec_c2hvd24gb25jZSwga2VwdCB0byBzaWduIGJ5"}
PICTURES = ("image/jpeg", "image/png", "image/webp")
MADE_AT = "2026-10-14T21:40:00-05:00"
CALL_ID, PHOTO_ID = "7d0f5f0e-6b1d-4d0c-9a8e-2f1f7c3a9b10", "c1b7e9a2-3d55-4c1c-8a39-5e0d2b6f4a77"
REVIEW_ID = "0b6f4f0e-6a5e-4a1e-8a55-9d1c4e1f2a10"
MOST_TEXT, MOST_LINES, MOST_WORDS = 300, 4, 3


def asked(method: str, path: str, by: str = "admin", query: Json | None = None, **in_path: str) -> Json:
    return {"method": method, "path": path, "by": by, "in_path": in_path, "query": query or {}}


def sent(method: str, path: str, body: Any, media: str = "application/json", **more: Any) -> Json:
    return asked(method, path, **more) | {"body_type": media, "body": body}


def engine_steps() -> Steps:
    yield asked("GET", "/health", by="nobody")
    yield asked("GET", "/vocabulary", by="nobody", query={"language": "en"})
    legs = {"L1-L2": "478", "L2-L3": "480", "L3-L1": "479"}
    volts = {"point": "line_voltage", "legs": legs, "unit": "V", "state": "running"}
    case = {"machine": {"tag": "A3", "rated_voltage": 460}, "rounds": [{"label": "as_found", "readings": [volts]}]}
    yield sent("POST", "/analyse", case, query={"language": "en"})


def people_steps(site: str) -> Generator[Json, Any, tuple[str, str]]:
    """Return the ids of a person and of their phone."""
    name, password = "S. Amadi", "a long password"
    made = yield sent("POST", "/people", {"name": name, "password": password, "role": "technician", "sites": []})
    yield sent("PUT", "/people/{person_id}/sites", {"sites": [site]}, person_id=made["id"])
    yield asked("GET", "/people")
    wanted = {"name": name, "password": password, "device": "Amadi's phone"}
    phone = yield sent("POST", "/devices", wanted, by="nobody")
    yield asked("GET", "/me", by="phone")
    key = yield sent("POST", "/keys", {"name": "scheduler", "scopes": ["read", "write"], "sites": [site], "days": 365})
    yield asked("POST", "/keys/{key_id}/renew", key_id=key["id"])
    yield asked("GET", "/devices")
    return made["id"], phone["device"]


def register_steps(site: str, machine: str) -> Steps:
    yield asked("GET", "/sites")
    yield asked("GET", "/meters")
    yield asked("GET", "/machines", query={"site": site, "history": 1, "limit": 1})
    yield asked("GET", "/machines/{machine_id}", query={"history": 1}, machine_id=machine)
    query = {"check": ["winding_balance"], "limit": 2}
    yield asked("GET", "/machines/{machine_id}/trends", query=query, machine_id=machine)
    table = [{"site": "Tannery Lane Cold Store", "rack": "B", "tag": "B9", "rated_voltage": 460}]
    yield sent("POST", "/import/{kind}", table, query={"dry_run": True}, kind="machines")
    lines = "site,rack,tag,rated_voltage,supply.nominal_voltage\nTannery Lane Cold Store,B,B9,460,480\n"
    yield sent("POST", "/import/{kind}", lines, "text/csv", query={"dry_run": True}, kind="machines")


def call_steps(call: str, machine: str) -> Steps:
    yield asked("GET", "/calls", query={"state": ["submitted"], "limit": 1})
    for part in ("/case", "/results", "/results.csv", "/judgements", "/report.csv", "/report.json"):
        yield asked("GET", "/calls/{call_id}" + part, call_id=call)
    yield asked("GET", "/calls/{call_id}/report.html", query={"kind": "next"}, call_id=call)
    yield asked("GET", "/calls/{call_id}/report.pdf", query={"kind": "customer"}, call_id=call)
    yield asked("POST", "/calls/{call_id}/judgements", call_id=call)
    yield asked("GET", "/results", query={"machine": machine, "limit": 1})
    yield asked("GET", "/results.csv", query={"machine": machine, "limit": 1})
    yield asked("GET", "/search", query={"words": "oil", "limit": 1})
    yield asked("GET", "/watches", query={"limit": 1})


def entry_steps(machine: str, device: str) -> Steps:
    name = sha256(PICTURE).hexdigest()
    head = {"schema": 1, "call": CALL_ID, "base": [], "made_at": MADE_AT, "device": device, "author": "S. Amadi"}
    opened = {"machine": machine, "complaint": "oil_trip", "reported": "W-1041: tripped on oil", "opened_at": MADE_AT}
    shown = {"sha256": name, "media_type": "image/webp", "size": len(PICTURE), "shows": "alarm"}
    entries = [
        head | {"id": CALL_ID, "kind": "call", "body": opened},
        head | {"id": PHOTO_ID, "kind": "photo", "body": shown},
    ]
    yield sent("POST", "/entries", {"device": device, "epoch": None, "entries": entries}, by="phone")
    yield asked("GET", "/entries", by="phone", query={"call": CALL_ID, "limit": 1})
    yield sent("PUT", "/photos/{sha256}", PICTURE_WORDS, "image/webp", by="phone", sha256=name)
    yield asked("GET", "/photos/{sha256}", by="phone", sha256=name)


def webhook_steps(call: str) -> Steps:
    wanted = {"url": "https://shop.example/rackside", "events": ["call.submitted", "call.reviewed"]}
    hook = (yield sent("POST", "/webhooks", wanted | {"note": "the scheduler"}))["id"]
    yield asked("GET", "/webhooks")
    yield asked("GET", "/webhooks/{webhook_id}", webhook_id=hook)
    seen = (yield asked("GET", "/calls/{call_id}", call_id=call))["changed"]
    review = {"id": REVIEW_ID, "outcome": "returned", "note": "leads off, please", "seen": seen}
    yield sent("POST", "/calls/{call_id}/reviews", review, call_id=call)
    log = yield asked("GET", "/webhooks/{webhook_id}/deliveries", query={"limit": 1}, webhook_id=hook)
    message, again = log["items"][0]["id"], "/webhooks/{webhook_id}/deliveries/{delivery_id}/again"
    yield asked("POST", again, webhook_id=hook, delivery_id=message)
    for act in ("test", "pause", "resume", "secret"):
        yield asked("POST", "/webhooks/{webhook_id}/" + act, webhook_id=hook)
    yield asked("DELETE", "/webhooks/{webhook_id}", webhook_id=hook)


def steps() -> Steps:
    """Ask for everything once, each after what it needs."""
    story = story_of(SEED, datetime.now(ZoneInfo(TIME_ZONE)))
    call, machine = story.id_of("F6 call"), story.machines["A1"]
    yield from engine_steps()
    person, device = yield from people_steps(story.site)
    yield from register_steps(story.site, machine)
    yield from call_steps(call, machine)
    yield from entry_steps(story.machines["B3"], device)
    yield from webhook_steps(call)
    yield asked("DELETE", "/devices/{device_id}", device_id=device)
    yield asked("DELETE", "/people/{person_id}", person_id=person)


def short(value: Any) -> Any:
    """Return an answer with its lists cut short, and without what is shown only once."""
    if isinstance(value, dict):
        return {name: SECRETS.get(name) or short(one) for name, one in value.items()}
    if isinstance(value, list):
        most = 1 if value and isinstance(value[0], dict | list) else MOST_WORDS
        return [short(one) for one in value[:most]]
    return value


def answer_of(response: httpx.Response) -> Json:
    """Return an answer as the document shows it; of a file its beginning, or that it is one."""
    kind = response.headers.get("content-type", "").split(";")[0]
    told: Json = {"status": response.status_code}
    if not response.content:
        return told
    if kind == "application/json":
        return told | {"answer_type": kind, "answer": short(response.json())}
    if not kind.startswith("text/"):
        return told | {"answer_type": kind, "answer": PICTURE_WORDS if kind in PICTURES else "%PDF-1.7 …"}
    lines = response.text.splitlines(keepends=True)[:MOST_LINES]
    return told | {"answer_type": kind, "answer": "".join(lines)[:MOST_TEXT]}


def recorded(house: House) -> list[Json]:
    """Return every example of one run."""
    house.person(ADMIN, "admin")
    load(house.url, ADMIN, PASSWORD)
    replay, run, found = Replay(house, house.sign_in(ADMIN)), steps(), []
    step = next(run)
    while True:
        response = replay.ask(step)
        assert response.is_success, (step, response.text)
        real = response.json() if response.headers.get("content-type") == "application/json" else None
        found.append(step | answer_of(response))
        replay.learn(step, real, real)
        try:
            step = run.send(real)
        except StopIteration:
            return found


def main() -> None:
    folder = Path(tempfile.mkdtemp())
    taken = patch.object(Sender, "send", lambda *_told: Sent(204, None))
    with taken, running(f"sqlite:///{folder / 'rackside.db'}", folder) as house:
        lines = [json.dumps(example, ensure_ascii=False) for example in recorded(house)]
    FILE.write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()

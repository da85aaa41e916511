"""The server's process is killed while a phone sends; then everything is sent again, as a phone does."""

import random
import threading
import time
import uuid
from typing import Any

import httpx
import pytest

from tests.fixtures.servers import Server

ENTRIES, BATCH, CUTS = 240, 20, 3
PERSON, PASSWORD = "T. Okafor", "a password for this test"


def sign_in(server: Server) -> dict[str, Any]:
    body = {"name": PERSON, "password": PASSWORD, "device": "phone of a test"}
    answer = httpx.post(f"{server.url}/api/v1/devices", json=body, trust_env=False)
    assert answer.is_success, answer.text
    return answer.json()


def sites(device: str) -> list[dict[str, Any]]:
    """Return entries that need no other entry: each a site of its own."""
    return [
        {
            "id": str(uuid.uuid4()),
            "schema": 1,
            "kind": "site",
            "call": None,
            "base": [],
            "made_at": "2026-10-14T21:40:00-05:00",
            "device": device,
            "author": PERSON,
            "body": {"name": f"Cold store {number}"},
        }
        for number in range(ENTRIES)
    ]


class Phone:
    """Sends what it holds in batches until each entry is acknowledged, whatever becomes of the line."""

    def __init__(self, server: Server) -> None:
        self.url, signed_in = f"{server.url}/api/v1/entries", sign_in(server)
        self.headers = {"Authorization": f"Bearer {signed_in['token']}"}
        self.device = signed_in["device"] if isinstance(signed_in["device"], str) else signed_in["device"]["id"]
        self.entries = sites(self.device)
        self.epoch = httpx.get(f"{server.url}/api/v1/health", trust_env=False).json()["epoch"]
        self.cut_off = 0
        self.answers: dict[str, list[dict[str, Any]]] = {entry["id"]: [] for entry in self.entries}

    def send_all(self, deadline: float) -> None:
        for start in range(0, ENTRIES, BATCH):
            while time.monotonic() < deadline and not self._send(self.entries[start : start + BATCH]):
                time.sleep(0.02)

    def _send(self, batch: list[dict[str, Any]]) -> bool:
        body = {"device": self.device, "epoch": self.epoch, "entries": batch}
        try:
            answer = httpx.post(self.url, json=body, headers=self.headers, timeout=20, trust_env=False)
        except httpx.TransportError:
            self.cut_off += 1
            return False
        assert answer.status_code == 200, answer.text
        for result in answer.json()["results"]:
            self.answers[result["id"]].append(result)
        return True

    def pulled(self) -> list[dict[str, Any]]:
        items, after, more = [], 0, True
        while more:
            page = httpx.get(self.url, params={"after": after}, headers=self.headers, trust_env=False).json()
            items, after, more = items + page["items"], page["cursor"], page["more"]
        return items


@pytest.mark.parametrize("seed", [20261014])
def test_nothing_lost_and_nothing_doubled(served: Server, seed: int) -> None:
    """Seeded: the same seed cuts at the same waiting times."""
    served.run("user", "add", PERSON, "--password", PASSWORD)
    phone, chance = Phone(served), random.Random(seed)
    sender = threading.Thread(target=phone.send_all, args=(time.monotonic() + 120,))
    sender.start()
    for _ in range(CUTS):
        time.sleep(chance.uniform(0.005, 0.1))
        served.kill()
        served.start()
    sender.join(120)
    phone.send_all(time.monotonic() + 60)

    assert phone.cut_off >= 1, "the cuts came while entries were being sent"
    statuses = [answers[-1]["status"] for answers in phone.answers.values()]
    assert statuses == ["repeated"] * ENTRIES, "sent once more, every entry is already there"
    cursors = {entry: {answer["cursor"] for answer in answers} for entry, answers in phone.answers.items()}
    assert [entry for entry, found in cursors.items() if len(found) != 1] == [], "an entry keeps its place in the log"
    assert sorted(item["id"] for item in phone.pulled()) == sorted(phone.answers)

"""The server killed at any moment: nothing acknowledged is lost, nothing is there twice, no batch is half taken."""

import threading
import time
import uuid
from collections.abc import Callable
from pathlib import Path
from typing import Any

import httpx
import pytest

from tests.fixtures.servers import Server
from tests.server.house import PASSWORD, Phone, line_voltage, story

BATCH = 200


def signed_in(server: Server) -> Phone:
    asked = {"name": "T. Okafor", "password": PASSWORD, "device": "phone"}
    given = httpx.post(f"{server.url}/api/v1/devices", json=asked, trust_env=False).json()
    headers = {"Authorization": f"Bearer {given['token']}"}
    http = httpx.Client(base_url=server.url, headers=headers, trust_env=False, timeout=20)
    return Phone(http, "T. Okafor", given["device"])


@pytest.fixture
def server(serve: Callable[..., Server], database_url: str, tmp_path: Path) -> Server:
    started = serve(database_url, RACKSIDE_PASSWORD=PASSWORD)
    started.run("user", "add", "T. Okafor", "--database", database_url)
    return started


def send_until_killed(phone: Phone, batches: list[list[dict[str, Any]]], acknowledged: list[str]) -> None:
    for batch in batches:
        try:
            answer = phone.push(*batch)
        except httpx.TransportError:
            return
        acknowledged += [result["id"] for result in answer["results"] if result["status"] == "accepted"]


@pytest.mark.parametrize("after", [0.05, 0.3])
def test_killed_amid_batches_nothing_is_lost_or_doubled(server: Server, after: float) -> None:
    phone = signed_in(server)
    told = story(phone)
    phone.keep(*told.entries)
    entries = [phone.make("reading", line_voltage(told.round), told.call) for _ in range(20 * BATCH)]
    batches = [entries[start : start + BATCH] for start in range(0, len(entries), BATCH)]
    acknowledged: list[str] = []
    sender = threading.Thread(target=send_until_killed, args=(phone, batches, acknowledged))
    sender.start()
    time.sleep(after)
    server.kill()
    sender.join()
    server.start()
    held = [item["id"] for item in phone.pull(after=5)]
    assert set(acknowledged) <= set(held), "what was acknowledged is there"
    assert len(held) == len(set(held))
    assert len(held) % BATCH == 0, "a batch is taken whole or not at all"
    for batch in batches:
        phone.keep(*batch)
    items = phone.pull(after=5)
    assert sorted(item["id"] for item in items) == sorted(entry["id"] for entry in entries)
    assert [item["cursor"] for item in items] == list(range(6, 6 + len(entries)))
    assert phone.get(f"/calls/{told.call}")["rounds"][0]["readings"] == len(entries) + 1


def test_killed_after_the_answer_everything_answered_is_there(server: Server) -> None:
    phone = signed_in(server)
    told = story(phone)
    answer = phone.keep(*told.entries)
    server.kill()
    server.start()
    assert phone.get("/health")["epoch"] == answer["epoch"]
    again = phone.push(*told.entries)
    assert [result["status"] for result in again["results"]] == ["repeated"] * 5
    assert again["cursor"] == answer["cursor"] == 5


def test_two_servers_may_start_at_once_on_one_database(
    serve: Callable[..., Server], database_url: str, tmp_path: Path
) -> None:
    servers: list[Server] = []
    starters = [threading.Thread(target=lambda: servers.append(serve(database_url))) for _ in range(2)]
    for starter in starters:
        starter.start()
    for starter in starters:
        starter.join()
    assert len(servers) == 2
    epochs = {httpx.get(f"{one.url}/api/v1/health", trust_env=False).json()["epoch"] for one in servers}
    assert len(epochs) == 1


def test_two_server_processes_share_one_order(serve: Callable[..., Server], database_url: str) -> None:
    one = serve(database_url, RACKSIDE_PASSWORD=PASSWORD)
    one.run("user", "add", "T. Okafor", "--database", database_url)
    other = serve(database_url)
    phones = [signed_in(one), signed_in(other)]
    told = story(phones[0])
    phones[0].keep(*told.entries)

    def work(phone: Phone) -> None:
        for _ in range(20):
            signs = [phone.make("sign", {"sign": "knock", "present": True}, told.call) for _ in range(5)]
            phone.keep(*signs)

    workers = [threading.Thread(target=work, args=(phone,)) for phone in phones]
    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join()
    assert [item["cursor"] for item in phones[1].pull()] == list(range(1, 206))
    assert len({uuid.UUID(item["id"]) for item in phones[0].pull()}) == 205

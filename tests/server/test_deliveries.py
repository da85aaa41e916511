"""Messages to a receiver that fails half the time: none is lost, none comes twice. The bench sends ten thousand."""

import time
from collections import Counter
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import text

from rackside.hooks import courier
from rackside.hooks.courier import WAITS
from tests.server.house import House, running, story
from tests.server.receiver import receiving
from tests.server.test_webhooks import hook

COUNT, HOOKS, BATCH = 1000, 4, 250
ANSWERS = (500, 200, 302, 200, 429, 200, 200, 503)


@pytest.fixture
def busy_house(sqlite_url: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[House]:
    """A server that tries again at once, and more often than it would."""
    monkeypatch.setattr(courier, "WAITS", tuple(timedelta(milliseconds=1) for _ in WAITS) * 4)
    monkeypatch.setattr(courier, "LOOK_EVERY", 0.01)
    with running(sqlite_url, tmp_path, webhooks_private=True) as house:
        yield house


def deliver(house: House, count: int, within: float) -> None:
    """Cause so many messages and wait until every one is settled."""
    with receiving(lambda number: ANSWERS[number % len(ANSWERS)]) as receiver:
        okafor = house.phone("T. Okafor")
        told = story(okafor)
        okafor.keep(*told.entries)
        hooks = [hook(house, receiver.url, ["gate.overruled"]) for _ in range(HOOKS)]
        need = {"gate": "restart", "need": "sump_temperature", "reason": "the heater is new"}
        for _ in range(count // HOOKS // BATCH):
            okafor.keep(*(okafor.make("override", need, told.call) for _ in range(BATCH)))
        receiver.wait_for(count, within)
        rows = settled(house)
    assert len(rows) == count
    assert {row.state for row in rows} == {"delivered"}
    assert Counter(row.webhook_id for row in rows) == {made["id"]: count // HOOKS for made in hooks}
    assert set(Counter(receiver.ids()).values()) == {1}
    assert set(receiver.ids()) == {row.id for row in rows}
    assert receiver.asked > count * 1.5


def settled(house: House) -> list[Any]:
    """Every delivery, once the last answers are written down."""
    while True:
        with house.database.reading() as connection:
            rows = connection.execute(text("SELECT id, webhook_id, state FROM deliveries")).all()
        if all(row.state != "pending" for row in rows):
            return list(rows)
        time.sleep(0.05)


def test_a_thousand_messages_to_a_failing_receiver_and_none_is_lost(busy_house: House) -> None:
    deliver(busy_house, COUNT, within=60)

"""Stories over HTTP that tell a sound server process from a broken one: each promise has one that fails without it."""

import os
import sys
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import httpx
import pytest

from tests.faults import demands
from tests.faults.replica import Replica
from tests.faults.web_line import WebLine
from tests.fixtures.servers import Server
from tests.server.house import Phone

PEOPLE, PASSWORD = ("T. Okafor", "R. Lindqvist", "S. Brandt"), "a long enough password"
MANY, TRIES = 400, 15
ROOT = Path(__file__).parents[2]


class Hand:
    """A signed-in phone: its store and its line."""

    def __init__(self, server: Server, name: str) -> None:
        url = f"{server.url}/api/v1/devices"
        asked = {"name": name, "password": PASSWORD, "device": "phone"}
        told = httpx.post(url, json=asked, trust_env=False, timeout=60).raise_for_status().json()
        headers = {"Authorization": f"Bearer {told['token']}"}
        http = httpx.Client(base_url=server.url, headers=headers, trust_env=False, timeout=60)
        self.phone, self.line = Phone(http, name, told["device"]), WebLine(http)
        self.store = Replica(told["device"], name)

    def keep(self, count: int = 1) -> None:
        self.store.keep(*(self.phone.make("site", {"name": f"Cold store {number}"}) for number in range(count)))

    def send(self) -> Any:
        return self.line.push(self.store.device, self.store.store.epoch, self.store.waiting())

    def exchange(self) -> None:
        self.store.exchange(self.line)


Hands = tuple[Hand, Hand, Hand]


def the_answer_is_lost(_server: Server, hands: Hands) -> None:
    hands[0].keep(3)
    hands[0].send()
    hands[0].exchange()


def the_server_dies_after_its_answer(server: Server, hands: Hands) -> None:
    hands[0].keep(3)
    hands[0].store.settle(hands[0].send())
    server.kill()
    server.start()


def a_long_push_is_overtaken(_server: Server, hands: Hands) -> None:
    """While the first phone's batch is being taken the second's comes, and the third reads."""
    first, second, third = hands
    for _ in range(TRIES):
        first.keep(MANY)
        slow = threading.Thread(target=first.exchange)
        slow.start()
        while slow.is_alive():
            second.keep()
            second.exchange()
            third.exchange()
        slow.join()


STORIES: list[tuple[str, Callable[[Server, Hands], None], str]] = [
    ("drops_operation_ids", the_answer_is_lost, "no entry is there twice"),
    ("acknowledges_before_commit", the_server_dies_after_its_answer, "are lost"),
    ("takes_cursors_from_a_sequence", a_long_push_is_overtaken, "phone and server hold the same"),
]
NAMES = [name for name, _, _ in STORIES]


def all_is_there(hands: Hands) -> None:
    held = hands[0].phone.pull()
    kept = {name: row for hand in hands for name, row in hand.store.store.rows.items() if name in hand.store.store.own}
    demands.nothing_lost_doubled_or_changed(held, kept, set(), set())
    for hand in hands:
        hand.exchange()
        assert hand.store.store.rows.keys() == {entry["id"] for entry in held}, "phone and server hold the same"


@pytest.fixture
def serving(tmp_path: Path, postgres_url: str) -> Iterator[Callable[..., tuple[Server, Hands]]]:
    """Start a server, sound or broken. On PostgreSQL pushes run at once, which a sequence can't bear."""
    started: list[Server] = []

    def serve(mutant: str = "") -> tuple[Server, Hands]:
        server = Server(
            tmp_path, postgres_url, PYTHONPATH=os.pathsep.join([str(ROOT), os.environ.get("PYTHONPATH", "")])
        )
        if mutant:
            server.program = [sys.executable, "-m", "tests.faults.mutant_server", mutant, postgres_url]
        started.append(server.start())
        for name in PEOPLE:
            server.run("user", "add", name, "--password", PASSWORD)
        first, second, third = (Hand(server, name) for name in PEOPLE)
        return server, (first, second, third)

    yield serve
    for server in started:
        server.kill()


@pytest.mark.parametrize(("mutant", "story", "told"), STORIES, ids=NAMES)
def test_a_broken_server_is_found_out(
    serving: Callable[..., tuple[Server, Hands]], mutant: str, story: Callable[[Server, Hands], None], told: str
) -> None:
    server, hands = serving(mutant)
    story(server, hands)
    with pytest.raises(AssertionError, match=told):
        all_is_there(hands)


@pytest.mark.parametrize("story", [story for _, story, _ in STORIES], ids=NAMES)
def test_a_sound_server_keeps_its_promises(
    serving: Callable[..., tuple[Server, Hands]], story: Callable[[Server, Hands], None]
) -> None:
    server, hands = serving()
    story(server, hands)
    all_is_there(hands)

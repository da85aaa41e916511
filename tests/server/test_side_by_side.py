"""What reads or rebuilds while phones push: nothing is skipped, on both databases."""

import threading
from collections.abc import Callable, Iterable
from typing import Any

import pytest
from sqlalchemy import Connection

from rackside.records import log, projection
from tests.server.house import House, Phone, Story, story


@pytest.fixture
def told(okafor: Phone) -> Story:
    made = story(okafor)
    okafor.keep(*made.entries)
    return made


def beside(work: Callable[[], Any]) -> threading.Thread:
    running = threading.Thread(target=work)
    running.start()
    return running


def test_what_is_pushed_inside_a_pull_comes_with_the_next(
    house: House, okafor: Phone, told: Story, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The push is committed between the questions of one page, for a person of one site."""
    other = house.phone("R. Lindqvist", sites=[told.site])
    held = other.get("/entries", after=0)
    knock = okafor.make("sign", {"sign": "knock", "present": True}, told.call)
    done = okafor.make("submission", {}, told.call)
    moved = okafor.make("machine", {"tag": "B4"}, base=[told.machine])
    real = log._live_calls

    def live_calls(connection: Connection, sites: list[str], after: int) -> list[str]:
        found = real(connection, sites, after)
        beside(lambda: okafor.keep(knock, done, moved)).join()
        monkeypatch.setattr(log, "_live_calls", real)
        return found

    monkeypatch.setattr(log, "_live_calls", live_calls)
    page = other.get("/entries", after=held["cursor"])
    came = page["items"] + other.pull(page["cursor"])
    assert [entry["id"] for entry in came] == [knock["id"], done["id"], moved["id"]]


@pytest.mark.parametrize("when", ["before", "after"])
def test_what_is_pushed_inside_a_rebuild_stands_in_the_tables(
    house: House, okafor: Phone, told: Story, monkeypatch: pytest.MonkeyPatch, when: str
) -> None:
    since = [okafor.make("site", {"name": "Quay Cold Store"}), okafor.make("submission", {}, told.call)]
    real, pushes = log.whole, []

    def whole(connection: Connection, step: int = 1000) -> Iterable[list[log.Logged]]:
        parts = list(real(connection, step)) if when == "after" else []
        pushes.append(beside(lambda: okafor.keep(*since)))
        pushes[0].join(0.5)
        yield from parts or real(connection, step)

    monkeypatch.setattr(projection.log, "whole", whole)
    with house.database.writing() as connection:
        assert projection.rebuild_and_compare(connection) == (5, True)
    pushes[0].join()
    monkeypatch.setattr(projection.log, "whole", real)
    assert okafor.get(f"/calls/{told.call}")["state"] == "submitted"
    with house.database.writing() as connection:
        assert projection.rebuild_and_compare(connection) == (7, True)

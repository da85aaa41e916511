"""Seeded nights in real browsers over a line that breaks: at the end nothing is lost, doubled or changed."""

import os
import shutil
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Playwright

from tests.faults.night import Night
from tests.faults.premises import PEOPLE, House
from tests.faults.running import chosen_seed, examples
from tests.fixtures.browsers import Phone

NIGHTS = {"sqlite": examples(quick=5, thorough=50), "postgresql": examples(quick=0, thorough=10)}
STEPS = 25


@pytest.fixture(scope="module", params=[name for name, nights in NIGHTS.items() if nights])
def kind(request: pytest.FixtureRequest) -> str:
    return request.param


@pytest.fixture(scope="module")
def house(
    request: pytest.FixtureRequest, kind: str, playwright: Playwright, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[House]:
    """One server and the same browsers for every night; each night begins with an empty log and new phones."""
    folder = tmp_path_factory.mktemp("house")
    phones = [Phone(playwright, tmp_path_factory.mktemp("phone")) for _ in PEOPLE]
    opened = House(folder, _database(request, kind, folder), phones)
    yield opened
    opened.close()
    for phone in phones:
        phone.close()
        shutil.rmtree(phone.profile, ignore_errors=True)


def _database(request: pytest.FixtureRequest, kind: str, folder: Path) -> str:
    if kind == "sqlite":
        return f"sqlite:///{folder / 'rackside.db'}"
    cluster = request.getfixturevalue("postgres_cluster")
    cluster.run("create database nights")
    return cluster.url("nights")


def test_nothing_is_lost_over_many_nights(house: House, kind: str) -> None:
    """A seed that was asked for is one night, to look at what went wrong in it."""
    first, happened, entries, began = chosen_seed(), Counter[str](), 0, time.monotonic()
    nights = 1 if "RACKSIDE_SEED" in os.environ else NIGHTS[kind]
    for seed in range(first, first + nights):
        night = Night(seed, house)
        try:
            night.work(STEPS)
            night.quiet()
            night.demand()
        except BaseException:
            print(f"RACKSIDE_SEED={seed} replays this night: {' '.join(night.done)}")
            raise
        print(f"night {seed}: {len(night.kept)} entries")
        happened += house.proxy.carried + Counter(night.done)
        entries += len(night.kept)
    print(f"{nights} nights on {kind}, {entries} entries kept, none lost, none doubled")
    print(f"{house.proxy.requests} requests, {time.monotonic() - began:.0f} s; {dict(happened)}")
    assert entries > 0

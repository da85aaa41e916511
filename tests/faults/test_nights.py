"""Seeded nights in real browsers over a line that breaks: at the end nothing is lost, doubled or changed."""

import shutil
from collections import Counter
from collections.abc import Iterator

import pytest
from playwright.sync_api import Playwright

from tests.faults.night import PEOPLE, House, Night
from tests.faults.running import THOROUGH, chosen_seed
from tests.fixtures.browsers import Phone

NIGHTS, STEPS = 50, 25


@pytest.fixture(scope="module")
def house(playwright: Playwright, tmp_path_factory: pytest.TempPathFactory) -> Iterator[House]:
    """One server and the same browsers for every night; each night begins with an empty log and new phones."""
    phones = [Phone(playwright, tmp_path_factory.mktemp("phone")) for _ in PEOPLE]
    opened = House(tmp_path_factory.mktemp("house"), phones)
    yield opened
    opened.close()
    for phone in phones:
        phone.close()
        shutil.rmtree(phone.profile, ignore_errors=True)


@pytest.mark.skipif(not THOROUGH, reason="nights in real browsers run by make test-faults")
def test_nothing_is_lost_over_many_nights(house: House) -> None:
    first, happened, entries = chosen_seed(), Counter[str](), 0
    for seed in range(first, first + NIGHTS):
        night = Night(seed, house)
        try:
            night.work(STEPS)
            night.quiet()
            night.demand()
        except BaseException:
            print(f"RACKSIDE_SEED={seed} replays this night: {' '.join(night.done)}")
            raise
        happened += house.proxy.carried + Counter(night.done)
        entries += len(night.kept)
    print(f"{NIGHTS} nights, {entries} entries kept, none lost, none doubled")
    print(f"{house.proxy.requests} requests; {dict(happened)}")

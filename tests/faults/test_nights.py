"""Seeded nights in real browsers over a line that breaks: at the end nothing is lost, doubled or changed."""

import shutil
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Playwright

from tests.faults.night import PEOPLE, Night
from tests.faults.running import chosen_seed, examples
from tests.fixtures.browsers import Phone

STEPS = 25


@pytest.fixture(scope="module")
def two_phones(playwright: Playwright, tmp_path_factory: pytest.TempPathFactory) -> Iterator[list[Phone]]:
    """The same two browsers for every night: each night's addresses are new to them."""
    profiles = [tmp_path_factory.mktemp("phone") for _ in PEOPLE]
    phones = [Phone(playwright, profile) for profile in profiles]
    yield phones
    for phone in phones:
        phone.close()
        shutil.rmtree(phone.profile, ignore_errors=True)


def test_nothing_is_lost_over_many_nights(two_phones: list[Phone], tmp_path: Path) -> None:
    first, faults, entries, requests = chosen_seed(), Counter[str](), 0, 0
    nights = examples(quick=5, thorough=50)
    for seed in range(first, first + nights):
        night = Night(seed, new_folder(tmp_path, seed), two_phones)
        try:
            night.work(STEPS)
            night.quiet()
            night.demand()
        except BaseException:
            print(f"RACKSIDE_SEED={seed} replays this night: {' '.join(night.done)}")
            raise
        finally:
            night.close()
        faults += night.proxy.carried + Counter(night.done)
        entries, requests = entries + len(night.kept), requests + night.proxy.requests
        shutil.rmtree(tmp_path / str(seed))
    print(f"{nights} nights, {entries} entries kept, {requests} requests, none lost, none doubled; {dict(faults)}")


def new_folder(tmp_path: Path, seed: int) -> Path:
    folder = tmp_path / str(seed)
    folder.mkdir()
    return folder

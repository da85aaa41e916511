"""A house to test in: on each database, or on SQLite where the database makes no difference."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pwdlib import PasswordHash
from pwdlib.hashers.argon2 import Argon2Hasher

from rackside.access import people
from tests.server.house import House, Phone, running
from tests.server.receiver import Receiver, receiving


@pytest.fixture(autouse=True)
def quick_passwords(monkeypatch: pytest.MonkeyPatch) -> None:
    """Hashing a password is slow on purpose; servers in processes of their own still do it in full."""
    quick = PasswordHash((Argon2Hasher(time_cost=1, memory_cost=8, parallelism=1),))
    monkeypatch.setattr(people, "_hasher", lambda: quick)
    people._nobody.cache_clear()


@pytest.fixture(autouse=True)
def nobody_guessed_yet(monkeypatch: pytest.MonkeyPatch) -> None:
    """Wrong passwords of an earlier test don't slow down this one."""
    monkeypatch.setattr(people, "failed_sign_ins", people.Throttle(limit=10, seconds=60))


@pytest.fixture
def house(database_url: str, tmp_path: Path) -> Iterator[House]:
    with running(database_url, tmp_path) as served:
        yield served


@pytest.fixture
def small_house(sqlite_url: str, tmp_path: Path) -> Iterator[House]:
    with running(sqlite_url, tmp_path) as served:
        yield served


@pytest.fixture
def okafor(house: House) -> Phone:
    return house.phone("T. Okafor")


@pytest.fixture
def open_house(database_url: str, tmp_path: Path) -> Iterator[House]:
    """A house whose webhooks may go to this machine."""
    with running(database_url, tmp_path, webhooks_private=True) as house:
        yield house


@pytest.fixture
def receiver() -> Iterator[Receiver]:
    with receiving() as told:
        yield told

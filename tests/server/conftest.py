"""A house to test in: on each database, or on SQLite where the database makes no difference."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.server.house import House, Phone, running


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

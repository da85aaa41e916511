"""An office over real calls: one server on each database for all tests, people, and calls pushed by phones."""

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from seed_demo.people import CASTELLANOS
from seed_demo.plant import TIME_ZONE
from seed_demo.story import Story, set_up_plant
from tests.fixtures.databases import Cluster
from tests.office.desk import Desk, Kept, keep_story
from tests.server.house import House, running

NOW = datetime(2026, 11, 25, 8, 0, tzinfo=ZoneInfo(TIME_ZONE))


@pytest.fixture(scope="session", params=["sqlite", "postgresql"])
def house(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[House]:
    folder = tmp_path_factory.mktemp("office")
    url = f"sqlite:///{folder / 'rackside.db'}" if request.param == "sqlite" else _postgres_url(request)
    with running(url, folder) as served:
        yield served


def _postgres_url(request: pytest.FixtureRequest) -> str:
    cluster: Cluster = request.getfixturevalue("postgres_cluster")
    cluster.run("create database office")
    return cluster.url("office")


@pytest.fixture
def small_house(sqlite_url: str, tmp_path: Path) -> Iterator[House]:
    with running(sqlite_url, tmp_path) as served:
        yield served


@pytest.fixture(scope="session")
def kept(house: House) -> Kept:
    return Kept(house)


@pytest.fixture(scope="session")
def desk(house: House, kept: Kept) -> Desk:
    """M. Castellanos, signed in at the office."""
    kept.phone_of(CASTELLANOS)
    return Desk(house).sign_in(CASTELLANOS.name)


@pytest.fixture
def story(request: pytest.FixtureRequest) -> Story:
    """The co-operative's plant with ids of its own for each test, still without a call."""
    told = Story(request.node.name, NOW)
    set_up_plant(told)
    return told


@pytest.fixture
def submitted(story: Story, kept: Kept) -> str:
    """The id of a call on A1 with all it takes, sent by T. Okafor and waiting for review."""
    return keep_story(story, kept, "F6")

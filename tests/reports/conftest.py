"""A house whose office prints: the demo's calls with their photos, kept by the phones of its people."""

from collections.abc import Iterator

import pytest

from seed_demo.people import CASTELLANOS
from seed_demo.story import Story, set_up_plant
from tests.office.conftest import NOW
from tests.office.desk import Desk, Kept, keep_story
from tests.server.house import House, running


@pytest.fixture(scope="session")
def house(tmp_path_factory: pytest.TempPathFactory) -> Iterator[House]:
    folder = tmp_path_factory.mktemp("outputs")
    with running(f"sqlite:///{folder / 'rackside.db'}", folder) as served:
        yield served


@pytest.fixture(scope="session")
def kept(house: House) -> Kept:
    return Kept(house)


@pytest.fixture(scope="session")
def desk(house: House, kept: Kept) -> Desk:
    kept.phone_of(CASTELLANOS)
    return Desk(house).sign_in(CASTELLANOS.name)


@pytest.fixture
def story(request: pytest.FixtureRequest) -> Story:
    told = Story(request.node.name, NOW)
    set_up_plant(told)
    return told


@pytest.fixture(scope="session")
def flooded(house: House, kept: Kept) -> str:
    """The id of the call on A1, with photos, lines and a signature."""
    story = Story("flooded for all", NOW)
    set_up_plant(story)
    call = keep_story(story, kept, "F6")
    phone = kept.phone_of(CASTELLANOS)
    for name, content in story.pictures.items():
        assert phone.http.put(f"/api/v1/photos/{name}", content=content).status_code == 201
    return call

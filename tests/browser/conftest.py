"""The demo co-operative, loaded once in a session; every test gets its own copy on its own server."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.fixtures.servers import Server


@pytest.fixture(scope="session")
def demo_database(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo")
    database = folder / "demo.db"
    server = Server(folder, f"sqlite:///{database}", "demo").start()
    server.stop()
    return database


@pytest.fixture
def demo(serve: Callable[..., Server], demo_database: Path, tmp_path: Path) -> Server:
    copied = tmp_path / "rackside.db"
    for part in demo_database.parent.glob(demo_database.name + "*"):
        shutil.copy(part, str(copied) + part.name.removeprefix(demo_database.name))
    return serve(f"sqlite:///{copied}")

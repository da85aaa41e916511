"""What is installed elsewhere is whole: one wheel carries server, engine, page, demo and migrations."""

import subprocess
import sys
from pathlib import Path
from zipfile import ZipFile

import pytest

ROOT = Path(__file__).parents[1]
SOURCES = {
    "rackside": ROOT / "server" / "rackside",
    "rackside/web": ROOT / "web",
    "rackside/seed_demo": ROOT / "seed_demo",
}


@pytest.fixture(scope="module")
def packed(tmp_path_factory: pytest.TempPathFactory) -> set[str]:
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
    with ZipFile(next(folder.glob("rackside-*.whl"))) as wheel:
        return set(wheel.namelist())


@pytest.mark.parametrize("target", SOURCES)
def test_the_wheel_carries_every_file(packed: set[str], target: str) -> None:
    found = (path for path in SOURCES[target].rglob("*") if path.is_file())
    wanted = {f"{target}/{path.relative_to(SOURCES[target]).as_posix()}" for path in found if path.suffix != ".pyc"}
    assert wanted - packed == set()


def test_the_wheel_carries_the_licence_and_the_command(packed: set[str]) -> None:
    assert [name for name in packed if name.endswith(".dist-info/licenses/LICENSE")]
    assert [name for name in packed if name.endswith(".dist-info/entry_points.txt")]

"""The page's pure modules, tried in Node by their own tests."""

import subprocess
from pathlib import Path

import pytest

from tests.fixtures.requirements import node_path

HERE = Path(__file__).parent


@pytest.mark.parametrize("path", sorted(HERE.glob("*.test.mjs")), ids=lambda path: path.name)
def test_module(path: Path) -> None:
    done = subprocess.run([node_path(), "--test", str(path)], capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "\n# pass 0\n" not in done.stdout, "no test ran"

"""Words of the page that stand for words of the engine."""

import json
import subprocess
from pathlib import Path

import pytest

from rackside import host
from tests.fixtures.requirements import node_path

WORDS = Path(__file__).parents[2] / "web/words"


@pytest.mark.parametrize("language", sorted(path.stem for path in WORDS.glob("??.js")))
def test_kinds_of_machine_have_the_engines_names(language: str) -> None:
    told = "import(process.argv[1]).then(({ default: words }) => console.log(JSON.stringify(words.starts.kinds)))"
    done = subprocess.run(
        [node_path(), "-e", told, str(WORDS / f"{language}.js")], capture_output=True, text=True, timeout=60, check=True
    )
    [rate] = [check for check in host.describe(language)["checks"] if check["check"] == "start_rate"]
    assert set(json.loads(done.stdout).values()) == {limit["when"] for limit in rate["limits"]}

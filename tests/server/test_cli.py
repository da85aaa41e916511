"""The command: judge, explain, people and keys, backup, export and rebuild."""

import json
import subprocess
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from types import SimpleNamespace

import pytest
from typer.testing import CliRunner

from rackside import host
from rackside.cli import app, demonstration
from tests.fixtures.servers import RACKSIDE, free_port

CASE = {
    "machine": {"tag": "A3", "rated_voltage": 460, "supply": {"nominal_voltage": 480}},
    "rounds": [
        {
            "label": "as_found",
            "readings": [
                {
                    "point": "line_voltage",
                    "legs": {"L1-L2": "478", "L2-L3": "480", "L3-L1": "479"},
                    "unit": "V",
                    "state": "running",
                }
            ],
        }
    ],
}


@dataclass
class Done:
    returncode: int
    stdout: str
    stderr: str


Run = Callable[..., Done]


@pytest.fixture
def rackside(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Done]:
    """Run the command in this process, in an empty folder."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("RACKSIDE_DATABASE_URL", "sqlite:///rackside.db")

    def run(*arguments: str, stdin: str | None = None) -> Done:
        result = CliRunner().invoke(app, list(arguments), input=stdin)
        return Done(result.exit_code, result.stdout, result.stderr)

    return run


def test_the_installed_command_judges(tmp_path: Path) -> None:
    done = subprocess.run([RACKSIDE, "judge", "-"], cwd=tmp_path, input="{}", capture_output=True, text=True)
    assert (done.returncode, done.stdout) == (2, "")
    assert [line.split(": ")[0] for line in done.stderr.splitlines()] == ["/machine", "/rounds"]


@pytest.mark.parametrize("by", ["file", "stdin"])
def test_judge_prints_the_result(rackside: Run, tmp_path: Path, by: str) -> None:
    (tmp_path / "case.json").write_text(json.dumps(CASE))
    done = rackside("judge", "case.json" if by == "file" else "-", stdin=json.dumps(CASE))
    assert (done.returncode, done.stderr) == (0, "")
    assert json.loads(done.stdout) == host.judge(CASE)
    assert not (tmp_path / "rackside.db").exists()


@pytest.mark.parametrize(
    ("case", "pointers"),
    [
        ({"machine": {"tpye": 1}, "rounds": [{"label": "lost"}]}, ["/machine/tpye", "/rounds/0/label"]),
        ({}, ["/machine", "/rounds"]),
        ([], ["(whole case)"]),
        ("{", ["(whole case)"]),
    ],
)
def test_judge_of_an_invalid_case_ends_with_2_and_a_line_per_fault(
    rackside: Run, case: object, pointers: list[str]
) -> None:
    done = rackside("judge", "-", stdin=case if isinstance(case, str) else json.dumps(case))
    assert (done.returncode, done.stdout) == (2, "")
    assert [line.split(": ")[0] for line in done.stderr.splitlines()] == pointers


def test_judge_of_no_file_says_so(rackside: Run) -> None:
    done = rackside("judge", "nothing.json")
    assert (done.returncode, done.stdout) == (2, "")
    assert "nothing.json" in done.stderr


def test_explain_prints_formula_limits_and_sources(rackside: Run) -> None:
    done = rackside("explain", "supply_voltage_unbalance")
    assert done.returncode == 0
    check = next(one for one in host.describe()["checks"] if one["check"] == "supply_voltage_unbalance")
    assert check["formula"] in done.stdout
    assert all(source["work"] in done.stdout for source in check["sources"])
    example = rackside("explain", "pole_drop").stdout.split("Worked example:")[1]
    assert "machine: rated_load_current 34.0" in example
    assert "pole_drop: L1-T1 36, L2-T2 39, L3-T3 37; unit mV; state running" in example
    assert "gives 39 mV, pass" in example
    unknown = rackside("explain", "weather")
    assert unknown.returncode == 2
    assert "supply_voltage_unbalance" in unknown.stderr


def test_people_keys_and_the_records_are_looked_after_from_the_command(rackside: Run) -> None:
    added = rackside("user", "add", "T. Okafor")
    assert "with the password" in added.stdout
    taken = rackside("user", "add", "T. Okafor")
    assert taken.returncode == 1
    assert "taken" in taken.stderr
    key = rackside("key", "add", "scheduler", "--scope", "read", "--scope", "write")
    assert key.stdout.startswith("rs_")
    assert rackside("key", "add", "other", "--scope", "all").returncode == 1
    assert "no site Tannery" in rackside("key", "add", "other", "--scope", "read", "--site", "Tannery").stderr
    assert (
        "scheduler: read, write; all sites; last seen never; good until ended by hand" in rackside("key", "list").stdout
    )
    assert rackside("key", "renew", "scheduler").stdout.startswith("rs_")
    assert "scheduler has ended" in rackside("key", "end", "scheduler").stdout
    assert "scheduler: read, write; all sites; last seen never; ended" in rackside("key", "list").stdout
    assert rackside("key", "renew", "nobody").returncode == 1
    assert rackside("backup", "copy.db").stdout == "copy.db: 0 entries, whole\n"
    assert "exists already" in rackside("backup", "copy.db").stderr
    assert "0 entries" in rackside("export", "all.zip").stdout
    assert "the same as before" in rackside("rebuild").stdout


def test_help_names_every_command(rackside: Run) -> None:
    told = rackside("--help").stdout
    assert all(name in told for name in ("judge", "serve", "demo", "explain", "user", "key", "export", "backup"))


def test_a_demo_that_can_not_be_loaded_ends_with_a_failure(rackside: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_told: object) -> None:
        raise RuntimeError("the server is full")

    monkeypatch.setattr(demonstration, "_story", lambda: SimpleNamespace(load=refused, PEOPLE=()))
    # In a thread of its own: a browser of an earlier test keeps an event loop in this one.
    with ThreadPoolExecutor(1) as alone:
        done = alone.submit(rackside, "demo", "--port", str(free_port())).result(60)
    assert done.returncode == 1
    assert "The demo could not be loaded: the server is full" in done.stdout

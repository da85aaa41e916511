"""The command: judge, explain, people and keys, backup, export and rebuild."""

import json
import os
import subprocess
from pathlib import Path

import pytest

from rackside import host
from tests.fixtures.servers import RACKSIDE

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


def rackside(folder: Path, *arguments: str, stdin: str | None = None) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "RACKSIDE_DATABASE_URL": "sqlite:///rackside.db"}
    return subprocess.run(
        [RACKSIDE, *arguments], cwd=folder, env=environment, input=stdin, capture_output=True, text=True
    )


@pytest.mark.parametrize("by", ["file", "stdin"])
def test_judge_prints_the_result(tmp_path: Path, by: str) -> None:
    (tmp_path / "case.json").write_text(json.dumps(CASE))
    done = rackside(tmp_path, "judge", "case.json" if by == "file" else "-", stdin=json.dumps(CASE))
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
    tmp_path: Path, case: object, pointers: list[str]
) -> None:
    done = rackside(tmp_path, "judge", "-", stdin=case if isinstance(case, str) else json.dumps(case))
    assert (done.returncode, done.stdout) == (2, "")
    assert [line.split(": ")[0] for line in done.stderr.splitlines()] == pointers


def test_judge_of_no_file_says_so(tmp_path: Path) -> None:
    done = rackside(tmp_path, "judge", "nothing.json")
    assert (done.returncode, done.stdout) == (2, "")
    assert "nothing.json" in done.stderr


def test_explain_prints_formula_limits_and_sources(tmp_path: Path) -> None:
    done = rackside(tmp_path, "explain", "supply_voltage_unbalance")
    assert done.returncode == 0
    check = next(one for one in host.describe()["checks"] if one["check"] == "supply_voltage_unbalance")
    assert check["formula"] in done.stdout
    assert all(source["work"] in done.stdout for source in check["sources"])
    unknown = rackside(tmp_path, "explain", "weather")
    assert unknown.returncode == 2
    assert "supply_voltage_unbalance" in unknown.stderr


def test_people_keys_and_the_records_are_looked_after_from_the_command(tmp_path: Path) -> None:
    added = rackside(tmp_path, "user", "add", "T. Okafor")
    assert "with the password" in added.stdout
    taken = rackside(tmp_path, "user", "add", "T. Okafor")
    assert taken.returncode == 1
    assert "taken" in taken.stderr
    key = rackside(tmp_path, "key", "add", "scheduler", "--scope", "read", "--scope", "write")
    assert key.stdout.startswith("rs_")
    assert rackside(tmp_path, "key", "add", "other", "--scope", "all").returncode == 1
    assert rackside(tmp_path, "backup", "copy.db").stdout == "copy.db: 0 entries, whole\n"
    assert "exists already" in rackside(tmp_path, "backup", "copy.db").stderr
    assert "0 entries" in rackside(tmp_path, "export", "all.zip").stdout
    assert "the same as before" in rackside(tmp_path, "rebuild").stdout


def test_help_names_every_command(tmp_path: Path) -> None:
    told = rackside(tmp_path, "--help").stdout
    assert all(name in told for name in ("judge", "serve", "demo", "explain", "user", "key", "export", "backup"))

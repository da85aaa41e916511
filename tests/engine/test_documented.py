"""The page of points, checks and limits is fresh, and the words are those of the contract."""

import importlib.util
import re
from pathlib import Path
from typing import Any

import pytest

from rackside import host

ROOT = Path(__file__).parents[2]
CONTRACT = ROOT.parent / "shared" / "CONTRACT.md"
CHECKS = ROOT.parent / "shared" / "CHECKS.md"
beside = pytest.mark.skipif(not CONTRACT.exists(), reason="the contract does not lie beside this checkout")


def test_the_page_of_checks_is_fresh() -> None:
    script = ROOT / "server" / "setup" / "checks_page.py"
    spec = importlib.util.spec_from_file_location("checks_page", script)
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    written = (ROOT / "server" / "docs" / "checks.md").read_text(encoding="utf-8")
    assert written == module.page(host.describe()), "run python server/setup/checks_page.py"


def words(text: str) -> set[str]:
    return set(re.findall(r"`([a-z][a-z0-9_]*)`", text))


def section(text: str, start: str, end: str) -> str:
    return text.split(start, 1)[1].split(end, 1)[0]


def first_cells(table: str) -> set[str]:
    rows = [line.split("|")[1] for line in table.splitlines() if line.startswith("| `")]
    return set().union(*(words(cell) for cell in rows))


def told(kind: str, member: str) -> set[str]:
    found: set[str] = {entry[member] for entry in described()[kind]}
    return found


def described() -> dict[str, Any]:
    return host.describe()


@beside
@pytest.mark.parametrize(
    ("start", "end", "kind", "member"),
    [
        ("### Signs", "### Complaints", "signs", "sign"),
        ("### Complaints", "## 2.", "complaints", "complaint"),
        ("### Causes", "## 3.", "causes", "cause"),
    ],
)
def test_every_word_of_the_contract_is_known(start: str, end: str, kind: str, member: str) -> None:
    wanted = words(section(CONTRACT.read_text(encoding="utf-8"), start, end))
    assert len(wanted) > 10
    assert wanted - told(kind, member) == set()


@beside
def test_every_point_of_the_contract_is_known_with_its_legs() -> None:
    table = section(CONTRACT.read_text(encoding="utf-8"), "### Points", "### Signs")
    points = {point["name"]: point for point in described()["points"]}
    assert first_cells(table) - set(points) == set()
    assert points["line_voltage"]["keys"] == ["L1-L2", "L2-L3", "L3-L1"]
    assert points["half_current"]["keys"] == ["1-L1", "1-L2", "1-L3", "2-L1", "2-L2", "2-L3"]


@beside
def test_every_check_of_the_contract_has_its_file() -> None:
    table = section(CHECKS.read_text(encoding="utf-8"), "| check | value", "`application`")
    wanted = first_cells("| check |" + table)
    assert len(wanted) > 30
    assert wanted - {check["check"] for check in described()["checks"]} == set()


@beside
def test_every_unit_of_the_contract_is_accepted() -> None:
    line = re.search(r"^Units accepted.*$", CONTRACT.read_text(encoding="utf-8"), re.MULTILINE)
    assert line
    units = {unit["unit"] for unit in described()["units"]}
    for unit in re.split(r"[ ·,]+", line.group(0).split(":", 1)[1].rstrip(".")):
        assert not unit or unit in units, unit


@beside
def test_every_caution_stands_at_its_step() -> None:
    table = section(CHECKS.read_text(encoding="utf-8"), "## Words at each energised step", "Order of work")
    sentences = [line.split("|")[2].strip() for line in table.splitlines()[3:] if line.startswith("| ")]
    cautions = set(described()["cautions"].values())
    assert len(sentences) >= 11
    assert set(sentences) - cautions == set()
    for point in described()["points"]:
        live = set(point["states"]) - {"isolated"}
        if point["kind"] in ("legs", "chain") and live and point["units"] and point["units"][0] in ("V", "mV", "A"):
            assert point["caution"], f"{point['name']} is read live without a caution"

"""Tables of sites, machines and people: entered whole or not at all, and sent twice they change nothing."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.server.house import House, Phone, story
from tests.server.test_cli import Done
from tests.server.test_cli import rackside as rackside
from tests.server.test_errors import NOWHERE, assert_problem

Json = dict[str, Any]
SITES = """name,time_zone,altitude.value,altitude.unit,supply.nominal_voltage,supply.grounding,contact
Tannery Lane Cold Store,America/Chicago,600,ft,480,grounded-wye,+1 555 0100
"Mill Race, east",America/Chicago,,,,,
"""
MACHINES = """site,rack,tag,type,refrigerant,rated_voltage,rated_load_current,fan.rated_current,model,retired
Tannery Lane Cold Store,A,A3,semi-hermetic-reciprocating,R-448A,460,34.0,0.9,0440,false
Tannery Lane Cold Store,A,A4,semi-hermetic-reciprocating,R-448A,460,34.0,,,
"Mill Race, east",B,B1,welded-scroll,R-410A,460,12.5,,,
"""


@pytest.fixture
def office(house: House) -> Phone:
    return house.phone("M. Castellanos", "office")


def enter(phone: Phone, kind: str, table: str | list[Json], status: int = 200, **query: Any) -> Json:
    asked: Json = {"json": table}
    if isinstance(table, str):
        asked = {"content": table.encode(), "headers": {"Content-Type": "text/csv"}}
    answer = phone.http.post(f"/api/v1/import/{kind}", params=query, **asked)
    assert answer.status_code == status, answer.text
    return answer.json()


def statuses(told: Json) -> list[str]:
    return [row["status"] for row in told["rows"]]


def test_tables_become_sites_and_machines_as_if_typed(office: Phone) -> None:
    assert statuses(enter(office, "sites", SITES)) == ["new", "new"]
    assert statuses(enter(office, "machines", MACHINES)) == ["new", "new", "new"]
    site = next(one for one in office.get("/sites")["items"] if one["name"].startswith("Tannery"))
    assert site["altitude"] == {"value": 600, "unit": "ft"}
    assert site["supply"] == {"nominal_voltage": 480, "grounding": "grounded-wye"}
    assert site["contact"] == "+1 555 0100"
    plate = next(one for one in office.get("/machines")["items"] if one["tag"] == "A3")["plate"]
    assert (plate["rated_voltage"], plate["rated_load_current"], plate["model"]) == (460, 34.0, "0440")
    assert plate["fan"] == {"rated_current": 0.9}
    assert plate["retired"] is False
    assert {entry["author"] for entry in office.pull()} == {"M. Castellanos"}


def test_a_table_sent_again_changes_nothing_and_a_changed_cell_is_a_correction(office: Phone) -> None:
    enter(office, "sites", SITES)
    enter(office, "machines", MACHINES)
    size = len(office.pull())
    again = enter(office, "machines", MACHINES)
    assert statuses(again) == ["same"] * 3
    assert len(office.pull()) == size
    told = enter(office, "machines", MACHINES.replace("460,12.5", "460,13.5"))
    assert statuses(told) == ["same", "same", "changed"]
    correction = office.pull()[-1]
    assert (correction["base"], correction["body"]) == ([again["rows"][2]["id"]], {"rated_load_current": 13.5})


def test_json_rows_do_the_same(office: Phone) -> None:
    enter(office, "sites", [{"name": "Mill Race", "supply": {"nominal_voltage": 600}}])
    rows = [{"site": "Mill Race", "rack": "B", "tag": "B1", "rated_voltage": [208, 230]}]
    assert statuses(enter(office, "machines", rows)) == ["new"]
    assert statuses(enter(office, "machines", rows)) == ["same"]


def test_one_wrong_row_and_nothing_is_written(office: Phone) -> None:
    enter(office, "sites", SITES)
    rows = [
        {"site": "Mill Race, east", "tag": "B1", "rated_voltage": 460},
        {"site": "Mill Race, east", "tag": "B2", "rated_voltage": "lots", "tpye": "x"},
        {"site": "Nowhere", "tag": "B3"},
        {"site": "Mill Race, east", "tag": "B1"},
        7,
    ]
    size = len(office.pull())
    trial = enter(office, "machines", rows, dry_run=True)
    assert statuses(trial) == ["new", "wrong", "wrong", "wrong", "wrong"]
    refused = enter(office, "machines", rows, 422)
    assert refused["code"] == "invalid_rows"
    pointers = {error["pointer"] for error in refused["errors"]}
    assert pointers == {"/1/rated_voltage", "/1/tpye", "/2/site", "/3", "/4"}
    assert len(office.pull()) == size
    assert office.get("/machines")["items"] == []


def test_a_trial_run_tells_and_writes_nothing(office: Phone) -> None:
    told = enter(office, "sites", SITES, dry_run=True)
    assert (told["new"], told["dry_run"]) == (2, True)
    assert office.get("/sites")["items"] == []


@pytest.mark.parametrize(
    ("content", "code"),
    [
        ("name,name\na,b\n", "not_csv"),
        ("name\na,b\n", "not_csv"),
        ('name\n"a\n', "not_csv"),
        ("", "not_csv"),
        ("name,\na,b\n", "not_csv"),
        ("name;time_zone\na;b\n", "not_csv"),
    ],
)
def test_what_is_no_table_is_refused(office: Phone, content: str, code: str) -> None:
    assert enter(office, "sites", content, 422)["code"] == code


def test_a_table_parted_by_something_else_is_told_so(office: Phone) -> None:
    told = enter(office, "machines", "site\ttag\nTannery Lane Cold Store\tB9\n", 422)
    assert told["detail"] == "The first line is parted by tabs; save the table with commas between its cells."


def test_a_machine_without_a_site_is_told_so(office: Phone) -> None:
    [row] = enter(office, "machines", "rack,tag\nB,B9\n", dry_run=True)["rows"]
    assert row["errors"] == [{"pointer": "/site", "detail": "Missing: the id or the name of its site."}]


def test_a_table_of_another_type_or_too_long_is_refused(office: Phone) -> None:
    assert_problem(
        office.http.post("/api/v1/import/sites", content=b"<x/>", headers={"Content-Type": "text/xml"}), "media_type"
    )
    assert_problem(office.http.post("/api/v1/import/sites", content=b"\xff"), "not_json")
    assert enter(office, "sites", [{"name": str(number)} for number in range(5001)], 413)["code"] == "batch_too_large"
    assert_problem(office.http.post("/api/v1/import/meters", json=[]), "invalid_query")


def test_people_come_by_table_too(house: House) -> None:
    admin = house.phone("Admin", "admin")
    enter(admin, "sites", SITES)
    table = (
        "name,role,sites,password\nT. Okafor,technician,Tannery Lane Cold Store,cold-iron-44\nM. Castellanos,office,,\n"
    )
    trial = enter(admin, "people", table, dry_run=True)
    assert statuses(trial) == ["new", "new"]
    assert "password" not in json.dumps(trial["rows"]).replace('"password": null', "")
    told = enter(admin, "people", table)
    assert told["rows"][0]["password"] is None
    assert len(told["rows"][1]["password"]) >= 12
    okafor = house.client().post(
        "/api/v1/devices", json={"name": "T. Okafor", "password": "cold-iron-44", "device": "x"}
    )
    assert len(okafor.json()["sites"]) == 1
    assert statuses(enter(admin, "people", table)) == ["same", "same"]
    moved = table.replace("Tannery Lane Cold Store", '"Mill Race, east; Tannery Lane Cold Store"')
    assert statuses(enter(admin, "people", moved)) == ["changed", "same"]
    refused = enter(admin, "people", [{"name": "T. Okafor", "role": "admin"}, {"name": "X", "sites": ["no"]}], 422)
    assert [error["pointer"] for error in refused["errors"]] == ["/0/role", "/1/sites"]


def test_who_may_not_enter_a_table_is_told(house: House) -> None:
    office, reader = house.phone("M. Castellanos", "office"), house.key("reader", "read")
    assert enter(office, "people", [], 403)["code"] == "not_allowed"
    assert enter(reader, "sites", [], 403)["code"] == "not_allowed"


def test_machines_of_foreign_sites_can_not_be_entered(house: House) -> None:
    owner = house.phone("T. Okafor")
    told = story(owner)
    owner.keep(*told.entries)
    stranger = house.phone("R. Lindqvist", sites=[NOWHERE])
    refused = enter(stranger, "machines", [{"site": told.site, "tag": "B9"}], 422)
    assert refused["errors"][0]["pointer"] == "/0/site"


def test_the_command_enters_tables(rackside: Callable[..., Done], tmp_path: Path) -> None:
    (tmp_path / "sites.csv").write_text(SITES)
    (tmp_path / "machines.json").write_text(json.dumps([{"site": "Nowhere", "tag": "B1"}]))
    trial = rackside("import", "sites.csv", "--as", "sites", "--dry-run")
    assert "2 new" in trial.stdout
    assert "nothing was written" in trial.stdout
    assert "2 new" in rackside("import", "sites.csv", "--as", "sites").stdout
    assert "2 same" in rackside("import", "sites.csv", "--as", "sites").stdout
    wrong = rackside("import", "machines.json", "--as", "machines")
    assert wrong.returncode == 1
    assert "Row 1: There is no site 'Nowhere'" in wrong.stderr
    assert rackside("import", "machines.json", "--as", "machines", "--dry-run").returncode == 1
    assert rackside("import", "sites.csv").returncode == 2
    assert rackside("import", "nothing.csv", "--as", "sites").returncode == 2


def test_the_command_fills_an_empty_database(
    rackside: Callable[..., Done], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "sites.csv").write_text(SITES)
    rackside("import", "sites.csv", "--as", "sites")
    rackside("user", "add", "T. Okafor")
    rackside("export", "all.zip")
    assert "name a new one" in rackside("import", "all.zip").stderr
    monkeypatch.setenv("RACKSIDE_DATABASE_URL", "sqlite:///other.db")
    assert "2 entries" in rackside("import", "all.zip").stdout
    assert "may sign in" in rackside("user", "password", "T. Okafor").stdout
    assert rackside("user", "password", "nobody").returncode == 1

"""Keys of other software: what they see and write, how long, and that nobody gives more than they have."""

import re
from typing import Any

import pytest

from rackside.records import clock
from tests.office.desk import Desk, words
from tests.server.house import PASSWORD, House, Phone, Story, story
from tests.server.test_errors import NOWHERE, assert_problem
from tests.server.test_pull import in_days

Json = dict[str, Any]


@pytest.fixture
def admin(house: House) -> Phone:
    return house.phone("M. Castellanos", "admin")


@pytest.fixture
def two(admin: Phone) -> tuple[Story, Story]:
    """Two sites, each with a machine and a call."""
    here, there = story(admin, "B3"), story(admin, "C1")
    admin.keep(*here.entries, *there.entries)
    return here, there


def made(house: House, admin: Phone, **asked: Any) -> Phone:
    answer = admin.http.post("/api/v1/keys", json={"name": "scheduler", "scopes": ["read", "write"], **asked})
    assert answer.status_code == 201, answer.text
    return Phone(house.client(answer.json()["token"]), "scheduler", answer.json()["id"])


def test_a_key_sees_and_writes_only_its_sites(house: House, admin: Phone, two: tuple[Story, Story]) -> None:
    here, there = two
    key = made(house, admin, sites=[here.site])
    assert [call["id"] for call in key.get("/calls")["items"]] == [here.call]
    assert [machine["tag"] for machine in key.get("/machines")["items"]] == ["B3"]
    assert key.get(f"/calls/{there.call}", 404)["code"] == "not_found"
    assert key.get(f"/calls/{there.call}/results", 404)["code"] == "not_found"
    assert {entry["call"] for entry in key.pull()} <= {None, here.call}
    [mine, foreign] = key.push(
        key.make("call", {"machine": here.machine, "complaint": "oil_trip"}),
        key.make("call", {"machine": there.machine, "complaint": "oil_trip"}),
    )["results"]
    assert (mine["status"], foreign["code"]) == ("accepted", "foreign_site")


def test_every_list_of_keys_tells_their_limits(house: House, admin: Phone, two: tuple[Story, Story]) -> None:
    made(house, admin, sites=[two[0].site], days=30)
    [listed] = [one for one in admin.get("/devices")["items"] if one["name"] == "scheduler"]
    assert (listed["scopes"], listed["sites"]) == (["read", "write"], [two[0].site])
    assert listed["valid_until"] < in_days(31)
    desk = Desk(house).sign_in("M. Castellanos", PASSWORD)
    assert "key: read, write only Tannery Lane Cold Store" in words(desk.get("/office/devices"))


def test_a_key_ends_by_its_time_and_by_hand(house: House, admin: Phone) -> None:
    key = made(house, admin, days=1)
    assert key.get("/me")["person"] == "scheduler"
    with house.database.writing() as connection:
        past = clock.written(clock.now())
        connection.exec_driver_sql(f"UPDATE devices SET valid_until = '{past}' WHERE id = '{key.device}'")
    assert key.get("/me", 401)["code"] == "token_expired"
    assert admin.http.delete(f"/api/v1/devices/{key.device}").status_code == 204
    assert key.get("/me", 401)["code"] == "token_revoked"


def test_a_site_that_is_not_there_is_no_limit(admin: Phone, two: tuple[Story, Story]) -> None:
    asked = {"name": "scheduler", "scopes": ["read"], "sites": [two[0].site, "Tannery Lane"]}
    answer = admin.http.post("/api/v1/keys", json=asked)
    assert_problem(answer, "invalid_query")
    assert answer.json()["errors"][0]["pointer"] == "/sites/1"


def test_nobody_gives_more_sites_than_they_see(house: House, admin: Phone, two: tuple[Story, Story]) -> None:
    here, there = two
    whole = house.key("whole", "read")
    limited = house.key("limited", "admin", sites=[here.site])
    person = {"name": "S. Amadi", "password": PASSWORD, "role": "admin"}
    for path, asked in (("/people", person), ("/keys", {"name": "other", "scopes": ["read"]})):
        assert_problem(limited.http.post(f"/api/v1{path}", json=asked | {"sites": [there.site]}), "invalid_query")
    amadi = limited.http.post("/api/v1/people", json=person).json()
    assert amadi["sites"] == [here.site]
    seen = limited.http.put(f"/api/v1/people/{amadi['id']}/sites", json={"sites": None}).json()
    assert seen["sites"] == [here.site]
    assert made(house, limited).get("/me")["sites"] == [here.site]
    assert_problem(limited.http.post(f"/api/v1/keys/{whole.device}/renew"), "not_found")
    rows = [{"name": "L. Brandt"}, {"name": "K. Oduya", "sites": [there.site]}]
    table = limited.http.post("/api/v1/import/people", json=rows, params={"dry_run": True}).json()
    assert [row["status"] for row in table["rows"]] == ["new", "wrong"]
    limited.http.post("/api/v1/import/people", json=rows[:1])
    assert [one["sites"] for one in admin.get("/people")["items"] if one["name"] == "L. Brandt"] == [[here.site]]


def test_a_limited_admin_at_the_office_makes_only_limited_keys(house: House, two: tuple[Story, Story]) -> None:
    house.person("L. Imited", "admin", [two[0].site])
    desk = Desk(house).sign_in("L. Imited")
    page = desk.post("/office/keys", 201, name="scheduler", scope=["read"])
    [token] = re.findall(r"rs_[\w-]+", page.text)
    with house.client(token) as key:
        assert key.get("/api/v1/me").json()["sites"] == [two[0].site]
    refused = desk.post("/office/keys", 422, name="other", scope=["read"], site=[NOWHERE])
    assert "There is no site" in words(refused.text)

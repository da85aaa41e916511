"""Pulling the log: pages, scope, epoch, and what has been closed for long."""

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from sqlalchemy import text

from rackside.access import people
from tests.server.house import House, Phone, Story, line_voltage, story


def in_days(days: float) -> str:
    return (datetime.now(UTC) + timedelta(days=days)).isoformat()


def settle(phone: Phone, office: Phone, told: Story, watch_until: str | None = None) -> None:
    """Decide, submit and accept a call."""
    decision = {"decision": "run_under_watch", "watch_until": watch_until} if watch_until else {"decision": "repair"}
    phone.write("decision", decision, told.call)
    phone.write("submission", {}, told.call)
    office.write("review", {"outcome": "accepted"}, told.call)


def kinds(items: list[dict[str, Any]]) -> list[str]:
    return [item["kind"] for item in items]


def test_pages_run_oldest_first_and_each_carries_its_cursor(okafor: Phone) -> None:
    told = story(okafor)
    okafor.keep(*told.entries)
    first = okafor.get("/entries", limit=2)
    assert (first["cursor"], first["more"], kinds(first["items"])) == (2, True, ["site", "machine"])
    last = okafor.get("/entries", after=4, limit=2)
    assert (last["cursor"], last["more"], kinds(last["items"])) == (5, False, ["reading"])
    assert kinds(okafor.pull(limit=1)) == ["site", "machine", "call", "round", "reading"]


def test_an_entry_comes_back_as_it_was_sent(okafor: Phone) -> None:
    told = story(okafor)
    okafor.keep(*told.entries)
    for sent, got in zip(told.entries, okafor.pull(), strict=True):
        assert {name: got[name] for name in sent} == sent
        assert got["received_at"].endswith("Z")


def test_the_technician_pulls_only_sites_of_theirs(house: House, okafor: Phone) -> None:
    one, other = story(okafor), story(okafor, "C1")
    okafor.keep(*one.entries, *other.entries)
    clamp = okafor.write("meter", {"name": "clamp 1", "kind": "clamp"})
    lindqvist = house.phone("R. Lindqvist", sites=[one.site])
    assert {item["id"] for item in lindqvist.pull()} == {entry["id"] for entry in [*one.entries, clamp]}
    assert lindqvist.get("/me")["sites"] == [one.site]
    for path in (f"/calls/{other.call}", f"/machines/{other.machine}", f"/calls/{other.call}/results"):
        assert lindqvist.get(path, 404)["code"] == "not_found"
    assert lindqvist.get("/entries", 404, call=other.call)["code"] == "not_found"
    stray = lindqvist.make("sign", {"sign": "knock", "present": True}, other.call)
    new_machine = lindqvist.make("machine", {"site": other.site, "tag": "C2"})
    answer = lindqvist.push(stray, new_machine)
    assert [result["code"] for result in answer["results"]] == ["foreign_site", "foreign_site"]


def test_a_site_entered_on_the_spot_is_the_technician_s_own(house: House, okafor: Phone) -> None:
    told = story(okafor)
    okafor.keep(*told.entries)
    lindqvist = house.phone("R. Lindqvist", sites=[told.site])
    own = story(lindqvist, "D1")
    lindqvist.keep(*own.entries)
    assert len(lindqvist.pull()) == 10


@pytest.mark.parametrize("says_its_scope", [True, False])
def test_a_changed_scope_asks_for_a_pull_from_the_beginning(house: House, okafor: Phone, says_its_scope: bool) -> None:
    one, other = story(okafor), story(okafor, "C1")
    okafor.keep(*one.entries, *other.entries)
    person_id = house.person("R. Lindqvist", sites=[one.site])
    lindqvist = house.sign_in("R. Lindqvist")
    page = lindqvist.get("/entries")
    scope = {"scope": page["scope"]} if says_its_scope else {}
    assert lindqvist.get("/entries", after=page["cursor"], **scope)["items"] == []
    with house.database.writing() as connection:
        people.set_sites(connection, person_id, [one.site, other.site])
    problem = lindqvist.get("/entries", 409, after=page["cursor"], **scope)
    assert problem["code"] == "scope_changed"
    again = lindqvist.get("/entries")
    assert len(again["items"]) == 10
    assert lindqvist.get("/entries", after=again["cursor"], scope=again["scope"])["items"] == []


def test_a_machine_that_moves_to_a_site_brings_its_calls(house: House, okafor: Phone) -> None:
    one, other = story(okafor), story(okafor, "C1")
    okafor.keep(*one.entries, *other.entries)
    lindqvist = house.phone("R. Lindqvist", sites=[one.site])
    page = lindqvist.get("/entries")
    okafor.write("machine", {"site": one.site}, base=[other.machine])
    assert lindqvist.get("/entries", 409, after=page["cursor"])["code"] == "scope_changed"
    assert other.call in {item["id"] for item in lindqvist.pull()}


def test_calls_closed_more_than_90_days_ago_are_left_out(house: House, okafor: Phone) -> None:
    office = house.phone("M. Castellanos", "office")
    old, recent = story(okafor), story(okafor, "C1")
    okafor.keep(*old.entries, *recent.entries)
    settle(okafor, office, old, in_days(-91))
    settle(okafor, office, recent, in_days(-89))
    with house.database.writing() as connection:
        connection.execute(text("UPDATE calls SET settled_at = :then"), {"then": "2020-01-01"})
        connection.execute(
            text("UPDATE calls SET settled_at = :then WHERE id = :id"), {"then": in_days(-89), "id": recent.call}
        )
    pulled = {item["id"] for item in okafor.pull()}
    assert {old.site, old.machine, recent.call, recent.round} <= pulled
    assert not {old.call, old.round} & pulled
    assert len(okafor.get("/entries", call=old.call)["items"]) == 6


def test_a_cursor_beyond_the_log_is_of_another_log(okafor: Phone) -> None:
    okafor.keep(*story(okafor).entries)
    assert okafor.get("/entries", 409, after=6)["code"] == "epoch_changed"
    assert okafor.get("/entries", 409, epoch="another")["code"] == "epoch_changed"


def test_the_entries_of_one_call_come_however_they_are_asked_for(okafor: Phone) -> None:
    told = story(okafor)
    okafor.keep(*told.entries)
    okafor.keep(*(okafor.make("reading", line_voltage(told.round), told.call) for _ in range(5)))
    assert len(okafor.pull(call=told.call, limit=3)) == 8

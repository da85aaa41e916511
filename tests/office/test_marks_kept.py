"""A machine's marks are kept, and go when anything under them changes."""

import pytest

from rackside.office.site_pages import _marks
from rackside.records import marking, trending
from seed_demo.people import OKAFOR
from seed_demo.story import Story
from seed_demo.visit import Visit
from tests.office.desk import Desk, Kept, words
from tests.server.house import House


@pytest.fixture
def machine(story: Story, kept: Kept) -> str:
    kept.keep(story)
    return story.machines["B4"]


def oiled(story: Story, kept: Kept, days: int, name: str) -> tuple[Visit, str]:
    visit = Visit(story, name, "B4", OKAFOR, story.day(days, "09:00")).open("routine")
    reading = visit.round("as_left").value("oil_added", "12", "floz")
    kept.keep(story)
    return visit, reading


def told(desk: Desk, site: str) -> str:
    return words(desk.get(f"/office/sites/{site}"))


MARK = "Oil added: where did it go?"


def test_oil_that_comes_is_corrected_and_taken_back_is_told_each_time(
    desk: Desk, story: Story, machine: str, kept: Kept
) -> None:
    assert MARK not in told(desk, story.site)
    visit, reading = oiled(story, kept, 9, "oiled")
    assert MARK in told(desk, story.site)
    kept.phone_of(OKAFOR).write("reading", {"value": "0"}, visit.call, base=[reading])
    assert MARK not in told(desk, story.site)
    again, reading = oiled(story, kept, 5, "oiled again")
    assert MARK in told(desk, story.site)
    kept.phone_of(OKAFOR).write("retraction", {"of": again.call, "why": "another machine"}, again.call)
    assert MARK not in told(desk, story.site)


def test_a_call_that_moves_to_another_machine_takes_its_oil_along(
    house: House, story: Story, machine: str, kept: Kept
) -> None:
    visit, _ = oiled(story, kept, 9, "oiled")
    other = story.machines["B5"]

    def marked() -> list[int]:
        return [len(told) for told in marking.of_machines(house.database, [machine, other], _marks).values()]

    assert marked() == [1, 0]
    kept.phone_of(OKAFOR).write("call", {"machine": other}, visit.call, base=[visit.call])
    assert marked() == [0, 1]


def test_a_judgement_changes_what_is_kept(desk: Desk, story: Story, machine: str, kept: Kept) -> None:
    assert "Starts: more than 8" not in told(desk, story.site)
    visit = Visit(story, "busy", "B4", OKAFOR, story.day(3, "09:00")).open("short_cycling")
    visit.round("as_found").value("starts_last_hour", "11")
    kept.keep(story)
    kept.phone_of(OKAFOR).get(f"/calls/{visit.call}/results")
    assert "Starts: more than 8 starts in an hour" in told(desk, story.site)


def test_what_is_kept_is_not_worked_out_again(house: House, story: Story, machine: str) -> None:
    worked: list[str] = []

    def work(connection, machine_id):  # type: ignore[no-untyped-def]
        worked.append(machine_id)
        return _marks(connection, machine_id)

    first = marking.of_machines(house.database, [machine], work)
    assert marking.of_machines(house.database, [machine], work) == first
    assert worked == [machine]


def test_a_call_taken_back_leaves_the_trends(desk: Desk, story: Story, machine: str, kept: Kept, house: House) -> None:
    visit = Visit(story, "busy", "B4", OKAFOR, story.day(3, "09:00")).open("short_cycling")
    visit.round("as_found").value("starts_last_hour", "11")
    kept.keep(story)
    kept.phone_of(OKAFOR).get(f"/calls/{visit.call}/results")
    with house.database.reading() as connection:
        assert len(trending.of_machine(connection, machine, ["start_rate"])["start_rate"]) == 1
    kept.phone_of(OKAFOR).write("retraction", {"of": visit.call, "why": "another machine"}, visit.call)
    with house.database.reading() as connection:
        assert trending.of_machine(connection, machine, ["start_rate"])["start_rate"] == []

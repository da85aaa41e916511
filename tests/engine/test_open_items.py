"""Jumpers, leads, valves and settings are followed until something closes them."""

from typing import Any

import pytest

from tests.engine.case_files import at, signs
from tests.engine.test_case_files import judged


def left_open(*actions: dict[str, Any], **parts: Any) -> list[tuple[str, str | None]]:
    result = judged({"machine": {}, "rounds": [], "actions": list(actions), **parts})
    return [(item["kind"], item.get("action")) for item in result["open_items"]]


def action(name: str, kind: str, clock: str, **more: Any) -> dict[str, Any]:
    return {"id": name, "kind": kind, "at": at(clock), **more}


@pytest.mark.parametrize(
    ("opens", "closes", "kind"),
    [
        ("jumper_on", "jumper_off", "jumper"),
        ("lead_lifted", "lead_restored", "lead"),
        ("leads_rolled", "leads_rolled", "rolled_leads"),
        ("valve_moved", "valve_moved", "valve"),
    ],
)
def test_it_stays_open_until_its_closing_action_names_it(opens: str, closes: str, kind: str) -> None:
    first = action("one", opens, "21:00", what="as marked")
    assert left_open(first) == [(kind, "one")]
    assert left_open(first, action("two", closes, "21:30", closes="one")) == []
    assert left_open(first, action("two", closes, "21:30", closes="another"))[0] == (kind, "one")


def test_a_jumper_taken_off_without_naming_it_is_that_jumper_when_it_is_the_only_one() -> None:
    on, off = action("one", "jumper_on", "21:00", what="L-M"), action("two", "jumper_off", "21:10")
    assert left_open(on, off) == []
    assert left_open(on, action("three", "jumper_on", "21:05", what="M1-M2"), off) == [
        ("jumper", "one"),
        ("jumper", "three"),
    ]


def test_a_valve_put_back_where_it_was_is_closed() -> None:
    moved = action("one", "valve_moved", "21:00", what="suction valve", before="back", after="front")
    back = action("two", "valve_moved", "21:30", what="suction valve", before="front", after="back")
    other = action("two", "valve_moved", "21:30", what="discharge valve", before="front", after="back")
    assert left_open(moved, back) == []
    assert left_open(moved, other) == [("valve", "one"), ("valve", "two")]


def test_a_setting_is_open_until_both_values_are_told() -> None:
    assert left_open(action("one", "setting_changed", "21:00", what="overload dial", after="38")) == [
        ("setting", "one")
    ]
    assert left_open(action("one", "setting_changed", "21:00", what="overload dial", before="24", after="38")) == []


def test_a_jumper_that_was_only_seen_is_open_too() -> None:
    assert left_open(signs=signs("jumper_on")) == [("jumper", None)]
    assert left_open(signs=signs(absent=("jumper_on",))) == []


def test_it_says_what_and_since_when() -> None:
    result = judged(
        {"machine": {}, "rounds": [], "actions": [action("one", "jumper_on", "21:00", what="oil control L-M")]}
    )
    assert result["open_items"] == [
        {"kind": "jumper", "what": "Jumper still on: oil control L-M", "since": at("21:00"), "action": "one"}
    ]

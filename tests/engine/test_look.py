"""The field under the thumb: what the legs typed so far tell, and that they never pass the whole."""

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rackside.engine import entry
from rackside.engine.points import POINTS
from rackside.reports.rails import rail_drawing
from tests.engine.electrical_readings import MACHINE, found, legs
from tests.engine.runtimes import difference, on_micropython

LEGGED = [point for point in POINTS if point.kind == "legs"]
PLATE = {**MACHINE, "locked_rotor_current": 175}


def made(name: str, kind: str, body: dict[str, Any]) -> dict[str, Any]:
    head = {"id": name, "schema": 1, "base": [], "made_at": "2026-10-14T21:40:00-05:00", "device": "d", "author": "p"}
    return {**head, "kind": kind, "call": None if kind in ("machine", "site") else "c1", "body": body}


def opened(kept: list[dict[str, Any]]) -> str:
    """Return the entries of a call with some readings kept in its only round."""
    supply = {key: value for key, value in PLATE.items() if key != "supply"}
    entries = [
        made("s", "site", {"name": "Store", "supply": PLATE["supply"]}),
        made("m", "machine", {"site": "s", **supply}),
        made("c1", "call", {"machine": "m", "complaint": "routine"}),
        made("r", "round", {"label": "as_found"}),
    ]
    entries += [made(f"k{i}", "reading", {**reading, "round": "r"}) for i, reading in enumerate(kept)]
    return json.dumps({"call": "c1", "entries": entries, "history": []})


def typed(reading: dict[str, Any], count: int) -> str:
    some = dict(list(reading["legs"].items())[:count])
    return json.dumps({"round": "r", "reading": {**reading, "legs": some}})


def looks(reading: dict[str, Any], count: int, *kept: dict[str, Any], language: str = "en") -> dict[str, Any]:
    entry.open(opened(list(kept)), language)
    return {told["check"]: told for told in json.loads(entry.look(typed(reading, count)))["findings"]}


AMPS = legs("running_current", "30.1", "30.4", "29.9")
SOUND = [
    ("supply_voltage_level", legs("line_voltage", "478", "480", "479"), ()),
    ("supply_voltage_unbalance", legs("line_voltage", "478", "480", "479"), ()),
    ("line_ground_symmetry", legs("line_ground_voltage", "277", "278", "277"), ()),
    ("load_side_voltage", legs("load_voltage", "478", "480", "479"), (legs("line_voltage", "478", "480", "479"),)),
    ("start_voltage_sag", legs("start_voltage", "441", "443", "442"), ()),
    ("pole_drop", legs("pole_drop", "28", "30", "29"), (AMPS,)),
    ("fuse_drop", legs("fuse_drop", "28", "30", "29"), ()),
    ("joint_drop", legs("joint_drop", "3", "3", "4"), (AMPS,)),
    ("running_current_level", AMPS, ()),
    ("running_current_unbalance", AMPS, ()),
    ("start_current", legs("start_current", "120", "128", "124"), (legs("start_voltage", "441", "443", "442"),)),
    ("winding_balance", legs("winding_resistance", "0.523", "0.527", "0.525", leads="off"), ()),
]
NAMES = [check for check, _, _ in SOUND]


@pytest.mark.parametrize(("check", "reading", "kept"), SOUND, ids=NAMES)
@pytest.mark.parametrize(("count", "words"), [(1, "2 more legs to go: "), (2, "One more leg to go: ")])
def test_a_sound_leg_is_drawn_and_the_whole_waits(
    check: str, reading: dict[str, Any], kept: tuple[dict[str, Any], ...], count: int, words: str
) -> None:
    told = looks(reading, count, *kept)[check]
    names = list(reading["legs"])
    assert told["verdict"] == "cannot_tell"
    assert told["because"] == words + ", ".join(names[count:]) + "."
    assert [leg["leg"] for leg in told["legs"]] == names
    assert [leg["value"] is None for leg in told["legs"]] == [False] * count + [True] * (3 - count)
    marks = [column["placed"] for column in rail_drawing(told)["columns"]]
    assert marks == [True] * count + [False] * (3 - count)
    assert told["limits"], "a rail without its band"


@pytest.mark.parametrize(("check", "reading", "kept"), SOUND, ids=NAMES)
def test_the_last_leg_brings_the_verdict(check: str, reading: dict[str, Any], kept: tuple[dict[str, Any], ...]) -> None:
    assert looks(reading, 3, *kept)[check]["verdict"] == "pass"


@pytest.mark.parametrize(
    ("check", "reading", "kept", "verdict"),
    [
        ("supply_voltage_level", legs("line_voltage", "380", "480", "479"), (), "fail"),
        ("pole_drop", legs("pole_drop", "4900", "30", "29"), (), "fail"),
        ("pole_drop", legs("pole_drop", "120", "30", "29"), (AMPS,), "watch"),
        ("running_current_level", legs("running_current", "60", "30", "30"), (), "fail"),
        ("winding_ground", legs("winding_ground_resistance", "0.1", "30", "30", unit="Mohm"), (), "fail"),
    ],
)
def test_one_leg_beyond_its_limit_is_told_at_once(
    check: str, reading: dict[str, Any], kept: tuple[dict[str, Any], ...], verdict: str
) -> None:
    told = looks(reading, 1, *kept)[check]
    assert told["verdict"] == verdict
    assert told["because"].endswith("2 more legs to go: " + ", ".join(list(reading["legs"])[1:]) + ".")


def test_a_difference_that_the_next_leg_may_mend_is_no_verdict_yet() -> None:
    for check, uneven in (
        ("winding_balance", legs("winding_resistance", "0.4", "0.6", "0.5", leads="off")),
        ("running_current_unbalance", legs("running_current", "20", "40", "30")),
        ("fuse_drop", legs("fuse_drop", "20", "60", "21")),
    ):
        told = looks(uneven, 2)[check]
        assert {told["verdict"], *(leg["verdict"] for leg in told["legs"])} == {"cannot_tell"}
    deviations = looks(legs("running_current", "20", "40", "30"), 2)["running_current_unbalance"]["legs"]
    assert [leg.get("deviation") for leg in deviations] == pytest.approx([-100 / 3, 100 / 3, None])


def test_an_ohmmeter_so_far_clears_nothing() -> None:
    told = looks(legs("winding_ground_resistance", "OL", "OL", "OL"), 1)["winding_ground"]
    assert told["verdict"] == "cannot_tell"
    assert "dead ground" not in told["because"]


def test_the_same_in_spanish() -> None:
    reading = legs("line_voltage", "478", "480", "479")
    told = looks(reading, 1, language="es")
    assert told["supply_voltage_unbalance"]["because"] == "Faltan 2 mediciones: L2-L3, L3-L1."
    assert looks(reading, 2, language="es")["supply_voltage_level"]["because"] == "Falta una medición: L3-L1."


@settings(deadline=None, max_examples=150)
@given(data=st.data())
def test_no_part_of_any_reading_passes_or_raises(data: st.DataObject) -> None:
    point = data.draw(st.sampled_from(LEGGED))
    keys = data.draw(st.lists(st.sampled_from(point.keys), min_size=1, max_size=len(point.keys) - 1, unique=True))
    number = st.sampled_from(["0", "0.0", "OL", ">2000", "<1", "3", "41", "478", "0.52", "99999", "-4", "x"])
    reading = {
        "point": point.name,
        "legs": {key: data.draw(number) for key in keys},
        "unit": data.draw(st.sampled_from(point.units)),
        "state": data.draw(st.sampled_from(point.states)),
    }
    entry.open(opened([AMPS, legs("line_voltage", "478", "480", "479"), legs("start_voltage", "441", "443", "442")]))
    answer = json.loads(entry.look(json.dumps({"round": "r", "reading": reading})))
    for told in answer["findings"]:
        if set(told["readings"]) == set() or any(missing.startswith(point.name) for missing in told["missing"]):
            assert told["verdict"] != "pass"
        assert all(leg["leg"] for leg in told["legs"])


def test_the_phones_runtime_looks_alike() -> None:
    asked = []
    for _, reading, kept in SOUND:
        asked.append(["open", opened(list(kept)), "en"])
        asked += [["look", typed(reading, 1)], ["look", typed(reading, 2)]]
    here = [getattr(entry, door)(*given) for door, *given in asked]
    there, _ = on_micropython(asked)
    for one, other in zip(here, there, strict=True):
        assert difference(json.loads(one), json.loads(other)) == ""


# "If any pole reads volts, take the probes off and stop the machine": then the third pole is never read.
def test_a_leg_beyond_its_limit_fails_though_others_were_never_read() -> None:
    kept = {**legs("pole_drop", "31", "4900", "0"), "legs": {"L1-T1": "31", "L2-T2": "4900"}}
    told = found("pole_drop", kept)
    assert (told["verdict"], told["carries"]) == ("fail", True)
    assert "L2-T2 drops 4900 mV: this pole is burning." in told["because"]
    assert "L3-T3 missing" in told["because"]
    assert told["missing"][0] == "pole_drop L3-T3"


def test_a_reading_not_complete_and_within_its_limits_is_no_verdict() -> None:
    kept = {**legs("pole_drop", "31", "120", "0"), "legs": {"L1-T1": "31", "L2-T2": "120"}}
    assert found("pole_drop", kept, AMPS)["verdict"] == "cannot_tell"
    uneven = {**legs("running_current", "20", "40", "0"), "legs": {"L1": "20", "L2": "40"}}
    assert found("running_current_unbalance", uneven)["verdict"] == "cannot_tell"

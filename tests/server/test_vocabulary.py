"""GET /vocabulary answers which words are allowed: held against the contract, not only by names."""

import re
from pathlib import Path
from typing import Any

import pytest

from rackside import host
from rackside.api.errors import CODES
from rackside.sync.fields import KINDS
from tests.engine.case_files import CASES
from tests.server.house import House

Json = dict[str, Any]
CONTRACT = Path(__file__).parents[3] / "shared" / "CONTRACT.md"
CHECKS = CONTRACT.with_name("CHECKS.md")
beside = pytest.mark.skipif(not CONTRACT.exists(), reason="the contract does not lie beside this checkout")
# What the gates' table says, and by which word a program finds it.
NEEDS = {
    "reset": {
        "what opened, photographed or written": "what_opened",
        "insulation (motor and cable together will do": "insulation",
        "a hot one too when it trips hot": "insulation_hot",
        "leads off is asked only when low": "cable_insulation",
    },
    "restart": {
        "all of `reset`": "what_opened",
        "stopped volts within ±10 % and unbalance ≤ 5 %": "stopped_volts",
        "crankcase above 0 psig": "crankcase_above_atmosphere",
        "oil line seen and not full": "oil_level",
        "sump ≥ ambient + 20 F or SST + 20 F": "sump_temperature",
        "valves stated": "valves_stated",
        "terminal cover on": "terminal_cover_on",
        "phase sequence for scroll and screw": "phase_sequence",
        "5 min since the last start, 30 min after a locked attempt": "start_wait",
        "two attempts at most": "attempts",
    },
    "return_to_service": {
        "a start with three legs and least volts": "witnessed_start",
        "three currents": "run_in_current",
        "net oil": "run_in_net_oil",
        "superheat": "run_in_superheat",
        "sump": "run_in_sump",
        "discharge": "run_in_discharge",
        "leading cause named with its repair": "cause_named",
        "every jumper, lead, valve, setting closed out": "closed_out",
        "trip test of a control that was touched": "trip_test",
        "watch date": "watch_date",
    },
    "condemn": {
        "by cause": "condemnable_cause",
        "second test by another meter, person or after cooling": "second_test",
        "plate photographed": "plate_photo",
        "approver": "approver",
    },
}
BLOCKS = {
    "reset": {"insulation or cable below minimum": "insulation cable_insulation winding_ground"},
    "restart": {
        "a jumper across a protective device": "jumper",
        "lead roll that follows the motor": "winding_follows_motor",
        "oil glitter with knock": "glitter_and_knock",
        "floodback signs with a cold sump": "floodback_cold_sump",
        "on_generator with start_voltage_sag fail": "generator_sag",
    },
    "return_to_service": {"a trip in the run-in": "trip_in_run_in"},
    "condemn": {
        "a meter that cannot decide": "meter_cannot_decide",
        "a cause that is a repair": "cause_is_a_repair",
    },
}
CONDEMN = {
    "grounded_winding": {
        "leads off at the compressor": "leads_off",
        "terminals clean and dry": "terminals_dry",
        "crankcase above 0 psig": "crankcase_above_atmosphere",
        "winding temperature": "winding_temperature",
        "two low readings": "two_low_readings",
        "cable passes": "cable_passes",
        "electronics off": "electronics_off",
    },
    "shorted_turns": {
        "winding_balance fail leads off, twice": "balance_fails_twice",
        "leads zeroed": "leads_zeroed",
        "lead roll follows the motor": "follows_motor",
    },
    "open_winding": {
        "OL leads off": "open_leads_off",
        "shell near ambient or 4 h cooled": "cooled",
        "terminals tight": "terminals_tight",
    },
    "seized": {
        "least volts at the terminals ≥ 90 % during the attempt": "volts_held",
        "three even legs ≥ 0.85 for ≥ 3 s": "locked_even",
        "pressures equal": "pressures_equal",
        "unloaded": "unloaded",
        "sump warm": "sump_temperature",
        "oil not full": "oil_level",
        "two attempts 30 min apart": "two_attempts",
    },
    "worn_bearings": {
        "net oil twice low": "net_oil_low_twice",
        "warm, clear, level oil": "oil_fit_to_judge",
        "20 F superheat": "superheat_held",
        "proven pump": "pump_proven",
        "glitter, filings or knock": "wear_seen",
    },
}
CLOCKS = {
    "5 min since the last start": ("next_start_allowed", 300),
    "30 min after a locked attempt": ("next_start_allowed", 1800),
    "wait 1 to 4 h": ("cooling", 4 * 3600),
    "cool 1 h": ("cooling", 3600),
}


@pytest.fixture(scope="module")
def text() -> str:
    return CHECKS.read_text(encoding="utf-8")


@pytest.fixture
def words(small_house: House) -> dict[str, Any]:
    with small_house.client() as nobody:
        told: dict[str, Any] = nobody.get("/api/v1/vocabulary").json()
    return told


def members_of(bodies: Json) -> list[tuple[str, Json]]:
    """Return every member of every body, those of its parts too."""
    found = [(kind, member) for kind, told in bodies.items() for member in told]
    parts = {f"{kind} {member['member']}": member["members"] for kind, member in found if "members" in member}
    return found + (members_of(parts) if parts else [])


def test_every_list_of_words_is_there(words: Json) -> None:
    assert host.describe().items() <= words.items()
    assert {code["code"] for code in words["error_codes"]} == set(CODES)
    assert words["languages"] == ["en", "es"]
    assert set(words["entry_kinds"]) == set(words["entry_bodies"]) == set(KINDS)


def test_every_member_says_what_it_may_hold(words: Json) -> None:
    members = members_of(words["entry_bodies"] | words["case"] | {"head": words["entry_head"]})
    assert len(members) > 200
    for place, member in members:
        said = {"words", "members", "looks"} & set(member)
        assert said or member["form"] in set(words["forms"]) - {"any", "object"}, (place, member)
    units = [unit["unit"] for unit in words["units"]]
    [asked] = [member for place, member in members if place == "reading" and member["member"] == "unit"][:1]
    assert asked["words"] == units


def test_every_check_tells_its_limits_and_where_they_come_from(words: Json) -> None:
    for check in words["checks"]:
        assert check["sources"], check["check"]
        for limit in check["limits"]:
            assert limit["verdict"] in words["verdicts"]
            assert limit["source"]["work"] and limit["source"]["status"], check["check"]
            assert {"above", "below"} & set(limit) or limit.get("when"), check["check"]


def test_the_judge_asks_for_nothing_that_is_not_in_the_vocabulary(words: Json) -> None:
    gates = {gate["gate"]: {need["need"] for need in gate["needs"]} for gate in words["gates"]}
    asked = set()
    for _, case, *_ in CASES:
        result = host.judge(case())
        needs = {(name, need["need"]) for name, gate in result["gates"].items() for need in gate["unmet"]}
        asked |= needs
        assert {name for name, need in needs if need not in gates[name]} == set()
        assert {clock["what"] for clock in result["clocks"]} <= set(words["clocks"])
    assert len(asked) >= 15


@pytest.mark.parametrize("cause", CONDEMN)
def test_each_cause_condemns_by_the_needs_that_the_vocabulary_names(words: Json, cause: str) -> None:
    decision = {"decision": "condemn", "cause": cause}
    found = host.judge({"machine": {}, "rounds": [], "decision": decision})["gates"]["condemn"]["unmet"]
    [told] = [one["needs"] for one in words["gates"][3]["for"] if one["cause"] == cause]
    assert {need["need"] for need in found} == set(told)


@beside
def test_the_vocabulary_holds_every_word_of_the_contract(words: dict[str, Any]) -> None:
    text = CONTRACT.read_text(encoding="utf-8")
    errors = text.split("stable `code`", 1)[1].split("A key is a device", 1)[0]
    codes = set(re.findall(r"`([a-z][a-z_]+)`", errors)) - {"detail", "remedy", "errors", "rackside"}
    assert len(codes) >= 28
    assert codes <= {code["code"] for code in words["error_codes"]}
    bodies = text.split("| kind | body |", 1)[1].split("Call state is computed", 1)[0]
    kinds = {
        kind
        for line in bodies.splitlines()[2:]
        for kind in re.findall(r"`(\w+)`", line.split("|")[1] if "|" in line else "")
    }
    assert kinds == set(words["entry_kinds"])
    states = set(re.findall(r"`(\w+)`", text.split("Call state is computed", 1)[1].split("A call never reopens")[0]))
    assert set(words["call_states"]) <= states
    plate = re.findall(r"`(type|start|grounding|protector\.kind)`: ((?:`[\w-]+` ?)+)", text)
    lists = {"type": "types", "start": "starts", "grounding": "groundings", "protector.kind": "protectors"}
    assert len(plate) == 4
    for name, told in plate:
        assert words[lists[name]] == re.findall(r"`([\w-]+)`", told)
    for name, key in (("Event devices", "devices"), ("Action kinds", "actions")):
        line = text.split(f"{name}: ", 1)[1].split(";", 1)[0].split(". ", 1)[0]
        found = {one.get("device", one.get("action")) for one in words[key]}
        assert set(re.findall(r"`(\w+)`", line)) <= found


@beside
def test_points_have_the_units_and_states_of_the_contract(words: Json) -> None:
    table = CONTRACT.read_text(encoding="utf-8").split("### Points", 1)[1].split("### Signs", 1)[0]
    points, units = {point["name"]: point for point in words["points"]}, {unit["unit"] for unit in words["units"]}
    states, tried = {state["state"] for state in words["states"]}, 0
    for row in [line.split("|") for line in table.splitlines() if line.startswith("| `")]:
        for name in re.findall(r"`([a-z_0-9]+)`", row[1]):
            wanted = set(re.split(r"[ ,]+", row[3].strip())) & units if len(re.findall("`", row[1])) == 2 else set()
            assert wanted <= set(points[name]["units"]), name
            assert set(re.split(r"[ ,]+", row[4].strip())) & states <= set(points[name]["states"]), name
            tried += 1
    assert tried > 60


def row_of(text: str, gate: str) -> list[str]:
    [row] = [line for line in text.splitlines() if line.startswith(f"| `{gate}`")][:1]
    return [cell.strip() for cell in row.split("|")[2:4]]


@beside
@pytest.mark.parametrize("gate", NEEDS)
def test_a_gate_tells_what_its_row_asks(words: Json, text: str, gate: str) -> None:
    [told] = [one for one in words["gates"] if one["gate"] == gate]
    asked, blocked = row_of(text, gate)
    sentences = {need["need"]: need["text"] for need in told["needs"]}
    for phrase, need in NEEDS[gate].items():
        assert phrase in asked, f"the row of {gate} no longer says: {phrase}"
        assert need in sentences, phrase
        if need != "start_wait":
            assert set(re.findall(r"\d+", phrase)) <= set(re.findall(r"\d+", sentences[need])), sentences[need]
    for phrase, names in BLOCKS[gate].items():
        assert phrase in blocked
        assert set(names.split()) <= {block["block"] for block in told["blocks"]}
    row = set(NEEDS[gate].values()) | (set(NEEDS["reset"].values()) if gate == "restart" else set())
    by_cause = {need for one in told.get("for", ()) for need in one["needs"]}
    assert set(sentences) == row | by_cause
    assert all(sentence == " ".join(sentence.split()) for sentence in sentences.values())


@beside
def test_what_nobody_may_pass_is_a_block_of_a_start(words: Json, text: str) -> None:
    said = text.split("There is no override", 1)[1].split("|", 1)[0]
    blocks = {block["block"] for block in words["gates"][1]["blocks"]}
    for word in re.findall(r"`(\w+)`", said):
        assert word in blocks
    assert "vacuum" in said and "vacuum" in blocks


@beside
@pytest.mark.parametrize("cause", CONDEMN)
def test_condemning_tells_what_its_row_asks(words: Json, text: str, cause: str) -> None:
    [row] = [line for line in text.splitlines() if line.startswith(f"| `{cause}`")]
    [told] = [one["needs"] for one in words["gates"][3]["for"] if one["cause"] == cause]
    assert all(phrase in row for phrase in CONDEMN[cause])
    assert told == [*CONDEMN[cause].values(), "second_test", "plate_photo", "approver"]


@beside
def test_the_clocks_run_as_long_as_the_contract_says(words: Json, text: str) -> None:
    rules = {(rule["clock"], rule["seconds"]) for rule in words["clock_rules"]}
    for phrase, rule in CLOCKS.items():
        assert phrase in text
        assert rule in rules, phrase
    assert ("oil_timing", 120) in rules and ("insulation_minute", 60) in rules
    assert {rule["clock"] for rule in words["clock_rules"]} == set(words["clocks"])
    assert all(rule["text"] for rule in words["clock_rules"])

"""Every language says all that English says, with the same values in it, and none of the words we avoid."""

import ast
import importlib
import re
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from rackside import host
from rackside.engine import case_fields
from rackside.engine.words import en
from tests.engine.healthy import KINDS
from tests.engine.judging import case_of, described, judge_case

LANGUAGES = sorted(path.stem for path in (host.ENGINE / "words").glob("[a-z][a-z].py"))
TABLES = [name for name in vars(en) if name.isupper() and isinstance(getattr(en, name), dict)]
PLACEHOLDER = re.compile(r"\{(\w+(?::\w+)?)\}")
AVOIDED = {
    "en": r"\bis dead\b(?! there)|\bis safe\b|\bcomplian",
    "es": r"\bmuert[oa]s?\b|\bsegur[oa]s?\b|\bconforme\b|\bcumpl",
}


def module(language: str) -> ModuleType:
    return importlib.import_module(f"rackside.engine.words.{language}")


@pytest.fixture(params=[language for language in LANGUAGES if language != "en"])
def other(request: pytest.FixtureRequest) -> ModuleType:
    return module(request.param)


@pytest.mark.parametrize("table", TABLES)
def test_the_same_keys_in_the_same_order(other: ModuleType, table: str) -> None:
    assert list(getattr(other, table)) == list(getattr(en, table))


@pytest.mark.parametrize("table", TABLES)
def test_nothing_is_left_blank_that_english_says(other: ModuleType, table: str) -> None:
    told: dict[str, Any] = getattr(other, table)
    assert [key for key, text in told.items() if bool(text.strip()) != bool(getattr(en, table)[key].strip())] == []


def test_each_sentence_holds_the_same_values(other: ModuleType) -> None:
    for key, text in other.SENTENCES.items():
        assert sorted(PLACEHOLDER.findall(text)) == sorted(PLACEHOLDER.findall(en.SENTENCES[key])), key


def test_as_many_reasons_for_a_reading_not_taken(other: ModuleType) -> None:
    assert len(other.NOT_TAKEN_REASONS) == len(en.NOT_TAKEN_REASONS)


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_sentence_judges_what_a_meter_cannot(language: str) -> None:
    words = module(language)
    said = [text for table in TABLES for text in getattr(words, table).values()] + list(words.NOT_TAKEN_REASONS)
    said += getattr(words, "FROM_ENGLISH", {}).values()
    avoided = re.compile(AVOIDED[language], re.IGNORECASE)
    allowed = {"Not safe to reach", en.SENTENCES["fact.heater.dead"], en.SENTENCES["fan_current.take_volts"]}
    assert [text for text in said if avoided.search(text) and text not in allowed] == []


def test_every_page_language_is_an_engine_language() -> None:
    page = Path(host.ENGINE).parents[2] / "web" / "words"
    found = sorted(path.stem for path in page.glob("[a-z][a-z].js"))
    assert found == LANGUAGES


def our_words() -> set[str]:
    """Return every text about a limit or source that the code holds in English, titles of publications left out."""
    found: set[str] = set()
    for path in host.ENGINE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                found |= {text for text in told_by(node.func.id, node.args) if re.search("[a-z]{2}", text)}
    return found


def told_by(name: str, given: list[ast.expr]) -> set[str]:
    """Return the texts of one Source (its title only where it cites no clause) or of one limit's `when`."""
    texts = [arg.value if isinstance(arg, ast.Constant) and isinstance(arg.value, str) else "" for arg in given]
    if name == "Source":
        return {texts[1]} if texts[1] else {texts[0]}
    place = {"Limit": 5, "upper": 4, "lower": 4}.get(name)
    return {texts[place]} if place and len(texts) > place else set()


def test_our_words_about_limits_are_spoken_in_every_language(other: ModuleType) -> None:
    assert sorted(our_words() - set(other.FROM_ENGLISH)) == []


def test_no_limit_of_a_judged_machine_is_left_in_english(other: ModuleType) -> None:
    language = other.__name__.rsplit(".", 1)[1]
    here = [told for kind in KINDS for told in judge_case(kind(), language)["rounds"][0]["findings"]]
    there = [told for kind in KINDS for told in judge_case(kind())["rounds"][0]["findings"]]
    pairs = [
        pair for one, two in zip(here, there, strict=True) for pair in zip(one["limits"], two["limits"], strict=True)
    ]
    assert len(pairs) > 100
    for told, english in pairs:
        if re.search("[a-z]{2}", english.get("when", "")):
            assert told["when"] != english["when"], told
        if not english["source"]["clause"]:
            assert told["source"]["work"] != english["source"]["work"], told
        assert told["source"]["status"] == english["source"]["status"]


def test_what_the_bulletin_is_called_stays_as_it_was_written() -> None:
    own = {"oil_level": {"unit": "fraction", "fail": {"below": 0.1}, "source": "bulletin 7, page 3"}}
    level = [{"point": "oil_level", "value": "0.5", "unit": "fraction", "state": "stopped"}]
    case = {"machine": {"limits": own}, "rounds": [{"label": "as_found", "readings": level}]}
    (limit,) = judge_case(case, "es")["rounds"][0]["findings"][0]["limits"]
    assert limit["source"]["work"] == "bulletin 7, page 3"
    assert limit["when"] == "límite propio de esta máquina"


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_the_plate_lacks_is_spoken(language: str) -> None:
    """Every "machine KEY" that a finding may miss has its words; no raw key is said."""
    code = "".join(path.read_text(encoding="utf-8") for path in host.ENGINE.rglob("*.py"))
    keys = {key.replace(" ", ".") for key in re.findall(r'"machine ([a-z][a-z0-9_ .]+)"', code)}
    assert len(keys) >= 15
    assert keys - set(module(language).PLATES) == set()
    heater = {"point": "heater_current", "value": "0.8", "unit": "A", "state": "stopped"}
    case = {"machine": {}, "rounds": [{"label": "as_found", "readings": [heater]}]}
    said = {told["check"]: told["because"] for told in judge_case(case, language)["rounds"][0]["findings"]}["heater"]
    assert module(language).PLATES["heater.power"] in said
    assert "machine" not in said


def test_every_plate_key_of_a_case_has_words() -> None:
    parts = {f"{part}.{name}" for part, fields in case_fields.MACHINE_PARTS for name, _ in fields}
    whole = {name for name, kind in case_fields.MACHINE if kind.rstrip("!") != "object"}
    unspoken = {"tag", "serial", "model", "site_altitude_unit", "oil_control.unit", "injection.unit"}
    unspoken |= {"ratings.order", "ratings.temperature_unit", "ratings.envelope", "ratings.rated_voltage"}
    unspoken |= {"ratings.mass_flow", "ratings.capacity"}
    assert (parts | whole) - unspoken == set(en.PLATES)


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_step_of_the_absence_test_and_a_unit_are_spoken(language: str) -> None:
    dead = {"point": "absence_test", "legs": {"L1-L2": "0.1"}, "unit": "V", "state": "isolated"}
    drop = {"point": "winding_resistance", "legs": {"T1-T2": "30"}, "unit": "A", "state": "isolated"}
    case = {"machine": {}, "rounds": [{"label": "as_found", "readings": [dead, drop]}]}
    findings = judge_case(case, language)["rounds"][0]["findings"]
    said = " ".join(told["because"] for told in findings)
    assert module(language).FIELDS["known_source_before"] in said
    assert "known_source" not in said
    assert module(language).UNITS["Mohm"] in said


# What a technician can do about it, or which instrument would decide.
ACTIONS = r"(?i)\b(read (?:it|both|again|them|every|the|its|off)|take|write|check|find|look|repeat|go to|put|use|call|"
ACTIONS += r"wait|load|warm|say|let|judge|compare|enter|don't|decides?|would|is needed|needs)\b"


def cannot_tell_keys() -> set[str]:
    """Return the sentence of every cannot_tell of the checks, wherever it is made."""
    found: set[str] = set()
    for path in (host.ENGINE / "checks").glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") in ("cannot_tell", "Unknown"):
                found |= {text for arg in node.args if isinstance(text := getattr(arg, "value", None), str)}
    return {key for key in found if key in en.SENTENCES}


def test_what_cannot_be_told_says_what_would_decide() -> None:
    keys = cannot_tell_keys() | {key for key in en.SENTENCES if key.startswith(("decide.", "reading.", "suspicion."))}
    settled = {"suspicion.another_carries", "reading.not_taken", "reading.one_leg_to_go"}
    settled |= {"reading.legs_to_go", "reading.two_versions", "decide.not_clear_of"}
    assert len(keys) > 90
    assert [key for key in sorted(keys - settled) if not re.search(ACTIONS, en.SENTENCES[key])] == []


def test_nothing_of_a_spanish_result_is_left_in_english() -> None:
    """Every worked example, judged with its plate and without, and every point left out."""
    english = re.compile(r"\b(the|is|and|of|for|with|read|take|beyond|below|above|it|machine)\b", re.IGNORECASE)
    spoken = ("because", "text", "caution", "work", "clause", "when")
    for check in described()["checks"]:
        readings = check["example"]["readings"]
        left_out = [{"point": check["reads"][0], "not_taken": "luz"}]
        for machine, taken in ((check["example"].get("machine", {}), readings), ({}, readings), ({}, left_out)):
            told = told_texts(judge_case(case_of(machine, taken), "es"), spoken)
            assert [text for text in told if english.search(text)] == [], check["check"]


def told_texts(told: Any, members: tuple[str, ...], name: str = "") -> list[str]:
    if isinstance(told, dict):
        return [text for key, value in told.items() for text in told_texts(value, members, key)]
    if isinstance(told, list):
        return [text for value in told for text in told_texts(value, members, name)]
    return [told] if isinstance(told, str) and name in members else []

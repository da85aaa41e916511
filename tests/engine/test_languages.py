"""Every language says all that English says, with the same values in it, and none of the words we avoid."""

import importlib
import re
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from rackside import host
from rackside.engine.words import en

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
    avoided = re.compile(AVOIDED[language], re.IGNORECASE)
    allowed = {"Not safe to reach", en.SENTENCES["fact.heater.dead"], en.SENTENCES["fan_current.take_volts"]}
    assert [text for text in said if avoided.search(text) and text not in allowed] == []


def test_every_page_language_is_an_engine_language() -> None:
    page = Path(host.ENGINE).parents[2] / "web" / "words"
    found = sorted(path.stem for path in page.glob("[a-z][a-z].js"))
    assert found == LANGUAGES

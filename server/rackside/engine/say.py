"""Turn a sentence key and its values into words. The only place where a number becomes text.

A template holds `{name}` or `{name:kind}`. Kinds: point, check, unit, sign, cause, gate, state (looked up in the word
file of the language), list (joined with commas), points, units, words and fields (lists, each looked up), needs (a list
of points and of "machine KEY", what the plate lacks), time (hours and minutes of an RFC 3339 time). A bare `{name}`
prints text as it is and a number by `figure`.
"""

import math

from .kinds import Any, Json

# What comes before the key of a plate fact where something is missing.
MACHINE = "machine "

_languages: "dict[str, Any]" = {}
_LISTS = {"points": "point", "units": "unit", "words": "word", "fields": "field"}
_KINDS = ("point", "check", "unit", "sign", "cause", "gate", "state", "word", "field")


def words_of(language: str) -> Any:
    """Return the word file of a language; English for one there is no file for."""
    if language not in _languages:
        _languages[language] = _loaded(language)
    return _languages[language]


def _loaded(language: str) -> Any:
    package = __name__.rsplit(".", 1)[0] + ".words."
    letters = [letter for letter in language if letter in "abcdefghijklmnopqrstuvwxyz"]
    if len(letters) == len(language) == 2:
        try:
            return __import__(package + language, None, None, ["SENTENCES"])
        except ImportError:
            pass
    return __import__(package + "en", None, None, ["SENTENCES"])


def figure(value: float) -> str:
    """Return a number as people write it: 3 figures or all whole digits, no trailing zeros, halves away from zero."""
    size = abs(value)
    decimals = 0
    if size > 0:
        while decimals < 6 and size * 10**decimals < 100:
            decimals += 1
    whole = math.floor(size * 10**decimals + 0.5)
    text = str(int(whole))
    if decimals:
        while len(text) <= decimals:
            text = "0" + text
        text = _trimmed(text[:-decimals], text[-decimals:])
    return "-" + text if value < 0 and text != "0" else text


def _trimmed(whole: str, part: str) -> str:
    while part.endswith("0"):
        part = part[:-1]
    return whole + "." + part if part else whole


def say(key: str, values: Json, language: str) -> str:
    """Return the sentence of a key in a language; a key without a sentence is a defect and is shown as itself."""
    words = words_of(language)
    template: "str | None" = words.SENTENCES.get(key)
    if template is None:
        return key
    parts = template.split("{")
    spoken: str = parts[0]
    for part in parts[1:]:
        field, _, rest = part.partition("}")
        name, _, kind = field.partition(":")
        spoken += _spoken(values.get(name), kind, words) + rest
    return spoken


def _spoken(value: Any, kind: str, words: Any) -> str:
    if value is None:
        return "?"
    if kind == "time":
        return str(value)[11:16]
    if kind in _LISTS:
        return ", ".join([_looked_up(item, _LISTS[kind], words) for item in value])
    if kind == "needs":
        return ", ".join([_needed(item, words) for item in value])
    if kind == "list" or isinstance(value, (list, tuple)):
        return ", ".join([_plain(item) for item in value])
    if kind in _KINDS:
        return _looked_up(value, kind, words)
    return _plain(value)


def _plain(value: Any) -> str:
    if isinstance(value, (int, float)):
        return figure(value)
    return str(value)


def _needed(item: str, words: Any) -> str:
    """Return the words for a point, or for a fact of the plate: "machine heater power" and "machine heater.power"."""
    name = str(item)
    if not name.startswith(MACHINE):
        return _looked_up(name, "point", words)
    return _looked_up(name[len(MACHINE) :].replace(" ", "."), "plate", words)


def _looked_up(value: Any, kind: str, words: Any) -> str:
    table = getattr(words, kind.upper() + "S")
    found = table.get(value)
    return str(value) if found is None else str(found)


def title(kind: str, name: str, language: str) -> str:
    """Return the name people use for a point, check, sign, cause …; the name itself when there is none."""
    return _looked_up(name, kind, words_of(language))


def from_english(text: str, language: str) -> str:
    """Return a text that the engine's code holds in English in the words of a language; titles stay as published."""
    return str(getattr(words_of(language), "FROM_ENGLISH", {}).get(text, text))

"""A limit and its source in the words of a language: publications keep their titles, our own words are spoken."""

from .kinds import Json
from .say import from_english

_SPOKEN = ("work", "clause")


def told_limit(limit: Json, language: str) -> Json:
    told = dict(limit)
    told["source"] = told_source(limit["source"], language)
    if "when" in limit:
        told["when"] = from_english(limit["when"], language)
    return told


def told_source(source: Json, language: str) -> Json:
    told = dict(source)
    for name in _SPOKEN:
        told[name] = from_english(source[name], language)
    return told


def told_detail(detail: Json, language: str) -> Json:
    """Return a finding's detail; where it names a source of its own, that one is told too."""
    if not isinstance(detail.get("source"), dict):
        return detail
    told = dict(detail)
    told["source"] = told_source(detail["source"], language)
    return told

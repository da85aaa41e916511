"""Everything the engine can describe about its words, points, checks and limits."""

from . import units, vocabulary
from .case_fields import READING
from .check import Check
from .clocks import rules_described
from .gates.described import gates_described
from .kinds import Any, Json
from .limits import ORDER
from .points import POINTS
from .say import title, words_of
from .told_limit import told_limit, told_source


def described(checks: "tuple[Check, ...]", about: Json, language: str) -> Json:
    """Return the vocabulary: what GET /api/v1/vocabulary answers and what the page builds its forms from."""
    words = words_of(language)
    return {
        "engine": about,
        "verdicts": list(ORDER),
        "points": [_point(point, checks, language) for point in POINTS],
        "units": [
            {"unit": name, "dimension": dimension, "text": title("unit", name, language)}
            for name, dimension, _, _ in units.UNITS
        ],
        "reading_fields": [{"field": name, "kind": kind.rstrip("!")} for name, kind in READING],
        "checks": [_check(check, language) for check in checks],
        "signs": _named("sign", vocabulary.SIGNS, language),
        "complaints": _named("complaint", vocabulary.COMPLAINTS, language),
        "causes": _named("cause", vocabulary.CAUSES, language),
        "plate": [{"key": key, "text": words.PLATES[key]} for key in sorted(words.PLATES)],
        "gates": gates_described(language),
        "states": _named("state", vocabulary.STATES, language),
        "labels": _named("label", vocabulary.LABELS, language),
        "actions": _named("action", vocabulary.ACTIONS, language),
        "devices": _named("device", vocabulary.DEVICES, language),
        "events": list(vocabulary.HAPPENINGS),
        "types": list(vocabulary.TYPES),
        "starts": list(vocabulary.STARTS),
        "groundings": list(vocabulary.GROUNDINGS),
        "refrigerants": list(vocabulary.REFRIGERANTS),
        "decisions": list(vocabulary.DECISIONS),
        "clocks": list(vocabulary.CLOCKS),
        "clock_rules": rules_described(language),
        "photo_subjects": list(vocabulary.PHOTO_SUBJECTS),
        "entry_kinds": list(vocabulary.ENTRY_KINDS),
        "cautions": {name: words.CAUTIONS[name] for name in sorted(words.CAUTIONS)},
        "not_taken_reasons": list(words.NOT_TAKEN_REASONS),
    }


def _named(kind: str, names: "Any", language: str) -> "list[Json]":
    return [{kind: name, "text": title(kind, name, language)} for name in names]


def _point(point: Any, checks: "tuple[Check, ...]", language: str) -> Json:
    told: Json = point.as_json()
    told["title"] = title("point", point.name, language)
    told["checks"] = [check.name for check in checks if point.name in check.reads]
    return told


def _check(check: Check, language: str) -> Json:
    return {
        "check": check.name,
        "title": title("check", check.name, language),
        "reads": list(check.reads),
        "unit": check.unit,
        "formula": check.formula,
        "limits": [told_limit(limit.as_json(), language) for limit in check.limits],
        "sources": [told_source(source.as_json(), language) for source in check.sources],
        "example": check.example,
    }

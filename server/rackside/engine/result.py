"""Put a judged call together as the contract writes it."""

from .call import Call
from .causes.answer import Causes
from .check import Check
from .clocks import clocks
from .gates.answer import Gates
from .gates.known import Known
from .judge import comparison, judged_rounds, rounds_json, standing, summary
from .kinds import Any, Json
from .next_step import access_of, asked_first, asked_last, nothing_more
from .open_items import open_items, open_items_json


def result_of(call: Call, checks: "tuple[Check, ...]", about: Json, language: str) -> Json:
    """Return the result (CONTRACT section 2) of a call."""
    judged = judged_rounds(call, checks)
    stand = standing(judged)
    told = decisions(call, judged, language)
    told["engine"] = about
    told["summary"] = summary(stand, told["gates"])
    told["rounds"] = rounds_json(judged, language)
    told["comparison"] = comparison(call, judged, checks)
    return told


def decisions(call: Call, judged: "list[Any]", language: str) -> Json:
    """Return what follows from the findings: causes, next test, gates, clocks, open items."""
    causes = Causes(call, judged, language)
    known = Known(call, judged)
    gates = Gates(known, causes)
    tests = causes.next_tests(access_of(known, gates), asked_first(gates, language), asked_last(known, gates, language))
    return {
        "causes": causes.list,
        "weighing": causes.note(),
        "next_test": tests[0] if tests else None,
        "next_tests": tests,
        "next_text": None if tests else nothing_more(language),
        "look_for": causes.questions(),
        "gates": gates.as_json(language),
        "clocks": clocks(known, language),
        "open_items": open_items_json(open_items(call), language),
    }

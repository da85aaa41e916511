"""Put a judged call together as the contract writes it."""

from .call import Call
from .check import Check
from .judge import comparison, judged_rounds, rounds_json, standing, summary
from .kinds import Json


def result_of(call: Call, checks: "tuple[Check, ...]", about: Json, language: str) -> Json:
    """Return the result (CONTRACT section 2) of a call."""
    judged = judged_rounds(call, checks)
    stand = standing(judged)
    gates: Json = {}
    return {
        "engine": about,
        "summary": summary(stand, gates),
        "rounds": rounds_json(judged, language),
        "causes": [],
        "next_test": None,
        "gates": gates,
        "clocks": [],
        "open_items": [],
        "comparison": comparison(judged),
    }

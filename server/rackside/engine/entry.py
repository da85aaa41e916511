"""The doors of the judge: text in, text out. Nothing else of the engine is called from outside.

`load` first, once: the host lists the files of checks/ and passes their names with the digest of all engine files.
"""

import json

from . import RULES, VERSION
from .call import Call
from .case import faults_of, reading_faults
from .case_faults import Faults
from .case_machine import CHECK_NAMES
from .check import Check
from .compose import composed
from .judge import finding_json
from .kinds import Any, Json
from .look import looked
from .result import result_of
from .vocabulary_json import described

_checks: "list[Check]" = []
_about: Json = {}


class _Open:
    """The call kept open on the phone: its entries, and the case they make."""

    def __init__(self, told: Json, language: str) -> None:
        self.told = told
        self.language = language
        self.case: Json = composed(told)
        self.faults = faults_of(self.case)
        self.call = None if self.faults else Call(self.case)


_open: "list[_Open]" = []


def load(names: "list[str] | tuple[str, ...]", digest: str) -> None:
    """Load the checks by file name (without .py) and remember what this engine is."""
    package = __name__.rsplit(".", 1)[0] + ".checks."
    found = [__import__(package + name, None, None, ["CHECK"]).CHECK for name in sorted(names)]
    for name, check in zip(sorted(names), found):
        if check.name != name:
            raise ValueError("checks/" + name + ".py holds the check " + check.name)
    del _checks[:]
    _checks.extend(found)
    del CHECK_NAMES[:]
    CHECK_NAMES.extend([check.name for check in found])
    _about.update({"version": VERSION, "rules": RULES, "digest": digest})


def describe(language: str = "en") -> str:
    """Return everything a form, a program or a person may ask about the words and limits, as JSON text."""
    return json.dumps(described(tuple(_checks), _about, language))


def compose(text: str) -> str:
    """Return the case that the entries of one call make, as JSON text."""
    told = _parsed(text)
    if told is None or not isinstance(told, dict):
        return _not_json()
    return json.dumps(composed(told))


def judge(text: str, language: str = "en") -> str:
    """Return the result of a case, or {"errors": [{"pointer", "detail"}]} for a faulty one, as JSON text."""
    case = _parsed(text)
    if case is None:
        return _not_json()
    faults = faults_of(case)
    if faults:
        return json.dumps({"errors": faults})
    return json.dumps(result_of(Call(case), tuple(_checks), _about, language))


def open(text: str, language: str = "en") -> str:
    """Keep a call open and return {"case", "result", "upto"}; takes what compose takes.

    upto: the ids of the entries that the result is of.
    """
    told = _parsed(text)
    if told is None or not isinstance(told, dict):
        return _not_json()
    del _open[:]
    _open.append(_Open(told, language))
    return _answer(_open[0])


def add(text: str) -> str:
    """Add a list of entries to the open call and return {"case", "result", "upto"} anew."""
    more = _parsed(text)
    if not _open or not isinstance(more, list):
        return _not_json()
    told = _open[0].told
    ids = [entry.get("id") for entry in more]
    told["entries"] = [kept for kept in told.get("entries") or [] if kept.get("id") not in ids] + more
    _open[0] = _Open(told, _open[0].language)
    return _answer(_open[0])


def look(text: str) -> str:
    """Return {"findings"} for a reading as typed so far ({"round", "reading"}) without keeping it."""
    told = _parsed(text)
    if not _open or not isinstance(told, dict):
        return _not_json()
    call = _open[0].call
    raw: Any = told.get("reading")
    faults = Faults()
    reading_faults(raw, "/reading", faults)
    rounds = [round_ for round_ in call.rounds if round_.id == told.get("round")] if call else []
    if not rounds:
        faults.add("/round", "The open call has no such round, or can't be judged.")
    if faults.found or call is None:
        return json.dumps({"errors": faults.found})
    findings = looked(call, rounds[0], call.parsed(raw), tuple(_checks))
    return json.dumps({"findings": [finding_json(finding, _open[0].language) for finding in findings]})


def _answer(kept: _Open) -> str:
    if kept.call is None:
        return json.dumps({"case": kept.case, "errors": kept.faults})
    result = result_of(kept.call, tuple(_checks), _about, kept.language)
    upto = [entry.get("id") for entry in kept.told.get("entries") or []]
    return json.dumps({"case": kept.case, "result": result, "upto": upto})


def _parsed(text: str) -> Any:
    try:
        return json.loads(text)
    except (ValueError, RuntimeError):
        return None


def _not_json() -> str:
    return json.dumps({"errors": [{"pointer": "", "detail": "This is not a JSON text of the kind expected here."}]})

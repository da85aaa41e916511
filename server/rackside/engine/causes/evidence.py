"""Everything in a call that speaks for or against a cause, each thing once."""

from ..call import Call, Round
from ..finding import Finding
from ..kinds import Json
from ..reading import Reading
from .facts import FACTS
from .found_phase import FoundPhase, stronger
from .like_machine import like_label
from .model import Fact, Showing
from .observation import Observation
from .outcomes import finding_labels, reading_label
from .priors import SAID_BY_COMPLAINT

# What an event in a log shows just as a sign does: device, happening, the sign.
EVENT_SIGNS = (
    ("breaker", "trip", "breaker_tripped"),
    ("fuse", "trip", "fuse_open"),
    ("high_pressure", "trip", "high_pressure_tripped"),
    ("module", "trip", "module_locked_out"),
    ("overload", "trip", "overload_tripped"),
)
# Volts read up there say nothing about what arrives at the contactor.
UPSTREAM = ("source", "disconnect")


def observations(call: Call, judged: "list[tuple[Round, list[Finding]]]") -> "list[Observation]":
    """Return all evidence of a call in the model's own order, so that the order of entry changes nothing."""
    phase = FoundPhase(call, judged)
    signs = _signs(call)
    findings = phase.findings()
    readings = phase.readings()
    found: "list[Observation]" = []
    for fact in FACTS:
        for showing in fact.showings:
            kind, _, name = showing.source.partition(":")
            if kind == "sign":
                told = _from_sign(fact, showing, name, signs)
            elif kind == "finding":
                told = _from_finding(fact, showing, name, findings, readings)
            else:
                told = _from_reading(fact, showing, name, call, phase, readings)
            if told is not None:
                found.append(told)
    return found


def _signs(call: Call) -> "dict[str, tuple[bool, str]]":
    """Return (present, origin) of each sign answered by a person or a log; what the complaint says is left out."""
    found = {}
    for event in call.events:
        for device, what, sign in EVENT_SIGNS:
            if event["device"] == device and event["what"] == what:
                found[sign] = (True, "event:" + device)
        if event["what"] == "trip" and event.get("motor_ran") is not None:
            ran = "motor_turned" if event["motor_ran"] else "zero_current_before_alarm"
            found[ran] = (True, "event:" + event["device"])
    for sign in call.signs:
        found[sign] = (call.signs[sign], "sign:" + sign)
    for complaint, sources in SAID_BY_COMPLAINT:
        if complaint == call.complaint:
            for source in sources:
                found.pop(source[5:], None)
    return found


def _from_sign(fact: Fact, showing: Showing, name: str, signs: "dict[str, tuple[bool, str]]") -> "Observation | None":
    if name not in signs:
        return None
    present, origin = signs[name]
    key = "evidence.sign" if present else "evidence.no_sign"
    return Observation(fact, showing, 1 if present else 0, origin, (key, {"sign": name}))


def _from_finding(
    fact: Fact, showing: Showing, name: str, findings: "list[Finding]", readings: "list[Reading]"
) -> "Observation | None":
    chosen = None
    for finding in findings:
        if finding.check != name or showing.index(finding_labels(finding)) < 0:
            continue
        if fact.name == "feed" and _upstream(finding, readings):
            continue
        chosen = finding if chosen is None else stronger(name, chosen, finding)
    if chosen is None:
        return None
    values: Json = {"check": name, "value": chosen.value, "unit": chosen.unit}
    key = ("evidence.finding." if chosen.value is not None else "evidence.verdict.") + chosen.verdict
    outcome = showing.index(finding_labels(chosen))
    told = Observation(fact, showing, outcome, "finding:" + name, (key, values))
    told.reading = chosen.readings[0] if chosen.readings else ""
    return told


def _upstream(finding: Finding, readings: "list[Reading]") -> bool:
    places = [reading.option("where") for reading in readings if reading.id and reading.id in finding.readings]
    return bool([place for place in places if place in UPSTREAM])


def _from_reading(
    fact: Fact, showing: Showing, name: str, call: Call, phase: FoundPhase, readings: "list[Reading]"
) -> "Observation | None":
    chosen, outcome = None, -1
    if name == "like_machine":
        label, chosen = like_label(call, phase, readings)
        outcome = showing.index((label,))
    elif name == "ran_as_found":
        for reading in phase.readings(as_found_only=True):
            if reading.point.name == "running_current" and max([q.value for q in reading.quantities()]) > 1.0:
                chosen, outcome = reading, 1
    else:
        chosen, outcome = _worst_reading(showing, name, call, readings)
    if chosen is None or outcome < 0:
        return None
    said = ("evidence.reading", {"point": chosen.point.name})
    told = Observation(fact, showing, outcome, "reading:" + chosen.point.name, said)
    told.reading = chosen.id
    return told


def _worst_reading(showing: Showing, name: str, call: Call, readings: "list[Reading]") -> "tuple[Reading | None, int]":
    """Return the reading of a point that speaks, the unusual one where they differ."""
    chosen, outcome = None, -1
    for reading in readings:
        if reading.point.name == name:
            index = showing.index((reading_label(reading, readings, call.machine),))
            if index >= outcome and index >= 0:
                chosen, outcome = reading, index
    return chosen, outcome

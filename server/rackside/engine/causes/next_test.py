"""What to measure next: the most it would tell for what it costs and risks, and why in one sentence."""

from ..call import Call
from ..finding import Finding
from ..kinds import Any, Json
from ..limits import CANNOT_TELL
from ..points import known_point
from ..points.point import ISOLATED, RUNNING, STARTING, STOPPED
from ..say import say, title, words_of
from .facts import FACTS
from .found_phase import FoundPhase
from .information import Field, expected, outcomes_of, topples
from .model import UNKNOWN
from .ranking import Turning
from .steps import LEAD_ROLL, LOOK, ONLY_FOR, SIGN_COST, START_COST, STEPS, Step

# Fewer bits than this are not worth a walk to the machine, unless an outcome this likely puts another cause first.
# Source: judgement.
WORTH_ASKING = 0.04
RARE = 0.03
SHOWN_TESTS = 3
# Read with the test volts of a megohmmeter.
MEGOHMS = ("insulation_resistance", "cable_insulation_resistance")
# What speaks of whether the motor turned.
TURNING_FACTS = ("turned", "feed", "pulls_in")
TURNING_POINTS = ("line_voltage",)


class Access:
    """What may be measured now. held: only locked out; running: it runs; startable: a start is not ruled out."""

    def __init__(self, held: bool, running: bool, startable: bool) -> None:
        self.held = held
        self.running = running
        self.startable = startable

    def cost(self, step: Step) -> "float | None":
        """Return the cost of a step as things stand, None when it is not open."""
        if step.state in (LOOK, ISOLATED):
            return step.cost
        if self.held:
            return None
        if step.state in (RUNNING, STARTING) and not self.running:
            return step.cost + START_COST if self.startable else None
        return step.cost


class Ranked:
    """A step or sign with what it would tell [bit], its value for the cost, and the causes it sets apart.

    changes: it could put another cause first. urgent: it helps to settle an open question that comes before the rest.
    """

    def __init__(self, point: str, bits: float, cost: float, changes: bool, rivals: "tuple[str, str]") -> None:
        self.point = point
        self.name = point
        self.bits = bits
        self.worth = bits / cost
        self.changes = changes
        self.rivals = rivals
        self.urgent = False

    def key(self) -> "tuple[bool, bool, float]":
        """Return what the ranks come from: smaller is better."""
        return (not self.urgent, not self.changes, -self.worth)


def ranked_steps(
    field: Field, seen: "list[Any]", machine: Json, left_out: "list[str]", access: Access, turning: Turning
) -> "list[Ranked]":
    """Return the measurements worth taking, best first."""
    found: "list[Ranked]" = []
    for step in STEPS:
        cost = access.cost(step)
        if cost is None or step.name in left_out or not _fits(step.point, machine):
            continue
        outcomes = outcomes_of(field, step.shows, seen)
        urgent = turning.unsettled() and step.point in TURNING_POINTS
        told = _rated(field, outcomes, step.point, cost, urgent) if outcomes else None
        if told is not None:
            told.name = step.name
            found.append(told)
    return _sorted(found)


def ranked_signs(field: Field, answered: "list[str]", turning: Turning) -> "list[Ranked]":
    """Return the signs worth asking for, best first; `point` holds the sign's name."""
    found: "list[Ranked]" = []
    for fact in FACTS:
        for showing in fact.showings:
            kind, _, name = showing.source.partition(":")
            if kind != "sign" or name in answered:
                continue
            urgent = turning.unsettled() and fact.name in TURNING_FACTS
            told = _rated(field, field.chances(fact, showing), name, SIGN_COST, urgent)
            if told is not None:
                found.append(told)
    return _sorted(found)


def _sorted(found: "list[Ranked]") -> "list[Ranked]":
    keyed = [(found[index].key(), index) for index in range(len(found))]
    return [found[index] for _, index in sorted(keyed)]


def bits_of(field: Field, point: str, seen: "list[Any]") -> float:
    """Return what a measurement would tell [bit], however little."""
    for step in STEPS:
        if step.point == point:
            outcomes = outcomes_of(field, step.shows, seen)
            return expected(field, outcomes) if outcomes else 0.0
    return 0.0


def _rated(field: Field, outcomes: "list[list[float]]", name: str, cost: float, urgent: bool) -> "Ranked | None":
    """Return the step rated, None when it would tell too little to be worth it and nothing waits for it."""
    bits = expected(field, outcomes)
    changes = topples(field, outcomes, RARE)
    if bits < WORTH_ASKING and not changes and not urgent:
        return None
    told = Ranked(name, bits, cost, changes, _rivals(field, outcomes))
    told.urgent = urgent
    return told


def _rivals(field: Field, outcomes: "list[list[float]]") -> "tuple[str, str]":
    """Return the two named causes that the outcomes set apart most, weighed by their shares."""
    best, pair = -1.0, ("", "")
    shares = [(-field.shares[index], index) for index in range(len(field.causes)) if field.causes[index] != UNKNOWN]
    named = [index for _, index in sorted(shares)[:4]]
    for place in range(len(named)):
        for other in named[place + 1 :]:
            one = named[place]
            apart = 0.0
            for chances in outcomes:
                apart += abs(chances[one] - chances[other])
            weight = apart * field.shares[one] * field.shares[other]
            if weight > best:
                best, pair = weight, (field.causes[one], field.causes[other])
    return pair


def _fits(point: str, machine: Json) -> bool:
    for name, key, words in ONLY_FOR:
        if name == point and machine.get(key) and machine[key] not in words:
            return False
    return True


def points_left_out(call: Call, phase: FoundPhase, judged: "list[Any]") -> "list[str]":
    """Return the points already read to some use, or not taken for a reason; one that could not tell may be retaken."""
    useless = _undecided(phase.findings())
    readings = phase.readings()
    taken = [reading.point.name for reading in readings]
    if [reading for reading in readings if reading.option("roll")]:
        taken.append(LEAD_ROLL)
    refused = []
    for round_, _ in judged:
        refused.extend([reading.point.name for reading in round_.readings if reading.not_taken])
    return [point for point in taken if point not in useless] + refused


def _undecided(findings: "list[Finding]") -> "list[str]":
    """Return the points whose every finding could not tell."""
    told = [finding.check for finding in findings if finding.verdict != CANNOT_TELL]
    untold = [finding.check for finding in findings if finding.verdict == CANNOT_TELL]
    found = []
    for step in STEPS:
        checks = [source[8:] for source in step.shows if source.startswith("finding:")]
        if [check for check in checks if check in untold] and not [check for check in checks if check in told]:
            found.append(step.name)
    return found


def tests_json(ranked: "list[Ranked]", language: str) -> "list[Json]":
    """Return the steps as the contract tells them."""
    shown = ranked[:SHOWN_TESTS]
    return [step_json(told.point, _because(told, language), told.bits, language) for told in shown]


def questions_json(ranked: "list[Ranked]", language: str) -> "list[Json]":
    """Return the signs to look or ask for."""
    found = []
    for told in ranked[:SHOWN_TESTS]:
        text = title("sign", told.point, language)
        because = _because(told, language)
        found.append({"sign": told.point, "text": text, "because": because, "expected_information": told.bits})
    return found


def step_json(point: str, because: str, bits: float, language: str) -> Json:
    return {
        "point": point,
        "text": title("point", point, language),
        "because": because,
        "caution": caution_of(point, language),
        "expected_information": bits,
    }


def _because(told: Ranked, language: str) -> str:
    first, second = told.rivals
    if told.urgent:
        return say("next.turning", {}, language)
    because = say("next.apart" if second else "next.tells", {"first": first, "second": second}, language)
    return say("next.roll", {}, language) + " " + because if told.name == LEAD_ROLL else because


def _locked_out(states: "tuple[str, ...]") -> bool:
    """Return whether a point is read with the machine locked out, or at most standing still."""
    return ISOLATED in states and not [state for state in states if state not in (ISOLATED, STOPPED)]


def caution_of(point: str, language: str) -> "str | None":
    """Return the words before a reading of a point: energised, or locked out; None where neither is asked for."""
    known = known_point(point)
    key = known.caution if known is not None else ""
    cautions = words_of(language).CAUTIONS
    if known is not None and not key and _locked_out(known.states):
        test_volts = " " + str(cautions["test_volts"]) if point in MEGOHMS else ""
        return str(cautions["isolated"]) + test_volts
    if not key:
        return None
    return str(cautions["energised"]) if key == "energised" else str(cautions["energised"]) + " " + str(cautions[key])

"""The causes as the contract tells them: probability, word, facts for and against; and what to settle first."""

import math

from ..call import Call
from ..kinds import Json
from ..say import say, title
from ..vocabulary import CAUSES
from .model import UNKNOWN
from .observation import Observation
from .weighing import Weighing, table_of

LIKELY = "likely"
POSSIBLE = "possible"
NOT_SHOWN = "not_shown"
# Source: judgement. Pages show the word; the number stays in the API.
LIKELY_FROM = 0.5
POSSIBLE_FROM = 0.08
# A fact counts for or against a cause from this ratio on. Source: judgement.
TELLS_FROM = 1.4
SHOWN_FACTS = 6
# Causes that say the machine ran and its oil failed: none leads before it is known that the motor turned.
OIL_CAUSES = (
    "floodback migration oil_away oil_regulator oil_control_fault oil_pump_fault worn_bearings low_suction"
).split(" ")
SETTLED = 0.9


class Turning:
    """Did the motor turn when it tripped? "turned", "not" or "unsettled"; asked says whether it matters here."""

    def __init__(self, call: Call, seen: "list[Observation]", weighing: Weighing) -> None:
        self.chance = weighing.chance("turned", "turned")
        self.asked = call.complaint == "oil_trip" or _oil_trips(call)
        shown = [one for one in seen if one.fact.name in ("turned", "net_oil", "feed")]
        self.answer = "unsettled"
        if shown and self.chance >= SETTLED:
            self.answer = "turned"
        elif shown and self.chance <= 1.0 - SETTLED:
            self.answer = "not"

    def unsettled(self) -> bool:
        return self.asked and self.answer == "unsettled"

    def blocks(self, cause: str) -> bool:
        return self.unsettled() and cause in OIL_CAUSES


def _oil_trips(call: Call) -> bool:
    return bool([event for event in call.events if event["device"] == "oil_control" and event["what"] == "trip"])


def causes_json(
    weighing: Weighing, seen: "list[Observation]", turning: Turning, call: Call, language: str
) -> "list[Json]":
    """Return every cause, the leading one first."""
    texts = [evidence_text(one, language) for one in seen]
    averages = [_average(one, weighing) for one in seen]
    listed = [cause for cause, _ in table_of(call.complaint)]
    told = []
    for cause in ranked(weighing, turning):
        probability = weighing.of(cause)
        entry: Json = {"cause": cause, "text": title("cause", cause, language), "probability": probability}
        entry["word"] = word_of(probability, turning.blocks(cause), len(seen))
        if cause == UNKNOWN or (probability < 0.01 and cause not in listed):
            entry["for"], entry["against"] = [], []
        else:
            entry["for"], entry["against"] = _facts(cause, seen, texts, averages)
        told.append(entry)
    return told


def ranked(weighing: Weighing, turning: Turning) -> "list[str]":
    """Return the causes, most probable first; until it is settled that the motor turned, no oil cause leads."""
    keyed = []
    for index in range(len(weighing.causes)):
        keyed.append((-weighing.probabilities[index], index))
    order = [weighing.causes[index] for _, index in sorted(keyed)]
    if order and turning.blocks(order[0]):
        order.remove("never_ran")
        order.insert(0, "never_ran")
    return order


def word_of(probability: float, held_back: bool, seen: int) -> str:
    """Return likely, possible or not_shown; without evidence, or held back by an open question, never likely."""
    if probability >= LIKELY_FROM and seen and not held_back:
        return LIKELY
    return POSSIBLE if probability >= POSSIBLE_FROM else NOT_SHOWN


def evidence_text(one: Observation, language: str) -> str:
    """Return what was seen and what it shows, in words."""
    key, values = one.said
    shows = [say("fact." + one.fact.name + "." + state, {}, language) for state in one.states()]
    told = dict(values)
    told["shows"] = shows[0]
    if len(shows) > 1:
        told["shows"] = say("evidence.or", {"one": shows[0], "other": shows[1]}, language)
    return say(key, told, language)


def _average(one: Observation, weighing: Weighing) -> "tuple[float, list[float]]":
    """Return the chance of an outcome over all causes by their priors, and under each cause."""
    row = one.row()
    chances = []
    whole = 0.0
    for cause, share in weighing.prior:
        states = one.fact.chances(cause)
        chance = 0.0
        for index in range(len(row)):
            chance += states[index] * row[index]
        chances.append(chance)
        whole += share * chance
    return whole, chances


def _facts(
    cause: str, seen: "list[Observation]", texts: "list[str]", averages: "list[tuple[float, list[float]]]"
) -> "tuple[list[Json], list[Json]]":
    """Return the facts for and against a cause, the most telling first."""
    place = CAUSES.index(cause)
    told = []
    for index in range(len(seen)):
        whole, chances = averages[index]
        told.append((math.log(chances[place] / whole), index))
    edge = math.log(TELLS_FROM)
    favour = sorted([(-tells, index) for tells, index in told if tells >= edge])
    against = sorted([(tells, index) for tells, index in told if tells <= -edge])
    return (
        [_fact(seen[index], texts[index]) for _, index in favour[:SHOWN_FACTS]],
        [_fact(seen[index], texts[index]) for _, index in against[:SHOWN_FACTS]],
    )


def _fact(one: Observation, text: str) -> Json:
    told: Json = {"from": one.origin, "text": text}
    if one.reading:
        told["reading"] = one.reading
    return told


def contradictions(seen: "list[Observation]", language: str) -> "list[Json]":
    """Return the pairs that say opposite things of one fact, with both told."""
    found = []
    for first in range(len(seen)):
        for second in range(first + 1, len(seen)):
            one, other = seen[first], seen[second]
            if one.fact is other.fact and one.contradicts(other):
                values = {"one": evidence_text(one, language), "other": evidence_text(other, language)}
                told = {"from": [one.origin, other.origin], "text": say("evidence.contradiction", values, language)}
                found.append(told)
    return found

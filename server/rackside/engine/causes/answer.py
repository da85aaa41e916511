"""The causes of a call, weighed."""

from ..call import Call, Round
from ..finding import Finding
from ..kinds import Json
from ..say import say
from .evidence import observations
from .found_phase import FoundPhase
from .information import Field
from .next_test import (
    SHOWN_TESTS,
    Access,
    bits_of,
    points_left_out,
    questions_json,
    ranked_signs,
    ranked_steps,
    step_json,
    tests_json,
)
from .ranking import Turning, causes_json, contradictions
from .weighing import Weighing, priors


class Causes:
    """The weighed causes of a call. leading: the first of the list. word: how far that is shown."""

    def __init__(self, call: Call, judged: "list[tuple[Round, list[Finding]]]", language: str) -> None:
        self.call = call
        self.judged = judged
        self.language = language
        self.phase = FoundPhase(call, judged)
        self.seen = observations(call, judged)
        told = [(one.fact, one.showing, one.outcome) for one in self.seen]
        self.weighing = Weighing(priors(call.complaint, call.machine.raw), told)
        self.turning = Turning(call, self.seen, self.weighing)
        self.list = causes_json(self.weighing, self.seen, self.turning, call, language)
        self.leading = str(self.list[0]["cause"])
        self.word = str(self.list[0]["word"])

    def word_for(self, cause: str) -> str:
        return str([told["word"] for told in self.list if told["cause"] == cause][0])

    def note(self) -> Json:
        """Return how firm the list is: facts counted, what contradicts, whether it is settled that the motor turned."""
        opposed = contradictions(self.seen, self.language)
        key = "causes.no_evidence" if not self.seen else "causes.weighed"
        values: Json = {"facts": len(self.seen), "complaint": self.call.complaint or "?"}
        told = [say(key, values, self.language)]
        if self.turning.asked:
            told.append(say("causes.turning." + self.turning.answer, {}, self.language))
        if opposed:
            told.append(say("causes.contradicted", {}, self.language))
        return {
            "text": " ".join(told),
            "facts": len(self.seen),
            "turned": self.turning.answer if self.turning.asked else None,
            "contradictions": opposed,
        }

    def next_tests(self, access: Access, first: "list[Json]", last: "list[Json]") -> "list[Json]":
        """Return up to three measurements: what the gate asks first, what tells most, then what a gate still needs."""
        left_out = points_left_out(self.call, self.phase, self.judged)
        field = Field(self.weighing)
        steps = ranked_steps(field, self.seen, self.call.machine.raw, left_out, access, self.turning)
        found = [self._asked(need, field) for need in first]
        found.extend(tests_json(steps, self.language))
        if len(found) < SHOWN_TESTS:
            found.extend([self._asked(need, field) for need in last])
        return _once(found)[:SHOWN_TESTS]

    def _asked(self, need: Json, field: Field) -> Json:
        bits = bits_of(field, need["point"], self.seen)
        return step_json(need["point"], need["because"], bits, self.language)

    def questions(self) -> "list[Json]":
        """Return up to three signs worth looking or asking for."""
        steps = ranked_signs(Field(self.weighing), sorted(self.call.signs), self.turning)
        return questions_json(steps, self.language)


def _once(tests: "list[Json]") -> "list[Json]":
    """Return the tests with each point only the first time."""
    found: "list[Json]" = []
    for test in tests:
        if test["point"] not in [other["point"] for other in found]:
            found.append(test)
    return found

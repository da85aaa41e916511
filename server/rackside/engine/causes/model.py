"""What the model of causes is made of: facts, and what people see of each fact.

One cause holds (or `unknown`). Each fact, like "liquid in the crankcase", takes one of its states with a chance that
depends on the cause; whatever shows the fact depends on the fact alone. So five signs of one fact tell as much as the
fact, and not five times as much. Every row of numbers carries its trust mark.
"""

# Trust marks of the handbook. Source: HANDBOOK.md, section 0.
JUDGEMENT = "J"
# No chance is taken as nought: a sign can always be misread.
FLOOR = 0.004
UNKNOWN = "unknown"
NOTHING_FOUND = "nothing_found"

Row = "tuple[str, tuple[float, ...]]"


def judged(*chances: float) -> "tuple[str, tuple[float, ...]]":
    """Return chances marked as judgement, not statistics."""
    return (JUDGEMENT, chances)


class Showing:
    """Something that shows a fact: a sign, a finding or a reading, and the chance of each outcome in each state.

    source: "sign:…", "finding:…" or "reading:…". outcomes: labels, the usual one first. chances[outcome][state].
    """

    def __init__(self, source: str, outcomes: "tuple[str, ...]", chances: "list[list[float]]", mark: str) -> None:
        self.source = source
        self.outcomes = outcomes
        self.chances = chances
        self.mark = mark

    def index(self, labels: "tuple[str, ...]") -> int:
        """Return the outcome that one of the labels names, most particular first, -1 when it tells nothing here."""
        for label in labels:
            if label in self.outcomes:
                return self.outcomes.index(label)
        return -1


def sign(name: str, seen: "tuple[str, tuple[float, ...]]") -> Showing:
    """Return a sign with the chance of seeing it in each state of its fact."""
    mark, chances = seen
    return Showing("sign:" + name, ("no", "yes"), _with_rest([list(chances)]), mark)


def shown(source: str, usual: str, *rows: "tuple[str, tuple[str, tuple[float, ...]]]") -> Showing:
    """Return a finding or reading: its usual outcome takes what the other outcomes leave in each state."""
    outcomes = (usual,) + tuple([label for label, _ in rows])
    return Showing(source, outcomes, _with_rest([list(row[1]) for _, row in rows]), rows[0][1][0])


class Fact:
    """One thing that is so or not so at the machine, and how likely each cause makes it.

    states: the usual one first. base: chances under any cause not named in given. given: chances by cause.
    Rows leave out the usual state: it takes the rest.
    """

    def __init__(
        self,
        name: str,
        states: "tuple[str, ...]",
        base: "tuple[str, tuple[float, ...]]",
        given: "tuple[tuple[str, tuple[str, tuple[float, ...]]], ...]",
        showings: "tuple[Showing, ...]",
    ) -> None:
        self.name = name
        self.states = states
        self.base = _filled(base[1])
        self.given = {cause: _filled(row[1]) for cause, row in given}
        self.given[UNKNOWN] = [0.5 * chance + 0.5 / len(states) for chance in self.base]
        self.given[NOTHING_FOUND] = _filled([0.5 * chance for chance in self.base[1:]])
        self.marks = (base[0],) + tuple([row[0] for _, row in given])
        self.showings = showings

    def chances(self, cause: str) -> "list[float]":
        """Return the chance of each state under a cause."""
        return self.given.get(cause, self.base)


def _filled(rest: "tuple[float, ...] | list[float]") -> "list[float]":
    """Return chances with the usual state in front, none below the floor, adding up to 1."""
    chances = [max(chance, FLOOR) for chance in rest]
    left = 1.0
    for chance in chances:
        left -= chance
    return [left] + chances


def _with_rest(rows: "list[list[float]]") -> "list[list[float]]":
    """Return the rows by outcome with the usual outcome in front; each state's column adds up to 1."""
    floored = [[max(chance, FLOOR) for chance in row] for row in rows]
    usual = []
    for state in range(len(floored[0])):
        left = 1.0
        for row in floored:
            left -= row[state]
        usual.append(left)
    return [usual] + floored

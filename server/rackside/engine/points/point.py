"""What a kind of reading is: its legs, unit, states and what can be believed."""

from ..kinds import Json

ISOLATED = "isolated"
STOPPED = "stopped"
STARTING = "starting"
RUNNING = "running"
STATES = (ISOLATED, STOPPED, STARTING, RUNNING)

LINE_LEGS = ("L1", "L2", "L3")
LINE_PAIRS = ("L1-L2", "L2-L3", "L3-L1")
LINE_GROUND = ("L1-G", "L2-G", "L3-G")
MOTOR_PAIRS = ("T1-T2", "T2-T3", "T3-T1")
MOTOR_GROUND = ("T1-G", "T2-G", "T3-G")
POLES = ("L1-T1", "L2-T2", "L3-T3")


class Point:
    """One kind of reading.

    kind: "legs" (a value per key), "value", "word" (one of words), "chain" (control_chain), "absence" (absence_test).
    units: accepted, the usual one first. low, high: what can be believed, in the base unit of the dimension.
    step: the usual resolution in the usual unit. group: its place in the order of work. caution: key of the words shown
    before an energised reading, "" when isolated.
    """

    def __init__(
        self,
        name: str,
        kind: str,
        keys: "tuple[str, ...]" = (),
        units: "tuple[str, ...]" = (),
        states: "tuple[str, ...]" = STATES,
        low: float = 0.0,
        high: float = 0.0,
        step: float = 1.0,
        group: str = "",
        caution: str = "",
        words: "tuple[str, ...]" = (),
    ) -> None:
        self.name = name
        self.kind = kind
        self.keys = keys
        self.units = units
        self.states = states
        self.low = low
        self.high = high
        self.step = step
        self.group = group
        self.caution = caution
        self.words = words

    def as_json(self) -> Json:
        return {
            "name": self.name,
            "kind": self.kind,
            "keys": list(self.keys),
            "units": list(self.units),
            "states": list(self.states),
            "low": self.low,
            "high": self.high,
            "step": self.step,
            "group": self.group,
            "caution": self.caution or None,
            "words": list(self.words),
        }

"""A parsed case: the machine, its rounds, and everything else a check may ask."""

from . import moment, units
from .kinds import Any, Json
from .number import read_number
from .reading import Reading, parsed


class Machine:
    """The machine's plate; what is unknown is None."""

    def __init__(self, raw: Json) -> None:
        self.raw = raw

    def word(self, name: str) -> str:
        return self.raw.get(name) or ""

    def number(self, name: str) -> "float | None":
        return _plain(self.raw.get(name))

    def part(self, name: str, member: str) -> Any:
        """Return a member of a nested part (supply, fan, oil_control …) as given, None when absent."""
        part = self.raw.get(name)
        return part.get(member) if isinstance(part, dict) else None

    def part_number(self, name: str, member: str) -> "float | None":
        return _plain(self.part(name, member))

    def oil_cut_out(self) -> "float | None":
        """Return the oil control's cut-out [psi], None when the plate doesn't tell."""
        cut_out = self.part_number("oil_control", "cut_out")
        return None if cut_out is None else units.span_to_base(cut_out, self.part("oil_control", "unit") or "psi")

    def rated_voltages(self) -> "tuple[float, ...]":
        """Return the plate's rated volts, lowest first: none, one, or the two of a pair."""
        value = self.raw.get("rated_voltage")
        pair = value if isinstance(value, list) else [value]
        found = [number for number in [_plain(one) for one in pair] if number is not None]
        return tuple(sorted(found))

    def rated_voltage(self) -> "float | None":
        """Return one rated voltage: of a pair, the one nearer the supply's nominal, else the higher."""
        rated = self.rated_voltages()
        if len(rated) == 2:
            nominal = self.part_number("supply", "nominal_voltage")
            if nominal is not None and abs(rated[0] - nominal) < abs(rated[1] - nominal):
                return rated[0]
        return rated[-1] if rated else None

    def kind(self) -> str:
        """Return "welded", "open" or "semi-hermetic", "" when the type is unknown."""
        for kind in ("welded", "open", "semi-hermetic"):
            if self.word("type").startswith(kind):
                return kind
        return ""

    def form(self) -> str:
        """Return "reciprocating", "screw" or "scroll", "" when the type is unknown."""
        for form in ("reciprocating", "screw", "scroll"):
            if self.word("type").endswith(form):
                return form
        return ""

    def own_limits(self, check: str) -> "Json | None":
        """Return the machine's own limits for a check, from its bulletin, None when it has none."""
        limits = self.raw.get("limits")
        own = limits.get(check) if isinstance(limits, dict) else None
        return own if isinstance(own, dict) else None

    def atmosphere(self) -> float:
        """Return the air pressure on site [psi]: sea level when the altitude is unknown."""
        altitude = self.number("site_altitude")
        if altitude is None:
            return units.ATMOSPHERE_PSI
        unit = self.word("site_altitude_unit") or "ft"
        return units.air_pressure(units.to_base(altitude, unit))


def _plain(value: Any) -> "float | None":
    number = read_number(value)
    return None if number is None or number.bound else number.value


class Round:
    """One set of readings, parsed."""

    def __init__(self, raw: Json, readings: "list[Reading]") -> None:
        self.id = raw.get("id") or ""
        self.label = raw.get("label") or ""
        self.at_text = raw.get("at") or ""
        self.at = moment.seconds(self.at_text) if self.at_text else None
        self.readings = readings


class Call:
    """A whole case, ready for the checks. `now` is the moment judged [s since 1970 UTC], None when no time is known."""

    def __init__(self, case: Json) -> None:
        self.case = case
        self.machine = Machine(case["machine"])
        self.meters: Json = case.get("meters") or {}
        self.atmosphere = self.machine.atmosphere()
        self.complaint = case.get("complaint") or ""
        self.signs = _latest_signs(case.get("signs") or [])
        self.events: "list[Json]" = case.get("events") or []
        self.actions: "list[Json]" = case.get("actions") or []
        self.overrides: "list[Json]" = case.get("overrides") or []
        self.photos: "list[Json]" = case.get("photos") or []
        self.decision: "Json | None" = case.get("decision")
        self.rounds = [self._round(raw) for raw in case["rounds"]]
        self.history = [self._round(raw) for raw in case.get("history") or []]
        self.neighbours = [(raw, self._readings(raw)) for raw in case.get("neighbours") or []]
        self.now_text = _moment_judged(case)
        self.now = moment.seconds(self.now_text) if self.now_text else None

    def _round(self, raw: Json) -> Round:
        return Round(raw, self._readings(raw))

    def _readings(self, raw: Json) -> "list[Reading]":
        return [self.parsed(reading) for reading in raw.get("readings") or []]

    def parsed(self, raw: Json) -> Reading:
        """Return one more reading of this call."""
        return parsed(raw, self.meters, self.atmosphere)

    def sign(self, name: str) -> bool:
        """Return whether a sign was seen."""
        return self.signs.get(name) is True

    def sign_asked(self, name: str) -> bool:
        """Return whether a sign was answered at all, present or not."""
        return name in self.signs


def _latest_signs(signs: "list[Json]") -> "dict[str, bool]":
    """Return what the latest answer to each sign was; of equal times the last given counts."""
    timed = [(moment.seconds(signs[i].get("at") or "") or 0.0, i) for i in range(len(signs))]
    return {signs[i]["sign"]: signs[i]["present"] for _, i in sorted(timed)}


def _moment_judged(case: Json) -> str:
    if case.get("at"):
        return str(case["at"])
    latest, latest_text = None, ""
    for text in _times(case):
        found = moment.seconds(text) if isinstance(text, str) else None
        if found is not None and (latest is None or found > latest):
            latest, latest_text = found, text
    return latest_text


def _times(case: Json) -> "list[Any]":
    found: "list[Any]" = []
    for round_ in case["rounds"]:
        found.append(round_.get("at"))
        found.extend([reading.get("at") for reading in round_.get("readings") or []])
    for name in ("events", "actions", "photos", "overrides"):
        found.extend([item.get("at") for item in case.get(name) or []])
    return found


class Scene:
    """What a check sees: the call, and the one round it is asked about. `checks` are all there are, to ask a fellow."""

    def __init__(self, call: Call, round_: Round, checks: "tuple[Any, ...]" = ()) -> None:
        self.call = call
        self.checks = checks
        self.machine = call.machine
        self.round = round_
        self.label = round_.label

    def all(self, point: str) -> "list[Reading]":
        """Return the sound readings of a point on this machine in this round, in the order given."""
        found = []
        for reading in self.round.readings:
            if reading.point.name == point and reading.sound() and not reading.option("twin"):
                found.append(reading)
        return found

    def newest(self, point: str, state: str = "") -> "Reading | None":
        """Return the newest sound reading of a point in this round, of one state when asked."""
        chosen = None
        for reading in self.all(point):
            if state and reading.state not in ("", state):
                continue
            if chosen is None or (reading.at or 0.0) >= (chosen.at or 0.0):
                chosen = reading
        return chosen

    def nearest(self, point: str, beside: Reading, state: str = "") -> "Reading | None":
        """Return the reading of a point taken closest to another: the same time since the start, else by the clock.

        Without times it is the newest.
        """
        fitting = [reading for reading in self.all(point) if not state or reading.state in ("", state)]
        since = beside.number("since_start")
        for reading in fitting:
            if since is not None and reading.number("since_start") == since:
                return reading
        if beside.at is None:
            return self.newest(point, state)
        chosen, distance = None, 0.0
        for reading in fitting:
            apart = abs((reading.at if reading.at is not None else beside.at) - beside.at)
            if chosen is None or apart <= distance:
                chosen, distance = reading, apart
        return chosen

    def verdict_of(self, check: str, reading: Reading) -> str:
        """Return what another check says about a reading of this round, "" when it has nothing to say."""
        for fellow in self.checks:
            if fellow.name == check:
                finding = fellow.find(reading, self)
                return str(finding.verdict) if finding is not None else ""
        return ""

    def sign(self, name: str) -> bool:
        return self.call.sign(name)

"""Is the motor's own protector sound and reset?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..limits import CANNOT_TELL, COMMON_PRACTICE, FAIL, PASS, WATCH, Limit, Source
from ..own_limits import limits_for
from ..reading import Quantity, Reading
from ..uncertainty import expanded
from ..winding_temperature import winding_celsius

PTC = Source(
    "makers' bulletins: modules trip at about 4.5 kohm and reset at about 2.75 kohm; read the label",
    "",
    "",
    COMMON_PRACTICE,
)
NTC = Source(
    "makers' bulletins: an NTC falls with heat (5 kohm at 77 F); trip and reset are on the label",
    "",
    "",
    COMMON_PRACTICE,
)
CONTACT = Source("a closed protector contact reads next to nothing", "", "", COMMON_PRACTICE)
PTC_TRIP, PTC_RESET = 4500.0, 2750.0
# One cold PTC reads 20 to 250 ohm; less is a short. Source: makers' bulletins, common practice.
PTC_SHORTED = 20.0
# An NTC this low or high is shorted or open at any temperature met here. Source: common practice, no source.
NTC_SHORTED, NTC_OPEN = 20.0, 1.0e6
# A line-break protector is read through the windings, a pilot contact alone. Source: common practice, no source.
LINE_BREAK_CLOSED, PILOT_CLOSED = 100.0, 10.0
# A winding this warm is hot for its protector. Source: common practice, no source.
HOT_C = 50.0
LIMITS = (
    Limit(WATCH, PTC_RESET, None, "ohm", PTC, "ptc, while hot"),
    Limit(FAIL, PTC_TRIP, None, "ohm", PTC, "ptc"),
    Limit(FAIL, None, PTC_SHORTED, "ohm", PTC, "ptc"),
    Limit(FAIL, LINE_BREAK_CLOSED, None, "ohm", CONTACT, "line-break"),
    Limit(FAIL, PILOT_CLOSED, None, "ohm", CONTACT, "pilot"),
)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the protector by its kind, harness unplugged; what is tripped while hot is given time."""
    ohms = reading.value
    kind = scene.machine.part("protector", "kind")
    if kind is None or ohms is None:
        return cannot_tell(CHECK.name, [reading], "protector.no_kind", {}, ("machine protector.kind",))
    hot = _hot(reading, scene)
    if kind == "ptc":
        return _judged(reading, ohms, scene, _ptc_limits(scene), hot, ohms.over_limit())
    if kind == "ntc":
        return _ntc(reading, ohms, scene, hot)
    return _contact(reading, ohms, scene, kind, hot)


def _hot(reading: Reading, scene: Scene) -> bool:
    winding_c = winding_celsius(reading)
    return scene.sign("motor_still_hot") or (winding_c is not None and winding_c >= HOT_C)


def _ptc_limits(scene: Scene) -> "tuple[Limit, ...]":
    trip = scene.machine.part_number("protector", "trip")
    reset = scene.machine.part_number("protector", "reset") or (PTC_RESET if trip is None else trip)
    return (
        Limit(WATCH, reset, None, "ohm", PTC, "reset"),
        Limit(FAIL, trip or PTC_TRIP, None, "ohm", PTC, "trip"),
        Limit(FAIL, None, PTC_SHORTED, "ohm", PTC, "shorted"),
    )


def _ntc(reading: Reading, ohms: Quantity, scene: Scene, hot: bool) -> Finding:
    trip = scene.machine.part_number("protector", "trip")
    if trip is None:
        missing = ("machine protector.trip",)
        return cannot_tell(CHECK.name, [reading], "protector.no_trip", {}, missing)
    reset = scene.machine.part_number("protector", "reset") or trip
    limits = (
        Limit(WATCH, None, reset, "ohm", NTC, "reset"),
        Limit(FAIL, None, trip, "ohm", NTC, "trip"),
        Limit(FAIL, NTC_OPEN, None, "ohm", NTC, "open"),
    )
    broken = ohms.over_limit() or not NTC_SHORTED <= ohms.value <= NTC_OPEN
    return _judged(reading, ohms, scene, limits, hot, broken)


def _judged(
    reading: Reading, ohms: Quantity, scene: Scene, limits: "tuple[Limit, ...]", hot: bool, broken: bool
) -> Finding:
    """Judge a sensor: tripped while hot is its duty, tripped cold is a fault, open or shorted always is."""
    finding = decided(
        CHECK, _measured(ohms), Scale("ohm", reading.unit), limits_for(CHECK, scene, limits), [reading.id]
    )
    finding.detail["hot"] = hot
    if ohms.over_limit():
        finding.value = finding.uncertainty = None
    if broken or (finding.verdict == FAIL and ohms.value < PTC_SHORTED):
        return _set(finding, FAIL, "protector.broken")
    if finding.verdict == FAIL and hot:
        return _set(finding, CANNOT_TELL, "protector.tripped_hot")
    if finding.verdict == WATCH:
        return _set(finding, WATCH if hot else FAIL, "protector.cooling" if hot else "protector.not_reset_cold")
    if finding.verdict == FAIL:
        return _set(finding, FAIL, "protector.tripped_cold")
    return finding


def _contact(reading: Reading, ohms: Quantity, scene: Scene, kind: str, hot: bool) -> Finding:
    """Judge a contact: closed or open; an open one on a hot motor waits."""
    closed = LINE_BREAK_CLOSED if kind == "line-break" else PILOT_CLOSED
    limits = limits_for(CHECK, scene, (Limit(FAIL, closed, None, "ohm", CONTACT, kind),))
    finding = decided(CHECK, _measured(ohms), Scale("ohm", reading.unit), limits, [reading.id])
    finding.detail["hot"] = hot
    if ohms.over_limit():
        finding.value = finding.uncertainty = None
        return _set(finding, CANNOT_TELL if hot else FAIL, "protector.open_hot" if hot else "protector.open_cold")
    if finding.verdict == PASS:
        return _set(finding, PASS, "protector.closed")
    return _set(finding, finding.verdict, "protector.poor_contact")


def _measured(ohms: Quantity) -> Measured:
    measured = Measured(ohms.value, expanded([(1.0, ohms.value, ohms.doubt)]), ohms.step)
    measured.low, measured.high = ohms.interval(measured.uncertainty, ohms.value)
    if ohms.over_limit():
        measured.low = 1.0e30
    measured.bound = ohms.bound
    return measured


def _set(finding: Finding, verdict: str, key: str) -> Finding:
    values = finding.said[0][1]
    finding.verdict = verdict
    finding.said = [(key, values)]
    return finding


CHECK = Check(
    name="protector",
    reads=("protector_resistance",),
    unit="ohm",
    formula="as read, harness unplugged; ptc and ntc against trip and reset, line-break and pilot closed or open",
    limits=LIMITS,
    sources=(PTC, NTC, CONTACT),
    example={
        "machine": {"protector": {"kind": "ptc", "trip": 4500, "reset": 2750}},
        "readings": [{"point": "protector_resistance", "value": "190", "unit": "ohm", "state": "isolated"}],
        "value": 190.0,
        "tolerance": 1e-9,
        "verdict": "pass",
        "source": "handbook, case F10 and A8.4: three in series 60 to 750 ohm cold; 190 ohm after an hour",
    },
    find=find,
)

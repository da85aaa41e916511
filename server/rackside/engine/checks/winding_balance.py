"""Are the three windings alike?"""

from ..balance import Balance, balance
from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..leg import leg_json
from ..limits import CANNOT_TELL, COMMON_PRACTICE, FAIL, PASS, PUBLISHED, WATCH, Limit, Source
from ..own_limits import limits_for
from ..physics.copper import PLATE_C, at_temperature
from ..physics.winding_pattern import pattern
from ..reading import Quantity, Reading
from ..so_far import balance_so_far
from ..uncertainty import Doubt, digit_doubt
from ..units import span_to_base
from ..winding_temperature import winding_celsius

AR100 = Source(
    "ANSI/EASA AR100", "winding resistance: random wound within 2 % of the mean, motor alone", "2020", PUBLISHED
)
REPEAT = Source(
    "beyond 5 % on an able meter, leads off, taken twice: a winding fault is likely", "", "", COMMON_PRACTICE
)
LIMITS = (Limit(WATCH, 2.0, None, "%", AR100), Limit(FAIL, 5.0, None, "%", REPEAT, "leads off"))
# A winding that always stood apart by this pattern is built so. Source: ANSI/EASA AR100-2020 (concentric windings).
AS_BEFORE_PERCENT = 2.0


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the largest deviation of a winding resistance from the mean; leads on at most a watch."""
    open_pairs = [leg for leg, quantity in reading.legs if quantity.over_limit()]
    if open_pairs:
        return _open(reading, scene, open_pairs)
    legs = _without_leads(reading)
    spread = balance(legs)
    if spread is None:
        return cannot_tell(CHECK.name, [reading], "winding_balance.no_ohms")
    measured = Measured(spread.percent, spread.uncertainty, span_to_base(spread.step_percent, "%"))
    finding = decided(CHECK, measured, Scale("%", "%"), limits_for(CHECK, scene, LIMITS), [reading.id])
    finding.legs = spread.legs_json(finding.limits)
    finding.detail["pattern"] = pattern(
        [quantity.value for _, quantity in legs], spread.uncertainty, _sound(reading, scene)
    )
    finding.fits = reading.option("leads") != "on"
    _compare_with_history(finding, spread, scene)
    _through_the_cable(finding, reading)
    return finding


def _sound(reading: Reading, scene: Scene) -> "float | None":
    """Return what a sound pair would read at this winding's temperature [ohm], None when plate or heat is unknown."""
    published, winding_c = scene.machine.number("winding_resistance_25c"), winding_celsius(reading)
    if published is None or winding_c is None:
        return None
    return at_temperature(published, PLATE_C, winding_c)


def _open(reading: Reading, scene: Scene, pairs: "list[str]") -> Finding:
    finding = Finding(CHECK.name, FAIL, [reading.id])
    finding.detail["open"] = pairs
    finding.legs = [leg_json(leg, q, FAIL if q.over_limit() else PASS) for leg, q in reading.legs]
    finding.say("winding_balance.open", {"legs": pairs})
    protected = scene.machine.part("protector", "kind") == "line-break" or scene.machine.kind() == "welded"
    if reading.option("leads") != "off":
        finding.verdict = CANNOT_TELL
        finding.say("winding_balance.open_through_cable")
    elif protected or scene.sign("motor_still_hot"):
        finding.verdict = CANNOT_TELL
        finding.say("winding_balance.protector_may_be_open")
    return finding


def _without_leads(reading: Reading) -> "list[tuple[str, Quantity]]":
    """Return the legs less the resistance of the meter's own leads, when that was read."""
    zero = reading.number("lead_zero")
    if not zero:
        return reading.legs
    off = span_to_base(zero, reading.unit)
    legs = []
    for leg, quantity in reading.legs:
        doubt = Doubt(quantity.doubt.own, quantity.doubt.shared, quantity.doubt.group)
        doubt.own = (doubt.own * doubt.own + digit_doubt(quantity.step) * digit_doubt(quantity.step)) ** 0.5
        legs.append((leg, Quantity(quantity.value - off, quantity.step, "", doubt, quantity.unit, quantity.as_read)))
    return legs


def _compare_with_history(finding: Finding, spread: Balance, scene: Scene) -> None:
    """Let the machine's own earlier balance win: the same unevenness as before is how it was wound."""
    if finding.verdict not in (WATCH, FAIL):
        return
    for past in scene.call.history:
        for reading in past.readings:
            if reading.point.name != "winding_resistance" or not reading.sound() or reading.option("leads") == "on":
                continue
            before = balance(reading.legs)
            if before is None or [q for _, q in reading.legs if q.value <= 0]:
                continue
            ratios = balance([(leg, _ratio(q, reading.leg(leg))) for leg, q in spread.legs])
            if ratios is not None and ratios.percent + ratios.uncertainty <= AS_BEFORE_PERCENT:
                finding.verdict = PASS
                finding.detail["against_history_percent"] = ratios.percent
                finding.said = [("winding_balance.as_before", {"value": finding.value, "change": ratios.percent})]


def _ratio(now: Quantity, then: "Quantity | None") -> Quantity:
    assert then is not None
    value = now.value / then.value
    relative = ((now.doubt.own / now.value) ** 2 + (then.doubt.own / then.value) ** 2) ** 0.5 if now.value else 0.0
    return Quantity(value, now.step / then.value, "", Doubt(value * relative, 0.0, ""), "ratio", value)


def _through_the_cable(finding: Finding, reading: Reading) -> None:
    if reading.option("leads") != "on":
        return
    if finding.verdict == FAIL:
        finding.verdict = WATCH
    if finding.verdict != PASS:
        finding.say("winding_balance.through_cable")


def so_far(reading: Reading, scene: Scene) -> "Finding | None":
    """Show the ohms typed so far against their mean."""
    return balance_so_far(CHECK, _without_leads(reading), LIMITS, reading, scene)


CHECK = Check(
    name="winding_balance",
    reads=("winding_resistance",),
    unit="%",
    formula="100 x largest deviation of a pair from the mean / mean, lead resistance taken off",
    limits=LIMITS,
    sources=(AR100, REPEAT),
    example={
        "readings": [
            {
                "point": "winding_resistance",
                "legs": {"T1-T2": "0.523", "T2-T3": "0.527", "T3-T1": "0.525"},
                "unit": "ohm",
                "state": "isolated",
                "leads": "off",
            }
        ],
        "value": 0.38095238095238093,
        "tolerance": 1e-9,
        "verdict": "pass",
        "source": "definition as for voltage unbalance; the handbook's case F1 prints 0.4 %",
    },
    find=find,
    so_far=so_far,
)

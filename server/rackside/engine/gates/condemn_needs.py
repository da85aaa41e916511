"""What must be shown before a machine is condemned for a cause. Source: CHECKS.md, condemn table; HANDBOOK.md, C2."""

from ..finding import Finding
from ..kinds import Any
from ..limits import FAIL
from ..points.point import STOPPED
from ..timeline import LOCKED_WAIT
from ..winding_temperature import winding_celsius
from .gate import Need
from .known import Known, fails, name_of, reading_of
from .restart import oil_line_seen, warm_sump

GROUNDED_MOHM = 0.5
HOUR = 3600.0
COOLED = 4.0 * HOUR
NEAR_AMBIENT_F = 20.0
HELD_VOLTS = 0.90
LOCKED_SECONDS = 3.0
EQUAL_PSI = 10.0
WARM_OIL_F = 80.0
CLEAR_OIL = ("clear", "straw")


def needs_for(known: Known, cause: str) -> "list[Need]":
    """Return the needs of a cause, [] for one the table does not name."""
    found = _TABLE.get(cause)
    return found(known) if found is not None else []


def _signed(known: Known, sign: str, present: bool) -> "str | None":
    """Return the sign when it was answered that way; an unasked sign meets nothing."""
    return "sign:" + sign if known.call.signs.get(sign) is present else None


def _leads_off(known: Known, check: str) -> "list[tuple[float, Finding]]":
    """Return the findings of a check whose reading was taken with the leads off."""
    found = []
    for at, finding in known.findings(check):
        for point in ("insulation_resistance", "winding_resistance"):
            for reading in known.readings(point):
                if reading.id in finding.readings and reading.option("leads") == "off":
                    found.append((at, finding))
    return found


def _last(pairs: "list[tuple[float, Finding]]") -> "str | None":
    return reading_of(pairs[-1][1]) if pairs else None


def _grounded(known: Known) -> "list[Need]":
    off = _leads_off(known, "insulation")
    warm = [pair for pair in off if pair[1].detail.get("winding_c") is not None]
    electronics = known.machine.word("start") in ("drive", "soft") and not known.actions(("lead_lifted",))
    return [
        Need("leads_off", "insulation_resistance", _last(off)),
        Need("terminals_dry", "", _signed(known, "terminal_box_wet", False)),
        Need("crankcase_above_atmosphere", "crankcase_pressure", _above(known)),
        Need("winding_temperature", "insulation_resistance", _last(warm)),
        Need("two_low_readings", "insulation_resistance", _two_low(known, off)),
        Need("cable_passes", "cable_insulation_resistance", known.good("cable_insulation")),
        Need("electronics_off", "", None if electronics or not off else _last(off)),
    ]


def _above(known: Known) -> "str | None":
    reading = known.latest("crankcase_pressure")
    if reading is not None and reading.value is not None:
        return name_of(reading) if reading.value.value > 0 else None
    return _signed(known, "crankcase_above_atmosphere", True)


def _two_low(known: Known, off: "list[tuple[float, Finding]]") -> "str | None":
    """Return the second of two low readings an hour apart or by two meters, one below 0.5 Mohm or fallen far."""
    low = [pair for pair in off if pair[1].verdict == FAIL]
    deep = [pair for pair in low if _megohms(pair[1]) < GROUNDED_MOHM] or fails(known, "insulation_change")
    for place in range(1, len(low)):
        one, other = _meters(known, low[0][1]), _meters(known, low[place][1])
        two_meters = bool(one) and bool(other) and one != other
        apart = low[place][0] - low[0][0] >= HOUR or two_meters
        if apart and deep:
            return reading_of(low[place][1])
    return None


def _megohms(finding: Finding) -> float:
    """Return the value as read [Mohm], whatever unit it was read in."""
    factors = {"Mohm": 1.0, "kohm": 0.001, "ohm": 0.000001}
    return float(finding.detail.get("as_read") or 0.0) * factors.get(finding.unit or "Mohm", 1.0)


def _meters(known: Known, finding: Finding) -> "list[Any]":
    found = []
    for point in ("insulation_resistance", "winding_resistance"):
        found.extend([reading.option("meter") for reading in known.readings(point) if reading.id in finding.readings])
    return [meter for meter in found if meter]


def _shorted(known: Known) -> "list[Need]":
    failed = [pair for pair in _leads_off(known, "winding_balance") if pair[1].verdict == FAIL]
    zeroed = [r for r in known.readings("winding_resistance") if r.option("lead_zero") is not None]
    rolls = [finding for _, finding in known.findings("lead_roll")]
    follows = reading_of(rolls[-1]) if rolls and rolls[-1].detail.get("follows") == "motor" else None
    opened = [pair for pair in failed if pair[1].detail.get("open")]
    burnt = known.latest("oil_colour")
    if follows is None and opened and burnt is not None and burnt.word == "black":
        follows = reading_of(opened[-1][1])
    return [
        Need("balance_fails_twice", "winding_resistance", _last(failed) if len(failed) > 1 else None),
        Need("leads_zeroed", "winding_resistance", name_of(zeroed[-1]) if zeroed else None),
        Need("follows_motor", "running_current", follows),
    ]


def _open(known: Known) -> "list[Need]":
    opened = [pair for pair in _leads_off(known, "winding_balance") if pair[1].detail.get("open")]
    tight = [a for a in known.actions(("cleaned", "lead_lifted")) if "terminal" in str(a.get("what") or "").lower()]
    return [
        Need("open_leads_off", "winding_resistance", _last(opened)),
        Need("cooled", "winding_resistance", _cooled(known)),
        Need("terminals_tight", "", "action:" + str(tight[-1].get("id") or "cleaned") if tight else None),
    ]


def _cooled(known: Known) -> "str | None":
    """Return what shows a cold winding: a shell near ambient, or four hours since it last ran."""
    if known.call.sign("motor_still_hot"):
        return None
    ambient = known.value("ambient_temperature")
    for reading in known.readings("winding_resistance"):
        shell = winding_celsius(reading)
        if shell is not None and ambient is not None and shell * 1.8 + 32.0 <= ambient + NEAR_AMBIENT_F:
            return name_of(reading)
    ran = known.timeline.last_start()
    last = known.latest("winding_resistance")
    at = known.when(last) if last is not None else None
    return name_of(last) if last is not None and at is not None and ran is not None and at - ran >= COOLED else None


def _seized(known: Known) -> "list[Need]":
    attempts = known.timeline.locked
    apart = len(attempts) > 1 and attempts[-1] - attempts[0] >= LOCKED_WAIT
    return [
        Need("volts_held", "start_voltage", _volts_held(known)),
        Need("locked_even", "start_current", _locked_even(known)),
        Need("pressures_equal", "suction_pressure", _pressures_equal(known)),
        Need("unloaded", "", _signed(known, "commanded_unloaded", True)),
        Need("sump_temperature", "sump_temperature", warm_sump(known)),
        Need("oil_level", "oil_level", oil_line_seen(known)),
        Need("two_attempts", "start_current", "log" if apart else None),
    ]


def _volts_held(known: Known) -> "str | None":
    volts = known.latest("start_voltage")
    rated = known.machine.rated_voltage()
    if volts is None or rated is None:
        return None
    return name_of(volts) if min([q.value for q in volts.quantities()]) >= HELD_VOLTS * rated else None


def _locked_even(known: Known) -> "str | None":
    for _, finding in known.findings("start_current"):
        duration = finding.detail.get("duration") or 0.0
        if finding.said and finding.said[0][0] == "start_current.locked" and duration >= LOCKED_SECONDS:
            return reading_of(finding)
    return None


def _pressures_equal(known: Known) -> "str | None":
    suction, discharge = known.latest("suction_pressure", STOPPED), known.latest("discharge_pressure", STOPPED)
    if suction is None or discharge is None or suction.value is None or discharge.value is None:
        return None
    return name_of(suction) if abs(suction.value.value - discharge.value.value) <= EQUAL_PSI else None


def _worn(known: Known) -> "list[Need]":
    low = [pair for pair in known.findings("net_oil_pressure") if pair[1].verdict == FAIL]
    colour = known.latest("oil_colour")
    wear = name_of(colour) if colour is not None and colour.word == "glitter" else _signed(known, "knock", True)
    pump = [a for a in known.actions(("part_fitted",)) if "pump" in str(a.get("what") or "").lower()]
    return [
        Need("net_oil_low_twice", "pump_pressure", _last(low) if len(low) > 1 else None),
        Need("oil_fit_to_judge", "sump_temperature", _oil_fit(known)),
        Need("superheat_held", "suction_temperature", _superheat_held(known)),
        Need("pump_proven", "", "action:" + str(pump[-1].get("id") or "part_fitted") if pump else None),
        Need("wear_seen", "oil_colour", wear),
    ]


def _oil_fit(known: Known) -> "str | None":
    """Return the sump reading when the oil was warm, clear of liquid and at level."""
    sump, colour = known.latest("sump_temperature"), known.latest("oil_colour")
    if sump is None or sump.value is None or sump.value.value < WARM_OIL_F or known.call.sign("oil_foam"):
        return None
    clear = colour is not None and colour.word in CLEAR_OIL + ("glitter",)
    return name_of(sump) if clear and known.good("oil_level") else None


def _superheat_held(known: Known) -> "str | None":
    finding = known.standing.get("suction_superheat")
    if finding is None or finding.value is None:
        return None
    kelvin = 1.0 if finding.unit != "C" and finding.unit != "K" else 1.8
    return reading_of(finding) if finding.value * kelvin >= 20.0 else None


_TABLE: "dict[str, Any]" = {
    "grounded_winding": _grounded,
    "shorted_turns": _shorted,
    "open_winding": _open,
    "seized": _seized,
    "worn_bearings": _worn,
}

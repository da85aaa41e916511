"""Common wrong condemnations, named when their pattern shows. Source: HANDBOOK.md, C3."""

from ..call import Call
from ..kinds import Json
from ..limits import CANNOT_TELL, FAIL, PASS, WATCH
from ..say import say
from .known import Known

OUT = (WATCH, FAIL)


def _meter_balance(known: Known, call: Call) -> bool:
    for _, finding in known.findings("winding_balance"):
        if finding.verdict == CANNOT_TELL and finding.value is not None and finding.value > 2.0:
            return True
    return False


def _not_seized(known: Known, call: Call) -> bool:
    stalls = call.sign("hums_no_rotation") or bool(known.timeline.locked)
    weak = known.verdict("start_voltage_sag") == FAIL or call.sign("on_generator") or call.sign("unloader_stuck")
    lost = bool([one for _, one in known.findings("start_current") if one.detail.get("lost_leg")])
    return stalls and (weak or lost or call.sign("oil_glass_full"))


def _hot_protector(known: Known, call: Call) -> bool:
    opened = [one for _, one in known.findings("winding_balance") if one.detail.get("open")]
    return bool(opened) and opened[-1].verdict == CANNOT_TELL


def _not_grounded(known: Known, call: Call) -> bool:
    for _, finding in known.findings("insulation"):
        keys = [key for key, _ in finding.said]
        if "insulation.damp" in keys or "insulation.names_neither" in keys:
            return True
    return call.sign("leads_cleared_ground")


def _not_the_pump(known: Known, call: Call) -> bool:
    low = known.verdict("net_oil_pressure") in OUT or bool(
        [one for _, one in known.findings("net_oil_pressure") if one.detail.get("trend") and one.verdict != PASS]
    )
    diluted = call.sign("oil_foam") or call.sign("oil_glass_full") or known.verdict("suction_superheat") == FAIL
    sensor = call.sign("oil_gauge_disagrees_with_control")
    return (low and diluted) or sensor or call.sign("zero_current_before_alarm")


def _not_weak(known: Known, call: Call) -> bool:
    weak = known.verdict("current_against_expected") in OUT or known.verdict("pump_down") in OUT
    return weak and (
        call.sign("unloader_stuck") or call.sign("commanded_unloaded") or known.verdict("unloader") == FAIL
    )


def _pitted(known: Known, call: Call) -> bool:
    return call.sign("contacts_pitted") and known.verdict("pole_drop") == PASS


def _supply_not_motor(known: Known, call: Call) -> bool:
    rolls = [one.detail.get("follows") for _, one in known.findings("lead_roll")]
    from_supply = "supply" in rolls or call.sign("twins_same_pattern")
    uneven = [one for _, one in known.findings("running_current_unbalance") if one.verdict in OUT]
    volts = [one for _, one in known.findings("supply_voltage_unbalance") if one.verdict in OUT]
    return bool(uneven) and bool(volts or from_supply)


def _not_shorted(known: Known, call: Call) -> bool:
    trips = call.complaint in ("overload_trip", "breaker_trip") or call.sign("breaker_tripped")
    other = call.sign("joint_discoloured") or call.sign("second_contactor_late")
    dial = bool([one for _, one in known.findings("overload_setting") if one.verdict == FAIL])
    return trips and known.good("insulation") is not None and (other or dial)


def _fan(known: Known, call: Call) -> bool:
    hot = known.verdict("discharge_temperature") in OUT or call.complaint == "high_discharge_temperature"
    checks = ("fan_capacitance", "fan_speed", "fan_current")
    failed = [check for check in checks if [one for _, one in known.findings(check) if one.verdict == FAIL]]
    return hot and bool(failed)


PATTERNS = (
    ("unbalanced_windings", _meter_balance),
    ("seized", _not_seized),
    ("open_winding", _hot_protector),
    ("grounded", _not_grounded),
    ("bad_pump", _not_the_pump),
    ("weak_compressor", _not_weak),
    ("pitted_contactor", _pitted),
    ("motor_imbalance", _supply_not_motor),
    ("shorted_trips_breaker", _not_shorted),
    ("runs_hot", _fan),
)


def wrong_condemnations(known: Known, language: str) -> "list[Json]":
    """Return the patterns that show, each with what it usually turns out to be."""
    found = []
    for name, shows in PATTERNS:
        if shows(known, known.call):
            found.append({"pattern": name, "text": say("wrong." + name, {}, language)})
    return found

"""Case file F10 on A6: hot heads in the afternoon, and a fan capacitor that lost half its value."""

from datetime import timedelta

from ..people import CASTELLANOS, LINDQVIST
from ..story import Story
from ..visit import READY_TO_START, Visit


def write(story: Story) -> None:
    visit = Visit(story, "F10", "A6", LINDQVIST, story.day(124, "14:10"))
    reported = "Head temperature lockout on hot afternoons; always cold again by the time anybody comes."
    visit.open("high_discharge_temperature", reported, CASTELLANOS).wait(45)
    visit.event("head_temperature", "trip", visit.at - timedelta(minutes=52), "A6 HEAD TEMP", motor_ran=True)
    visit.signs("motor_turned", "trips_when_hot", *READY_TO_START).absent("all_machines_hot", "condenser_dirty")
    _as_found(visit)
    _stopped(visit.wait(65))
    fitted = visit.action("part_fitted", "head fan capacitor 5 uF", "2.6 uF", "5.0 uF")
    _as_left(visit.wait(40))
    visit.decide("restart", "head_fan", "Capacitor read 2.6 of 5.0 uF; the fan turned at 610 rpm.", 14, fitted)
    visit.line("part", "Fan capacitor 5 uF", "1", "11.50")
    visit.line("labour", "Head temperature lockout, A6", "3", "112.00")
    of = visit.submit("Check the other five head fan capacitors; acid test in 14 days, the oil was heated.")
    visit.review(of, "accepted", "Yearly capacitor check added for rack A.")


def _as_found(visit: Visit) -> None:
    found = visit.round("as_found")
    found.value("suction_pressure", "9", "psig", "running")
    found.value("discharge_pressure", "230", "psig", "running")
    found.value("suction_temperature", "0", "F", "running", probe="clamp")
    found.value("injection_coil_voltage", "118", "V", "running")
    found.value("injection_line", "cold", "", "running")
    found.value("discharge_temperature", "246", "F", "running", probe="insulated_clamp")
    twin = {"tag": "A3", "like": True, "running": True}
    found.value("discharge_temperature", "214", "F", "running", probe="insulated_clamp", neighbour=twin)
    found.value("fan_voltage", "231", "V", "running")
    found.value("fan_current", "1.41", "A", "running")
    found.value("fan_speed", "610", "rpm", "running")
    found.legs("running_current", "24.6 24.9 24.4", "A", "running", load="full")
    found.legs("line_voltage", "476 474 475", "V", "running")
    found.net_oil(31, 9)
    found.value("protector_resistance", "1.9", "kohm", "stopped")


def _stopped(visit: Visit) -> None:
    dead = visit.round("interim")
    dead.value("protector_resistance", "190", "ohm", "isolated")
    dead.value("fan_capacitance", "2.6", "uF", "isolated")
    shell = {"winding_temperature": "95", "winding_temperature_unit": "F", "leads": "off"}
    dead.value("insulation_resistance", "380", "Mohm", "isolated", test_voltage=500, seconds=60, **shell)


def _as_left(visit: Visit) -> None:
    left = visit.round("as_left")
    left.value("fan_capacitance", "5.0", "uF", "isolated")
    left.value("fan_current", "0.86", "A", "running")
    left.value("fan_speed", "1540", "rpm", "running")
    left.value("discharge_temperature", "212", "F", "running", probe="insulated_clamp")
    left.legs("running_current", "24.5 24.8 24.3", "A", "running", load="full")
    left.legs("line_voltage", "476 475 475", "V", "running")
    left.value("suction_pressure", "9", "psig", "running")
    left.value("discharge_pressure", "230", "psig", "running")
    left.net_oil(32, 9)

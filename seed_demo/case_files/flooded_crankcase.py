"""Case file F6 on A1: a new pump in a flooded crankcase; sent, and waiting for the office."""

from datetime import timedelta

from ..people import CASTELLANOS, OKAFOR
from ..story import Story
from ..visit import Visit


def write(story: Story) -> None:
    visit = Visit(story, "F6", "A1", OKAFOR, story.day(1, "04:35"))
    reported = (
        "Oil failure at 04:20 after defrost, second morning running. Oil pump was replaced the day before yesterday."
    )
    visit.open("oil_trip", reported, CASTELLANOS)
    for days in (1, 0):
        visit.event(
            "oil_control", "trip", visit.at - timedelta(days=days, minutes=15), "A1 OIL FAILURE", motor_ran=True
        )
    visit.wait(50)
    visit.signs(
        "oil_glass_full", "frost_on_crankcase", "heater_cold", "bulb_loose", "oil_foam", "knock", "motor_turned"
    )
    visit.signs("terminal_cover_on")
    visit.signs("valves_stated", note="suction and discharge service valves back-seated, oil equaliser open")
    visit.photo(
        "alarm", "controller at arrival, before any reset", "display", "A1 OIL FAILURE", "04:20:31", "LOCKED OUT"
    )
    _stopped(visit)
    _run(visit)
    _warm(visit.wait(180))
    _repair(visit)
    _as_left(visit)
    visit.decide(
        "repair",
        "floodback",
        "Crankcase heater open and the bulb of freezer 4 off its line: liquid came back. "
        "With a warm, clear sump the same pump holds 33 psid.",
        watch_days=7,
    )
    visit.line("part", "Crankcase heater 100 W 120 V", "1", "84.00")
    visit.line("part", "Bulb strap with insulation", "2", "6.40")
    visit.line("labour", "Oil trip, A1: heater, bulb strap, warm-up and run-in", "6", "112.00")
    visit.line("travel", "Night call, both ways", "1", "95.00")
    visit.line("quote", "Check the bulbs of the other five freezers, sample the oil of A1", "1", "480.00")
    visit.signed("S. Whitlow", "night desk")
    visit.submit(
        "The pump was never bad. No oil added. "
        "Watch two defrosts; acid and glitter check in 7 days, the bearings were washed."
    )


def _stopped(visit: Visit) -> None:
    visit.marked("machine", "staged", "locked", "tried", "waited")
    visit.left_out("control", "nothing open in the string: the oil control alone had tripped")
    found = visit.round("as_found")
    level = found.value("oil_level", "1", "fraction", "stopped")
    visit.photo("oil", "glass of A1: full, no line to be seen", "glass", "1", of=level)
    found.value("heater_voltage", "119", "V", "stopped")
    found.value("heater_current", "0.00", "A", "stopped")
    found.value("sump_temperature", "38", "F", "stopped")
    found.value("ambient_temperature", "62", "F")
    cold = {"winding_temperature": "38", "winding_temperature_unit": "F", "leads": "off"}
    found.value("insulation_resistance", "14", "Mohm", "isolated", test_voltage=500, seconds=60, **cold)
    found.legs("line_voltage", "478 479 477", "V", "stopped")


def _run(visit: Visit) -> None:
    run = visit.round("interim")
    run.legs("running_current", "29.8 30.1 29.5", "A", "running")
    for seconds, net in ((5, 38), (20, 24), (60, 12), (110, 7)):
        run.net_oil(net, 10, since_start=seconds)
    run.value("suction_pressure", "10", "psig", "running")
    run.value("suction_temperature", "-16", "F", "running", probe="clamp")
    run.value("sump_temperature", "41", "F", "running")


def _warm(visit: Visit) -> None:
    warm = visit.round("interim")
    dry = {"winding_temperature": "84", "winding_temperature_unit": "F", "leads": "off"}
    warm.value("insulation_resistance", "310", "Mohm", "isolated", test_voltage=500, seconds=60, **dry)


def _repair(visit: Visit) -> None:
    visit.photo("part", "bulb of freezer 4, off its line", "bulb")
    visit.action("part_fitted", "crankcase heater", "0.00 A at 119 V", "0.83 A at 119 V")
    visit.action(
        "part_fitted", "strap and insulation on the bulb of freezer 4", "strap loose, bulb off the line", "strapped"
    )


def _as_left(visit: Visit) -> None:
    left = visit.round("as_left")
    left.value("heater_voltage", "119", "V", "stopped")
    left.value("heater_current", "0.83", "A", "stopped")
    left.value("sump_temperature", "84", "F", "stopped")
    for seconds, net in ((300, 34), (900, 34), (3600, 33)):
        left.net_oil(net, 10, since_start=seconds)
    left.legs("line_voltage", "476 477 475", "V", "running")
    left.legs("running_current", "24.7 25.0 24.5", "A", "running", load="full")
    left.value("suction_pressure", "10", "psig", "running")
    left.value("discharge_pressure", "212", "psig", "running")
    left.value("suction_temperature", "9", "F", "running", probe="clamp")
    left.value("sump_temperature", "102", "F", "running")
    left.value("oil_level", "0.5", "fraction", "running")
    left.value("oil_colour", "clear")

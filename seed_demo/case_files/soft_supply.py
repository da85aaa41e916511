"""Case file F2 on B2: an unbalance that follows the supply, and the charger bank behind it."""

from datetime import timedelta

from ..people import CASTELLANOS, OKAFOR
from ..story import Story
from ..visit import READY_TO_START, Visit


def write(story: Story) -> None:
    visit = Visit(story, "F2", "B2", OKAFOR, story.day(58, "17:05"))
    reported = "Protection module locks out on current unbalance, mostly between 18:00 and 02:00."
    visit.open("unbalanced_current", reported, CASTELLANOS).wait(80)
    visit.signs("module_locked_out", "motor_turned", "twins_same_pattern", *READY_TO_START)
    visit.event("module", "trip", visit.at - timedelta(hours=20), "B2 MODULE LOCKOUT", motor_ran=True)
    _as_found(visit)
    _roll(visit)
    _switchboard(visit)
    _as_left(visit)
    visit.decide(
        "run_under_watch",
        "voltage_unbalance",
        "Single-phase charger bank on L1-L2 pulls the feed down. "
        "Motor and contactor read even; the high leg stayed with the line.",
        watch_days=14,
    )
    visit.line("labour", "Unbalance at B2: measurements at machine and switchboard", "4", "112.00")
    visit.line("quote", "Electrician: spread the forklift chargers over three phases", "1", "1860.00")
    of = visit.submit("Until the electrician has been: chargers off between 18:00 and 02:00. Module left in service.")
    visit.review(of, "accepted", "Charger schedule agreed with the night desk.")


def _as_found(visit: Visit) -> None:
    found = visit.round("as_found")
    found.legs("line_voltage", "461 475 472", "V", "running")
    wrong = found.legs("running_current", "39.2 35.4 36.1", "A", "running", roll=0, load="full")
    found.correct(wrong, legs={"L1": "39.2", "L2": "35.4", "L3": "31.6"})
    found.legs(
        "running_current", "38.4 35.0 31.5", "A", "running", neighbour={"tag": "B3", "like": True, "running": True}
    )
    found.value("suction_pressure", "40", "psig", "running")
    found.value("discharge_pressure", "225", "psig", "running")
    found.legs("pole_drop", "44 41 40", "mV", "running")
    found.legs("fuse_drop", "28 31 27", "mV", "running")
    found.net_oil(31, 40)


def _roll(visit: Visit) -> None:
    visit.wait(12)
    rolled = visit.action("leads_rolled", "motor leads one place", "T1 on L1", "T1 on L2")
    visit.wait(8)
    visit.round("interim").legs("running_current", "38.9 35.6 31.7", "A", "running", roll=1)
    visit.wait(10)
    visit.action("leads_rolled", "motor leads back", "T1 on L2", "T1 on L1", closes=rolled)


def _switchboard(visit: Visit) -> None:
    board = visit.round("interim")
    shell = {"winding_temperature": "75", "winding_temperature_unit": "F", "leads": "off"}
    board.legs("winding_resistance", "0.402 0.404 0.403", "ohm", "isolated", lead_zero=True, **shell)
    board.value("insulation_resistance", "900", "Mohm", "isolated", test_voltage=500, seconds=60, **shell)
    visit.wait(10)
    board.legs("line_voltage", "462 475 473", "V", "stopped", where="source")


def _as_left(visit: Visit) -> None:
    visit.wait(15)
    left = visit.round("as_left")
    left.legs("line_voltage", "478 480 479", "V", "stopped", where="source")
    left.legs("line_voltage", "477 479 478", "V", "running")
    left.legs("running_current", "34.9 35.2 34.6", "A", "running", roll=0, load="full")
    left.value("suction_pressure", "40", "psig", "running")
    left.value("discharge_pressure", "226", "psig", "running")
    left.legs("pole_drop", "43 41 40", "mV", "running")
    left.net_oil(31, 40)

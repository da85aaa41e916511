"""Case file F4 on B1: a pitted contactor that is good, and an oil regulator strainer that is not."""

from ..people import CASTELLANOS, OKAFOR
from ..story import Story
from ..visit import READY_TO_START, Visit


def write(story: Story) -> None:
    visit = Visit(story, "F4", "B1", OKAFOR, story.day(5, "06:20"))
    reported = "Oil failure lockout. Night note: contactor pitted, replacement to be quoted, oil trip from chatter."
    visit.open("oil_trip", reported, CASTELLANOS).wait(70)
    visit.signs("contacts_pitted", "motor_turned", "oil_low_here_only", "regulator_strainer_cold").absent(
        "oil_foam", "contactor_chatter"
    )
    visit.signs(*READY_TO_START)
    visit.event("oil_control", "trip", visit.story.day(5, "05:58"), "B1 OIL FAILURE", motor_ran=True)
    _switchgear(visit)
    visit.photo("panel", "contacts of B1: even grey pitting, all alike", "contacts")
    _oil(visit)
    visit.photo("part", "oil regulator strainer of B1 as found", "strainer", "packed")
    cleaned = visit.wait(25).action(
        "cleaned", "oil regulator strainer of B1", "packed with copper-coloured sludge", "clean"
    )
    visit.photo("part", "the same strainer, cleaned", "strainer", "clean")
    _as_left(visit.wait(63))
    visit.decide(
        "repair",
        "oil_regulator",
        "Strainer was plugged; the glass rose to a half in 18 min with no oil added. "
        "Contactor poles read 38 to 44 mV and alike: keep it.",
        watch_days=14,
        repair=cleaned,
    )
    visit.line("labour", "Oil trip, B1: switchgear and oil tests, strainer cleaned, run-in", "4.5", "112.00")
    visit.line("quote", "Clean the other four regulator strainers on rack B, sample the oil", "1", "640.00")
    visit.signed("S. Whitlow", "night desk")
    of = visit.submit("No contactor. Pole readings kept for the trend.")
    visit.review(of, "accepted", "Contactor quote withdrawn; strainers of B2 to B5 quoted.", 4)


def _switchgear(visit: Visit) -> None:
    found = visit.round("as_found")
    found.legs("line_voltage", "477 478 475", "V", "running")
    found.legs("running_current", "30.5 30.8 30.2", "A", "running", load="full")
    found.legs("pole_drop", "38 41 44", "mV", "running")
    found.value("suction_pressure", "38", "psig", "running")
    found.value("discharge_pressure", "205", "psig", "running")
    found.value("coil_voltage", "112", "V", "running", called=True, moment="pull_in")
    found.value("coil_voltage", "118", "V", "running", called=True, moment="sealed")
    twice = found.value("reservoir_level", "0.75", "fraction", "running")
    found.value("reservoir_level", "0.75", "fraction", "running")
    visit.write("retraction", {"of": twice, "why": "entered twice"})


def _oil(visit: Visit) -> None:
    oil = visit.round("interim")
    oil.net_oil(29, 38, since_start=60)
    oil.value("oil_level", "0.1", "fraction", "running")
    for tag in ("B2", "B3", "B4", "B5"):
        like = {"tag": tag, "like": tag != "B4", "running": True}
        oil.value("oil_level", "0.5", "fraction", "running", neighbour=like)
    oil.value("reservoir_pressure", "60", "psig", "running")
    oil.value("suction_pressure", "38", "psig", "running")
    oil.value("suction_temperature", "41", "F", "running", probe="clamp")
    oil.value("sump_temperature", "118", "F", "running")
    oil.net_oil(11, 38, since_start=600)


def _as_left(visit: Visit) -> None:
    left = visit.round("as_left")
    left.legs("line_voltage", "478 478 476", "V", "running")
    left.legs("running_current", "30.6 30.8 30.3", "A", "running", load="full")
    left.legs("pole_drop", "38 41 44", "mV", "running")
    left.value("oil_level", "0.5", "fraction", "running")
    left.value("suction_pressure", "38", "psig", "running")
    left.value("discharge_pressure", "206", "psig", "running")
    left.net_oil(31, 38, since_start=2700)
    left.value("oil_acid", "negative")

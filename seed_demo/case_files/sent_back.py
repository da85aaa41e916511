"""A visit to B5 that the office sent back: a reading without the condition that gives it meaning."""

from ..people import LINDQVIST
from ..story import Story
from ..visit import Visit


def write(story: Story) -> None:
    visit = Visit(story, "sent back", "B5", LINDQVIST, story.day(3, "10:05")).open("routine")
    found = visit.round("as_found")
    found.legs("line_voltage", "477 479 478", "V", "running")
    found.legs("running_current", "33.6 33.9 33.4", "A", "running")
    found.legs("pole_drop", "47 49 46", "mV", "running")
    found.net_oil(30, 41)
    found.value("oil_level", "0.5", "fraction", "running")
    left = visit.wait(20).round("as_left")
    left.value("insulation_resistance", "520", "Mohm", "isolated", test_voltage=500, seconds=60, leads="off")
    of = visit.submit()
    visit.review(
        of,
        "returned",
        "The insulation reading has no winding temperature. Take it again with the shell temperature beside it.",
        5,
    )

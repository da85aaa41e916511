"""Case file F7 on B3: today's open call, still without a reading."""

from ..people import CASTELLANOS, OKAFOR
from ..story import Story
from ..visit import Visit


def write(story: Story) -> None:
    visit = Visit(story, "F7", "B3", OKAFOR, story.ago(minutes=35))
    visit.open("oil_trip", "Oil failure B3, reset three times by night staff, will not stay.", CASTELLANOS)

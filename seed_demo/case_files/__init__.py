"""The handbook's case files as calls of the past year, and the one that is open today."""

from ..story import Story
from . import contactor_kept, dial_turned_down, fan_capacitor, flooded_crankcase, never_ran, sent_back, soft_supply

CASES = (fan_capacitor, soft_supply, dial_turned_down, contactor_kept, sent_back, flooded_crankcase, never_ran)


def write_cases(story: Story) -> None:
    for case in CASES:
        case.write(story)

"""What an uneven current follows when the leads are rolled. Tables: EASA and maintenance press."""

import pytest

from tests.engine.electrical_readings import MACHINE, found, legs
from tests.engine.judging import finding, findings, judge, judge_case


def at(roll, *amps, **about):
    return legs("running_current", *amps, roll=roll, **about)


def test_case_f2_stays_with_the_line():
    told = found("lead_roll", at(0, "39.2", "35.4", "31.6"), at(1, "38.9", "35.6", "31.7"))
    assert told["detail"]["follows"] == "supply"
    assert (told["verdict"], told["value"], told["limits"]) == ("pass", None, [])


def test_one_step_that_moves_with_the_motor_lead():
    # worked_examples.json 6.3: 5.1/6.2/4.8 before; A to B, B to C, C to A after: 4.8/5.1/6.2.
    told = found("lead_roll", at(0, "5.1", "6.2", "4.8"), at(1, "4.8", "5.1", "6.2"))
    assert told["detail"]["follows"] == "motor"


def test_three_positions_by_row_and_column_sums():
    # worked_examples.json 6.5: line sums 141, 127, 127; motor sums 137, 132, 126; supply. The page writes its positions
    # as A-1 B-2 C-3, A-2 B-3 C-1, A-3 B-1 C-2: lead 2 on line A is our roll 2, lead 3 on line A our roll 1.
    told = found("lead_roll", at(0, "49", "44", "39"), at(2, "44", "39", "44"), at(1, "48", "44", "44"))
    assert told["detail"]["line_sums"] == [141, 127, 127]
    assert told["detail"]["motor_sums"] == [137, 132, 126]
    assert told["detail"]["follows"] == "supply"


def test_neither_within_what_the_meter_tells_and_when_nothing_is_uneven():
    assert found("lead_roll", at(0, "30", "31", "30"), at(1, "30", "30", "31"))["detail"]["follows"] == "neither"
    even = found("lead_roll", at(0, "30.1", "30.2", "30.0"), at(1, "30.2", "30.0", "30.1"))
    assert even["detail"]["follows"] == "neither"


def test_an_ordinary_reading_is_no_roll():
    assert findings(judge(MACHINE, [at(0, "39.2", "35.4", "31.6")]), "lead_roll") == []


def test_the_position_before_is_asked_for_and_may_be_in_an_earlier_round():
    told = found("lead_roll", at(1, "38.9", "35.6", "31.7"))
    assert (told["verdict"], told["missing"]) == ("cannot_tell", ["running_current roll 0"])
    rounds = [
        {"label": "as_found", "readings": [at(0, "39.2", "35.4", "31.6")]},
        {"label": "interim", "readings": [at(1, "38.9", "35.6", "31.7")]},
    ]
    across = finding(judge_case({"machine": MACHINE, "rounds": rounds}), "lead_roll")
    assert across["detail"]["follows"] == "supply"


@pytest.mark.parametrize("roll", [3, -1, 1.5])
def test_other_rolls_are_refused(roll):
    assert found("lead_roll", at(roll, "38.9", "35.6", "31.7"))["verdict"] == "cannot_tell"

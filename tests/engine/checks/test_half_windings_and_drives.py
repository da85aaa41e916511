"""Part-winding sums, drive inputs and code letters in the checks of amps."""

import pytest

from tests.engine.electrical_readings import MACHINE, found, legs

PART_WINDING = {**MACHINE, "start": "part-winding"}
DRIVE = {**MACHINE, "start": "drive"}


def test_the_balance_is_that_of_the_sums():
    # 29, 29, 26 A: mean 28, largest deviation 2, 7.14 %.
    halves = legs("half_current", "14.5", "14.5", "14.5", "14.5", "14.5", "11.5", state="running")
    finding = found("running_current_unbalance", halves, machine=PART_WINDING)
    assert finding["value"] == pytest.approx(100 * 2 / 28)
    assert finding["verdict"] == "watch"


def test_a_rectifiers_uneven_input_is_no_motor_fault():
    finding = found("running_current_unbalance", legs("running_current", "20.0", "26.0", "21.0"), machine=DRIVE)
    assert (finding["verdict"], finding["missing"]) == ("cannot_tell", ["drive_output_current"])
    output = legs("drive_output_current", "20.0", "26.0", "21.0", state="running")
    assert found("running_current_unbalance", output, machine=DRIVE)["verdict"] == "fail"


def start(amps, **plate):
    machine = {"rated_voltage": 460, "start": "across-the-line", **plate}
    volts = legs("start_voltage", "460", "460", "460")
    return found("start_current", legs("start_current", amps, amps, amps, duration=0.3), volts, machine=machine)


def test_a_code_letter_stands_in_for_a_locked_rotor_current():
    # NEC Table 430.7(B): G is 5.6 to 6.29 kVA/hp; 20 hp at 460 V is 140.6 to 157.9 A, 149.2 A in the middle.
    finding = start("120", code_letter="G", horsepower=20)
    assert finding["detail"]["expected"] == pytest.approx(149.2, abs=0.05)
    assert finding["detail"]["locked_rotor_by"] == "code_letter"
    assert finding["verdict"] == "pass"
    assert finding["uncertainty"] > start("120", locked_rotor_current=149.2)["uncertainty"]


def test_the_plates_own_current_goes_first_and_an_endless_letter_says_nothing():
    assert start("120", locked_rotor_current=175, code_letter="G", horsepower=20)["detail"]["expected"] == 175
    assert start("120", code_letter="V", horsepower=20)["missing"] == ["machine locked_rotor_current"]


@pytest.mark.parametrize("point", ["pole_drop", "joint_drop"])
def test_a_contactor_of_one_half_goes_with_the_amps_of_that_half(point):
    # 40 mV at 8.5 A of half 2 is 4.7 mohm, 80 mV at its half of the rated 34 A.
    halves = legs("half_current", "17.0", "17.0", "17.0", "8.5", "8.5", "8.5", state="running")
    finding = found(point, legs(point, "40", "39", "40", half=2), halves, machine=PART_WINDING)
    assert finding["legs"][0]["judged"] == pytest.approx(80.0)
    assert finding["legs"][0]["mohm"] == pytest.approx(40 / 8.5)

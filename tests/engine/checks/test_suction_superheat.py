"""Superheat: suction line above the dew temperature; liquid coming back is believed only when it is confirmed."""

import pytest
from uncertainties import ufloat, wrap

from rackside.engine.physics.refrigerant import dew_temperature
from tests.engine.judging import findings, judge_case
from tests.engine.plant_readings import LOW, MEDIUM, SCROLL, found, read, silent

FIRST, LATER, TOO_SOON = "2026-10-14T21:00:00-05:00", "2026-10-14T21:05:00-05:00", "2026-10-14T21:04:00-05:00"


def superheat(machine, fahrenheit, psig="10", *others, **more):
    """A finding on a suction line at a suction pressure of 10 psig: R-448A, dew -19.2 F (CoolProp)."""
    line = read("suction_temperature", fahrenheit, "F", **more)
    return found("suction_superheat", machine, line, read("suction_pressure", psig, "psig"), *others)


# worked_examples.json 9.45 to 9.51 (CoolProp 8.0.0, dew): refrigerant, psig, line F, superheat F. Agreement: 0.02 F.
@pytest.mark.parametrize(
    ("refrigerant", "psig", "line", "expected"),
    [
        ("R-404A", "33", "20", 19.6),
        ("R-22", "43.1", "40", 20.0),
        ("R-449A", "20", "25", 29.88),
        ("R-507A", "20", "25", 41.78),
    ],
)
def test_handbook_examples(refrigerant, psig, line, expected):
    told = superheat({**LOW, "refrigerant": refrigerant}, line, psig)
    assert told["value"] == pytest.approx(expected, abs=0.05)
    assert told["unit"] == "F"


# CHECKS.md, suction_superheat; lines at 10 psig of R-448A, so superheat is line + 19.2 F.
@pytest.mark.parametrize(
    ("machine", "line", "verdict"),
    [
        (LOW, "5", "pass"),  # 24
        (LOW, "38", "pass"),  # 57
        (LOW, "-5", "watch"),  # 14
        (LOW, "45", "watch"),  # 64
        (MEDIUM, "-1", "pass"),  # 18
        (MEDIUM, "-6", "watch"),  # 13
        (MEDIUM, "25", "watch"),  # 44
        (SCROLL, "-6", "pass"),  # 13: from 10
        ({**LOW, "type": "semi-hermetic-screw"}, "-6", "pass"),
        (SCROLL, "25", "watch"),
    ],
)
def test_bands_by_application(machine, line, verdict):
    assert superheat(machine, line)["verdict"] == verdict


@pytest.mark.parametrize(("line", "verdict"), [("33", "pass"), ("50", "pass"), ("60", "watch")])
def test_r744_has_its_own_band(line, verdict):
    """R-744 at 407 psig: dew 20 F; 13, 30 and 40 F of superheat against 10 to 36."""
    assert superheat({**MEDIUM, "refrigerant": "R-744"}, line, "407")["verdict"] == verdict


def test_liquid_seen_once_is_a_watch_that_asks_again():
    told = superheat(LOW, "-16")
    assert told["verdict"] == "watch"
    assert "again in 5 min" in told["because"]
    assert any(limit["verdict"] == "fail" and limit["below"] == 10 for limit in told["limits"])


def test_liquid_with_a_cold_sump_beside_it_fails():
    """Handbook case F6: superheat 3 F and a sump of 41 F."""
    assert superheat(LOW, "-16", "10", read("sump_temperature", "41", "F"))["verdict"] == "fail"


def test_a_warm_sump_beside_it_confirms_nothing():
    assert superheat(LOW, "-16", "10", read("sump_temperature", "110", "F"))["verdict"] == "watch"


@pytest.mark.parametrize(("second", "verdict"), [(LATER, "fail"), (TOO_SOON, "watch")])
def test_two_readings_five_minutes_apart_confirm(second, verdict):
    again = read("suction_temperature", "-15", "F", at=second)
    assert superheat(LOW, "-16", "10", again, at=FIRST)["verdict"] == verdict


def test_the_second_reading_may_stand_in_another_round():
    rounds = [
        {
            "label": label,
            "readings": [read("suction_temperature", "-16", "F", at=at), read("suction_pressure", "10", "psig", at=at)],
        }
        for label, at in (("as_found", FIRST), ("interim", LATER))
    ]
    result = judge_case({"machine": LOW, "rounds": rounds})
    assert [one["verdict"] for one in findings(result, "suction_superheat")] == ["fail", "fail"]


@pytest.mark.parametrize(("psig", "application"), [("10", "low"), ("50", "medium")])
def test_application_taken_from_the_saturated_suction_is_said(psig, application):
    machine = {key: value for key, value in LOW.items() if key != "application"}
    told = superheat(machine, "45", psig)
    assert told["detail"]["application"] == application
    assert f"Judged as {application} temperature" in told["because"]


def test_answers_in_celsius():
    line = read("suction_temperature", "-15", "C")
    told = found("suction_superheat", LOW, line, read("suction_pressure", "69", "kPa"))
    assert told["unit"] == "C"
    # 69 kPa gauge is 10.01 psig, dew -28.4 C
    assert told["value"] == pytest.approx(13.45, abs=0.05)
    assert min(limit["below"] for limit in told["limits"] if "below" in limit) == pytest.approx(10 / 1.8)


def test_altitude_lowers_the_boiling_point():
    """5,000 ft has 12.23 psia: 10 psig is 22.23 psia, whose dew temperature CoolProp gives as -23.5 F."""
    told = superheat({**LOW, "site_altitude": 5000, "site_altitude_unit": "ft"}, "5")
    assert told["detail"]["saturated"] == pytest.approx(dew_temperature("R-448A", 22.23), abs=0.05)
    assert told["value"] == pytest.approx(5 - dew_temperature("R-448A", 22.23), abs=0.05)


def test_uncertainty_is_that_of_the_uncertainties_package():
    line, psig = ufloat(5, 1 / 12**0.5), ufloat(10, 1 / 12**0.5)
    expected = line - wrap(lambda psi: dew_temperature("R-448A", psi))(psig + 14.696)
    told = superheat(LOW, "5")
    assert told["value"] == pytest.approx(expected.nominal_value, abs=1e-9)
    assert told["uncertainty"] == pytest.approx(2 * expected.std_dev, rel=1e-4)


def test_an_infrared_probe_cannot_tell():
    told = superheat(LOW, "5", probe="infrared")
    assert told["verdict"] == "cannot_tell"
    assert "clamp probe" in told["because"]


def test_a_standing_machine_has_no_superheat():
    assert silent("suction_superheat", LOW, read("suction_temperature", "60", "F") | {"state": "stopped"})


def test_what_is_missing_is_named():
    line, pressure = read("suction_temperature", "5", "F"), read("suction_pressure", "10", "psig")
    assert found("suction_superheat", LOW, line)["missing"] == ["suction_pressure"]
    nameless = {"type": LOW["type"]}
    assert found("suction_superheat", nameless, line, pressure)["missing"] == ["machine refrigerant"]


def test_beyond_the_table_it_cannot_tell():
    told = superheat(LOW, "5", "700")
    assert told["verdict"] == "cannot_tell"
    assert "outside the table" in told["because"]


def test_the_machines_own_limit_wins():
    own = {"suction_superheat": {"unit": "C", "watch": {"above": 10}, "fail": {"below": 4}, "source": "bulletin 7"}}
    told = superheat({**LOW, "limits": own}, "5")
    assert told["verdict"] == "watch"
    assert "bulletin 7" in told["because"]
    assert [limit["above"] for limit in told["limits"] if "above" in limit] == [pytest.approx(18)]


def test_colder_than_saturation_is_not_judged_but_explained():
    told = superheat(LOW, "-40", "40")
    assert told["verdict"] == "cannot_tell"
    assert "gauge's zero" in told["because"]


def test_between_the_lines_of_a_blend_is_flooding_and_not_a_slip():
    """R-448A at 10 psig boils from -31.9 F (bubble) to -19.2 F (dew): a line at -25 F carries both phases."""
    assert superheat(LOW, "-25", "10", read("sump_temperature", "41", "F"))["verdict"] == "fail"


@pytest.mark.parametrize(
    ("line", "pressure", "hint"),
    [
        (("-30", "C"), ("40", "psig"), ""),
        (("-25", "F"), ("20", "psig"), "absolute instead of gauge"),  # dew -33 F at 20 psia
        (("30", "F"), ("14", "psia"), "gauge reading instead of an absolute"),  # 82 F over it; 54 F at 14 psig
        (("-10", "F"), ("20", "inHg_vac"), ""),
        (("25", "C"), ("10", "psig"), "°F it would fit"),
        (("8", "F"), ("60", "psig"), "°C it would fit"),
    ],
)
def test_another_unit_that_would_fit_is_named(line, pressure, hint):
    machine = {**LOW, "refrigerant": "R-404A"}
    told = found("suction_superheat", machine, read("suction_temperature", *line), read("suction_pressure", *pressure))
    assert hint in told["because"]
    assert bool(hint) == ("would fit" in told["because"])


def test_a_vacuum_with_a_minus_sign_is_sent_back():
    told = found(
        "suction_superheat", LOW, read("suction_temperature", "5", "F"), read("suction_pressure", "-10", "inHg_vac")
    )
    assert told["verdict"] == "cannot_tell"
    assert "without a minus sign" in told["because"]


def test_less_than_nothing_is_sent_back():
    high = {**LOW, "site_altitude": 8000, "site_altitude_unit": "ft"}
    told = found(
        "suction_superheat", high, read("suction_temperature", "5", "F"), read("suction_pressure", "-12", "psig")
    )
    assert "perfect vacuum" in told["because"]

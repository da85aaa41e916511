"""Insulation against the colder reading, else history, both at 40 C by IEEE 43 (halving per 10 K)."""

import pytest

from tests.engine.electrical_readings import MACHINE, found, value
from tests.engine.judging import findings, judge


def megohms(read, winding_c, **about):
    more = {"leads": "off", "winding_temperature": winding_c, "winding_temperature_unit": "C", **about}
    return value("insulation_resistance", read, **more)


def against(before, now, machine=MACHINE):
    history = [{"at": "2026-01-10T10:00:00Z", "readings": [before]}]
    return found("insulation_change", now, machine=machine, history=history)


# 400 Mohm at 20 C is 100 at 40 C (worked_examples.json 4.5 in proportion).
@pytest.mark.parametrize(
    ("now", "expected", "verdict"),
    [("90.0", 0.9, "pass"), ("60.0", 0.6, "pass"), ("40.0", 0.4, "watch"), ("15.0", 0.15, "fail")],
)
def test_against_history(now, expected, verdict):
    finding = against(megohms("400", 20), megohms(now, 40))
    assert finding["value"] == pytest.approx(expected)
    assert (finding["verdict"], finding["unit"]) == (verdict, "ratio")


def test_a_fall_that_leaves_100_megohms_is_watched_not_failed():
    assert against(megohms("4000", 20), megohms("120", 40))["verdict"] == "watch"


def test_bounds_widen_when_more_than_30_kelvin_apart():
    # 0.3 at like temperature is a watch; 31 K and more apart the bound is 0.25.
    assert against(megohms("400", 20), megohms("30.0", 40))["verdict"] == "watch"
    hot = 100 * 0.3 / 2 ** ((55 - 40) / 10)
    assert against(megohms("400", 20), megohms(f"{hot:.2f}", 55))["verdict"] == "pass"


def test_the_colder_one_of_the_round_goes_before_history():
    cold = megohms("400", 20, at="2026-10-14T22:00:00Z")
    hot = megohms("15.0", 40, at="2026-10-14T23:00:00Z")
    history = [{"at": "2026-01-10T10:00:00Z", "readings": [megohms("16.0", 40)]}]
    assert found("insulation_change", cold, hot, history=history)["verdict"] == "fail"


def test_a_thermosetting_machine_is_corrected_its_own_way():
    # IEEE 43-2013 6.3, from memory: 70 C is factor 3.26, so 30 Mohm there is 97.8 at 40 C.
    machine = {**MACHINE, "insulation_form": "thermosetting"}
    finding = against(megohms("97.8", 40), megohms("30.0", 70), machine)
    assert finding["value"] == pytest.approx(1.0, abs=0.001)


def test_the_newest_history_counts_and_only_with_leads_alike():
    history = [
        {"at": "2026-03-01T10:00:00Z", "readings": [megohms("100", 40)]},
        {"at": "2026-06-01T10:00:00Z", "readings": [megohms("3.0", 40, leads="on")]},
        {"at": "2025-01-01T10:00:00Z", "readings": [megohms("1000", 40)]},
    ]
    assert found("insulation_change", megohms("90.0", 40), history=history)["value"] == pytest.approx(0.9)


@pytest.mark.parametrize("winding_c", [None, 5, 90])
def test_a_temperature_missing_or_out_of_range_is_asked_for(winding_c):
    finding = against(megohms("400", 20), megohms("90", winding_c))
    assert (finding["verdict"], finding["missing"]) == ("cannot_tell", ["winding_temperature"])


def test_a_first_reading_has_nothing_to_change_from():
    assert findings(judge(MACHINE, [megohms("90", 40)]), "insulation_change") == []


def test_over_the_range_now_has_not_fallen():
    history = [{"at": "2026-01-10T10:00:00Z", "readings": [megohms("640", 20)]}]
    assert findings(judge(MACHINE, [megohms("OL", 20)], history=history), "insulation_change") == []


def test_bounds_are_taken_as_bounds():
    assert against(megohms(">2000", 20), megohms("5.0", 40))["verdict"] == "fail"
    assert against(megohms("400", 20), megohms(">2000", 20))["verdict"] == "pass"
    assert against(megohms(">2000", 20), megohms(">200", 20))["verdict"] == "cannot_tell"

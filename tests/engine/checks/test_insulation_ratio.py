"""60 s / 30 s and 600 s / 60 s. Index of 2: IEEE 43, from memory; 1.25: common practice."""

import pytest

from tests.engine.electrical_readings import found, value
from tests.engine.judging import findings, judge

WARM = {"leads": "off", "winding_temperature": 40, "winding_temperature_unit": "C"}


def ratio(read, **about):
    return found("insulation_ratio", value("insulation_resistance", read, **{**WARM, **about}))


# At 40 C 200 Mohm passes insulation, 20 Mohm is watched.
@pytest.mark.parametrize(
    ("read", "about", "expected", "verdict"),
    [
        ("200", {"at_30s": "190"}, 200 / 190, "pass"),
        ("200", {"at_30s": "220"}, 200 / 220, "watch"),
        ("20.0", {"at_30s": "15.0"}, 4 / 3, "pass"),
        ("20.0", {"at_30s": "18.0"}, 10 / 9, "watch"),
        ("200", {"at_600s": "500"}, 2.5, "pass"),
        ("20.0", {"at_600s": "30.0"}, 1.5, "watch"),
        ("20.0", {"at_600s": "50.0"}, 2.5, "pass"),
    ],
)
def test_value_and_verdict(read, about, expected, verdict):
    finding = ratio(read, **about)
    assert finding["value"] == pytest.approx(expected)
    assert (finding["verdict"], finding["unit"]) == (verdict, "ratio")


def test_never_a_fail():
    assert ratio("20.0", at_30s="190")["verdict"] == "watch"


def test_both_ratios_are_told_and_the_worse_speaks():
    finding = ratio("20.0", at_30s="15.0", at_600s="30.0")
    assert finding["verdict"] == "watch"
    assert finding["detail"]["dielectric_absorption"] == pytest.approx(4 / 3)
    assert finding["detail"]["polarization_index"] == pytest.approx(1.5)


def test_not_judged_above_1000_megohms():
    assert ratio("1100", at_30s="1200")["verdict"] == "cannot_tell"
    assert ratio("OL", at_30s="900")["verdict"] == "cannot_tell"


def test_no_second_reading_no_ratio():
    assert findings(judge({}, [value("insulation_resistance", "200", **WARM)]), "insulation_ratio") == []


def test_an_unreadable_second_reading_is_named():
    assert ratio("200", at_30s="abc")["missing"] == ["at_30s"]


def test_a_fall_is_told_as_one():
    assert "It falls to 0.667 of what it was" in ratio("20.0", at_30s="30.0")["because"]
    assert "rises only 1.11 times" in ratio("20.0", at_30s="18.0")["because"]


def test_the_second_reading_is_named_in_words():
    assert "(value at 30 s)" in ratio("200", at_30s="OL")["because"]

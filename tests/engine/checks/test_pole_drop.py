"""Contactor poles: millivolts brought to rated current, and the poles against each other (NETA 7.6.1.1)."""

from typing import Any

import pytest

from tests.engine.judging import finding, findings, judge

MACHINE = {"rated_load_current": 40.0}


def poles(
    drops: tuple[str, str, str], amps: "tuple[str, str, str] | None" = ("30.5", "30.8", "30.2"), unit: str = "mV"
) -> list[dict[str, Any]]:
    drop = {
        "point": "pole_drop",
        "legs": dict(zip(("L1-T1", "L2-T2", "L3-T3"), drops, strict=True)),
        "unit": unit,
        "state": "running",
    }
    if amps is None:
        return [drop]
    legs = dict(zip(("L1", "L2", "L3"), amps, strict=True))
    return [drop, {"point": "running_current", "legs": legs, "unit": "A", "state": "running"}]


def verdict(*given: Any, **more: Any) -> str:
    told: str = finding(judge(MACHINE, poles(*given, **more)), "pole_drop")["verdict"]
    return told


# The handbook's case F4: 38/41/44 mV at 30.5 A are 1.25/1.34/1.44 mohm and 1.3 W each: good, however pitted.
def test_a_pitted_contactor_with_40_mv_is_good() -> None:
    found = finding(judge(MACHINE, poles(("38", "41", "44"), ("30.5", "30.5", "30.5"))), "pole_drop")
    assert found["verdict"] == "pass"
    assert [round(leg["mohm"], 2) for leg in found["legs"]] == [1.25, 1.34, 1.44]
    assert [round(leg["watts"], 1) for leg in found["legs"]] == [1.2, 1.3, 1.3]
    assert (found["value"], found["unit"]) == (44, "mV")


@pytest.mark.parametrize(
    ("drops", "expected"),
    [
        (("38", "41", "44"), "pass"),
        (("40", "40", "70"), "watch"),
        (("90", "95", "92"), "watch"),
        (("230", "240", "250"), "fail"),
    ]
    + [(("20", "20", "29"), "pass"), (("38", "41", "4900"), "fail")],
)
def test_each_band(drops: tuple[str, str, str], expected: str) -> None:
    assert verdict(drops) == expected


def test_without_amps_only_a_burning_pole_is_told() -> None:
    found = finding(judge(MACHINE, poles(("38", "41", "44"), None)), "pole_drop")
    assert (found["verdict"], found["missing"]) == ("cannot_tell", ["running_current"])
    burning = finding(judge(MACHINE, poles(("38", "41", "4900"), None)), "pole_drop")
    assert burning["verdict"] == "fail"
    assert [leg["verdict"] for leg in burning["legs"]] == ["cannot_tell", "cannot_tell", "fail"]
    assert [limit["above"] for limit in burning["limits"]] == [500]


def test_without_the_plate_the_rated_current_is_asked() -> None:
    found = finding(judge({}, poles(("38", "41", "44"))), "pole_drop")
    assert (found["verdict"], found["missing"]) == ("cannot_tell", ["machine rated_load_current"])


def test_volts_and_millivolts_come_out_alike() -> None:
    volts = finding(judge(MACHINE, poles(("0.038", "0.041", "0.044"), unit="V")), "pole_drop")
    assert (volts["verdict"], volts["value"], volts["unit"]) == ("pass", 0.044, "V")
    assert volts["limits"][0]["above"] == pytest.approx(0.1)


def test_amps_of_the_same_minute_are_taken() -> None:
    early = {
        "point": "running_current",
        "legs": {"L1": "5", "L2": "5", "L3": "5"},
        "unit": "A",
        "at": "2026-10-14T20:00:00-05:00",
    }
    drop, amps = poles(("38", "41", "44"))
    drop["at"] = amps["at"] = "2026-10-14T21:00:00-05:00"
    for order in ([early, drop, amps], [amps, drop, early]):
        assert findings(judge(MACHINE, order), "pole_drop")[0]["verdict"] == "pass"

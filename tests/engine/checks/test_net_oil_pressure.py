"""Net oil pressure: pump minus crankcase, judged once settled."""

from typing import Any

import pytest

from tests.engine.judging import finding, findings, judge

MACHINE = {"type": "semi-hermetic-reciprocating", "oil_control": {"cut_out": 9, "delay": 120, "unit": "psi"}}


def oil(pump: str, crankcase: str = "40", since: "int | None" = 300, unit: str = "psig") -> list[dict[str, Any]]:
    timing = {} if since is None else {"since_start": since}
    return [
        {"point": "pump_pressure", "value": pump, "unit": unit, "state": "running", **timing},
        {"point": "crankcase_pressure", "value": crankcase, "unit": unit, "state": "running", **timing},
    ]


@pytest.mark.parametrize(
    ("pump", "expected"),
    [
        ("70", "pass"),
        ("62", "pass"),
        ("55", "watch"),
        ("53", "watch"),
        ("48", "fail"),
        ("120", "watch"),
        ("60", "watch"),
    ],
)
def test_each_band(pump: str, expected: str) -> None:
    assert finding(judge(MACHINE, oil(pump)), "net_oil_pressure")["verdict"] == expected


def test_a_difference_is_told_in_psi_and_kpa_alike() -> None:
    us = finding(judge(MACHINE, oil("60", "20")), "net_oil_pressure")
    si = finding(judge(MACHINE, oil("414", "138", unit="kPa")), "net_oil_pressure")
    assert (us["value"], us["unit"]) == (40, "psi")
    assert (si["value"], si["unit"]) == (pytest.approx(276), "kPa")
    assert si["limits"][0]["below"] == pytest.approx(137.9, abs=0.1)


def test_suction_is_only_about() -> None:
    readings = [oil("70")[0], {"point": "suction_pressure", "value": "38", "unit": "psig", "state": "running"}]
    found = finding(judge(MACHINE, readings), "net_oil_pressure")
    assert (found["verdict"], found["value"], found["detail"]["about"]) == ("cannot_tell", None, 32)
    assert found["missing"] == ["crankcase_pressure"]


def test_an_unknown_cut_out_is_assumed_and_said() -> None:
    found = finding(judge({}, oil("70")), "net_oil_pressure")
    assert found["verdict"] == "pass"
    assert found["also"][-1]["key"] == "net_oil_pressure.cut_out_assumed"


def test_slow_running_needs_less() -> None:
    hertz = {"point": "drive_frequency", "value": "35", "unit": "Hz", "state": "running"}
    assert finding(judge(MACHINE, [*oil("55"), hertz]), "net_oil_pressure")["verdict"] == "pass"
    assert finding(judge(MACHINE, [*oil("48"), hertz]), "net_oil_pressure")["verdict"] == "fail"


def test_no_pump_is_not_asked() -> None:
    assert findings(judge({**MACHINE, "oil_pump": "none"}, oil("70")), "net_oil_pressure") == []


# The handbook's case F6: 38, 24, 12 and 7 psid at 5, 20, 60 and 110 s, heavy foam.
def test_early_readings_make_the_trend_and_never_carry() -> None:
    times = (("48", 5), ("34", 20), ("22", 60), ("17", 110))
    readings = [reading for pump, since in times for reading in oil(pump, "10", since)]
    early = findings(judge(MACHINE, readings), "net_oil_pressure")
    assert {found["verdict"] for found in early} == {"cannot_tell"}
    assert [point["value"] for point in early[-1]["detail"]["trend"]] == [38, 24, 12, 7]
    settled = judge(MACHINE, [*readings, *oil("30", "10", 300)])
    assert finding(settled, "net_oil_pressure")["value"] == 20


def test_the_machines_own_limit_wins_and_is_named() -> None:
    own = {"net_oil_pressure": {"unit": "psi", "fail": {"below": 25}, "watch": {"below": 28}, "source": "bulletin 7"}}
    found = finding(judge({**MACHINE, "limits": own}, oil("62")), "net_oil_pressure")
    assert found["verdict"] == "fail"
    assert "bulletin 7" in found["because"]
    assert {limit["source"]["work"] for limit in found["limits"]} == {"bulletin 7"}


@pytest.mark.parametrize(
    ("seconds", "expected"), [("121", "pass"), ("134", "pass"), ("90", "watch"), ("140", "fail"), (">300", "fail")]
)
def test_the_control_waits_its_time(seconds: str, expected: str) -> None:
    reading = {"point": "trip_delay", "value": seconds, "unit": "s"}
    assert finding(judge(MACHINE, [reading]), "oil_trip_timing")["verdict"] == expected


def test_a_control_is_not_blamed_while_pressure_was_up() -> None:
    # F6: tripped 3 min 30 s after the start, because pressure held for about 90 s.
    readings = [*oil("22", "10", 60), *oil("17", "10", 110), {"point": "trip_delay", "value": "210", "unit": "s"}]
    assert finding(judge(MACHINE, readings), "oil_trip_timing")["verdict"] != "fail"


def test_without_the_delay_nothing_is_said() -> None:
    found = finding(judge({}, [{"point": "trip_delay", "value": "121", "unit": "s"}]), "oil_trip_timing")
    assert (found["verdict"], found["missing"]) == ("cannot_tell", ["machine oil_control delay"])


def test_a_control_that_stands_below_its_cut_out_fails() -> None:
    """Worked example 9.3, controls textbook: 18 in, 12 out, 11 psi of oil over suction: its 120 s are running."""
    machine = {**MACHINE, "oil_control": {"cut_out": 12, "cut_in": 18, "delay": 120, "unit": "psi"}}
    told = finding(judge(machine, oil("51.0", "40.0")), "net_oil_pressure")
    assert (told["value"], told["verdict"]) == (pytest.approx(11), "fail")
    assert [limit["below"] for limit in told["limits"] if limit["verdict"] == "fail"] == [15]


def test_a_crankcase_in_vacuum_adds_to_the_net() -> None:
    """Worked example 9.5: 25 psig over 10 inHg of vacuum is 29.91 psi; 10 inHg is 4.912 psi. Agreement: 0.005 psi."""
    readings = oil("25.0", "40.0")
    readings[1].update(value="10.0", unit="inHg_vac")
    told = finding(judge(MACHINE, readings), "net_oil_pressure")
    assert (told["value"], told["verdict"]) == (pytest.approx(29.91, abs=0.005), "pass")


def beside(level: str, sump: str, foam: bool = False) -> dict[str, Any]:
    machine = {**MACHINE, "refrigerant": "R-448A", "application": "low"}
    readings = [
        *oil("52", "40"),
        {"point": "oil_level", "value": level, "unit": "fraction", "state": "running"},
        {"point": "sump_temperature", "value": sump, "unit": "F", "state": "running"},
        {"point": "suction_pressure", "value": "10", "unit": "psig", "state": "running"},
    ]
    signs = [{"sign": "oil_foam", "present": foam}]
    return finding(judge(machine, readings, signs=signs), "net_oil_pressure")


@pytest.mark.parametrize(
    ("level", "sump", "foam", "told", "words"),
    [
        ("0", "104", False, ["level"], "oil back to the glass"),
        ("0.5", "40", False, ["sump"], "thinned oil"),
        ("0.5", "104", True, ["foam"], "boils out of the oil"),
        ("0", "40", True, ["level", "sump", "foam"], "oil back to the glass"),
        ("0.5", "104", False, [], "look at strainer, pump and bearings"),
    ],
)
def test_the_oil_beside_a_low_pressure_is_named(level: str, sump: str, foam: bool, told: list[str], words: str) -> None:
    found = beside(level, sump, foam)
    assert found["verdict"] in ("fail", "cannot_tell")
    assert found["detail"]["beside"] == told
    assert words in found["because"]


def test_a_good_or_high_pressure_says_nothing_of_the_oil() -> None:
    level = {"point": "oil_level", "value": "0", "unit": "fraction", "state": "running"}
    for pump in ("75", "120"):
        assert "beside" not in finding(judge(MACHINE, [*oil(pump), level]), "net_oil_pressure")["detail"]

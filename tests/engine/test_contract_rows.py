"""Rows of the contract read word by word: what a program or a technician would have tripped over."""

from typing import Any

import pytest

from tests.engine.judging import described, finding, findings, judge
from tests.engine.row_readings import LINES, PAIRS, SEMI, legs, megohms, value


class TestPoles:
    # NETA: investigate a pole more than 50 % above the lowest; CONTRACT section 2: value and limits share one unit.
    @pytest.mark.parametrize(("drops", "unit", "edge"), [("60 30 31", "mV", 45.0), ("0.060 0.030 0.031", "V", 0.045)])
    def test_the_spread_is_told_in_the_unit_of_the_reading(self, drops: str, unit: str, edge: float) -> None:
        poles = legs("pole_drop", ("L1-T1", "L2-T2", "L3-T3"), drops, unit, "running")
        found = finding(judge(SEMI, [poles, legs("running_current", LINES, "34 34 34", "A", "running")]), "pole_drop")
        assert {limit["unit"] for limit in found["limits"]} == {found["unit"]} == {unit}
        assert found["limits"][-1]["above"] == pytest.approx(edge)
        assert found["legs"][0]["judged"] == pytest.approx(found["value"])

    def test_a_pole_that_burns_at_more_than_rated_current_names_its_limit(self) -> None:
        poles = legs("pole_drop", ("L1-T1", "L2-T2", "L3-T3"), "520 500 510", "mV", "running")
        amps = legs("running_current", LINES, "60 60 60", "A", "running")
        found = finding(judge({**SEMI, "rated_load_current": 10.0}, [poles, amps]), "pole_drop")
        assert found["verdict"] == "fail"
        assert 500.0 in [limit.get("above") for limit in found["limits"]]


class TestInsulation:
    # Below 10 C the correction doesn't hold, yet a winding there reads higher than at 40 C.
    def test_a_ground_on_a_cold_winding_is_a_ground(self) -> None:
        result = judge(SEMI, [megohms("0.2", 5)])
        assert finding(result, "insulation")["verdict"] == "fail"
        assert result["gates"]["restart"]["blocked_by"] == ["insulation"]

    @pytest.mark.parametrize("celsius", [5, 95])
    def test_nothing_is_corrected_outside_the_range_of_the_correction(self, celsius: int) -> None:
        found = finding(judge(SEMI, [megohms("200", celsius)]), "insulation")
        assert found["verdict"] == "cannot_tell"
        assert "at_40c" not in found["detail"]

    def test_over_the_range_is_not_told_as_zero(self) -> None:
        found = finding(judge(SEMI, [megohms("OL", 25)]), "insulation")
        assert found["verdict"] == "pass"
        assert "0 MΩ" not in found["because"]
        assert not {"as_read", "at_40c"} & set(found["detail"])


class TestPressures:
    def test_a_standing_crankcase_is_not_taken_from_a_running_pump(self) -> None:
        readings = [value("pump_pressure", "62", "psig"), value("crankcase_pressure", "60", "psig", "stopped")]
        found = finding(judge(SEMI, readings), "net_oil_pressure")
        assert (found["verdict"], found["missing"]) == ("cannot_tell", ["crankcase_pressure"])

    # 0.6 bar is 8.7 psi: 5 psi net is low from the first second, so the control had 180 s.
    def test_the_control_counts_by_its_cut_out_in_its_own_unit(self) -> None:
        machine = {**SEMI, "oil_control": {"cut_out": 0.6, "cut_in": 0.8, "delay": 120, "unit": "bar"}}
        oil = [
            value("pump_pressure", "20", "psig", since_start=60),
            value("crankcase_pressure", "15", "psig", since_start=60),
        ]
        found = finding(judge(machine, [*oil, value("trip_delay", "180", "s")]), "oil_trip_timing")
        assert found["verdict"] == "fail"

    def test_a_trip_after_pressure_was_up_is_told_by_what_the_control_counted(self) -> None:
        machine = {**SEMI, "oil_control": {"cut_out": 9, "cut_in": 12, "delay": 120, "unit": "psi"}}
        up = [
            value("pump_pressure", "50", "psig", since_start=170),
            value("crankcase_pressure", "15", "psig", since_start=170),
        ]
        found = finding(judge(machine, [*up, value("trip_delay", "200", "s")]), "oil_trip_timing")
        assert found["verdict"] == "watch"
        assert found["value"] + found["uncertainty"] < 0.875
        assert found["detail"]["trip_delay"] == 200.0

    # R-134a at 135 psig: bubble 105.02 F by CoolProp 8.0.0.
    def test_a_warm_liquid_line_with_bubbles_is_short_of_liquid(self) -> None:
        readings = [value("liquid_temperature", "113", "F"), value("liquid_pressure", "135", "psig")]
        machine = {**SEMI, "refrigerant": "R-134a"}
        seen = [{"sign": "flash_gas_seen", "present": True}]
        assert finding(judge(machine, readings, signs=seen), "subcooling")["verdict"] == "fail"
        assert finding(judge(machine, readings), "subcooling")["verdict"] == "cannot_tell"


# A weak joint in one phase of a wye raises two pairs; shorted turns in a delta lower all three, one of them most.
@pytest.mark.parametrize(
    ("ohms", "pattern"), [("0.525 0.600 0.600", "two_high"), ("0.440 0.505 0.505", "one_low_two_slightly")]
)
def test_the_level_tells_two_high_from_one_low(ohms: str, pattern: str) -> None:
    heat = {"winding_temperature": 25, "winding_temperature_unit": "C", "leads": "off"}
    reading = legs("winding_resistance", PAIRS, ohms, "ohm", "isolated", **heat)
    assert (
        finding(judge({**SEMI, "winding_resistance_25c": 0.525}, [reading]), "winding_balance")["detail"]["pattern"]
        == pattern
    )


class TestStarts:
    def started(self, amps: str, machine: "dict[str, Any] | None" = None, **more: Any) -> dict[str, Any]:
        volts = legs("start_voltage", PAIRS, "440 440 440", "V", "starting")
        readings = [legs("start_current", LINES, amps, "A", "starting", **more), volts]
        return finding(judge(machine or SEMI, readings), "start_current")

    @pytest.mark.parametrize(
        ("amps", "more", "edge"),
        [("160 160 160", {"duration": 3}, 0.85), ("220 220 220", {"duration": 0.3, "same_start": True}, 1.25)],
    )
    def test_a_fail_names_the_limit_it_broke(self, amps: str, more: dict[str, Any], edge: float) -> None:
        found = self.started(amps, **more)
        assert found["verdict"] == "fail"
        assert [limit["above"] for limit in found["limits"] if limit["verdict"] == "fail"] == [edge]

    def test_a_part_winding_motor_is_asked_for_its_half(self) -> None:
        assert self.started("70 70 70", {**SEMI, "start": "part-winding"})["missing"] == [
            "machine locked_rotor_current_half"
        ]


def test_volts_without_a_nominal_claim_no_normal_range() -> None:
    volts = legs("line_voltage", ("L1-L2", "L2-L3", "L3-L1"), "505 480 480", "V", "running")
    found = finding(judge(SEMI, [volts]), "supply_voltage_level")
    assert found["verdict"] == "pass"
    assert "normal range was not judged" in found["because"]


def test_hertz_alone_far_off_come_with_their_number_and_limits() -> None:
    found = finding(judge({**SEMI, "rated_frequency": 60}, [value("line_frequency", "50.0", "Hz")]), "supply_frequency")
    assert found["verdict"] == "fail"
    assert (found["value"], found["unit"]) == (pytest.approx(-100 / 6), "%")
    assert {limit["unit"] for limit in found["limits"]} == {"%"}


def test_what_is_missing_is_said_in_words() -> None:
    found = finding(judge({**SEMI, "rated_frequency": 60}, [value("line_frequency", "60.0", "Hz")]), "supply_frequency")
    assert "line_voltage" not in found["because"]


def test_an_own_limit_on_the_rise_after_a_pump_down_is_used_and_said_once() -> None:
    own = {"pump_down": {"unit": "psi/min", "watch": {"above": 6}, "source": "bulletin"}}
    readings = [value("pump_down_vacuum", "25", "inHg_vac"), value("pump_down_rise", "4", "psi/min", "stopped")]
    both = findings(judge({**SEMI, "limits": own}, readings), "pump_down")
    assert [found["verdict"] for found in both] == ["pass", "pass"]
    assert not [found for found in both if "usual limit" in found["because"]]


def test_a_step_that_stands_on_its_limit_asks_for_no_meter_without_steps() -> None:
    found = finding(judge(SEMI, [legs("unloader_step", ("loaded", "unloaded"), "34 28.9", "A", "running")]), "unloader")
    assert found["also"][0]["key"] == "decide.at_limit"


def test_values_and_limits_of_every_example_share_one_unit() -> None:
    apart = []
    for check in described()["checks"]:
        example = check["example"]
        more = {name: example[name] for name in ("signs", "history", "meters", "neighbours") if name in example}
        for found in findings(judge(example.get("machine", {}), example["readings"], **more), check["check"]):
            apart += [(check["check"], limit["unit"]) for limit in found["limits"] if limit["unit"] != found["unit"]]
    assert apart == []

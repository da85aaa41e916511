"""A value is text as it was read: the digits carry the meter's resolution."""

import math
from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rackside.engine import moment, units
from rackside.engine.number import read_number
from rackside.engine.say import figure


@pytest.mark.parametrize(
    ("raw", "value", "step", "bound"),
    [
        ("0.70", 0.70, 0.01, ""),
        ("0.7", 0.7, 0.1, ""),
        (0.70, 0.7, 0.1, ""),
        (478, 478.0, 1.0, ""),
        (478.0, 478.0, 1.0, ""),
        ("478", 478.0, 1.0, ""),
        (">2000", 2000.0, 1.0, ">"),
        ("<0.5", 0.5, 0.1, "<"),
        ("-3.0", -3.0, 0.1, ""),
        ("+3", 3.0, 1.0, ""),
        ("OL", 0.0, 0.0, "OL"),
        (1e-05, 1e-05, 1e-05, ""),
    ],
)
def test_digits_are_kept(raw: object, value: float, step: float, bound: str) -> None:
    number = read_number(raw)
    assert number is not None
    assert (number.value, number.step, number.bound) == (value, step, bound)


@pytest.mark.parametrize(
    "raw",
    ["1_0", "nan", "inf", "٣", "1e3", " 5", "5 ", "", ".5", "5.", "ol", ">", ">>5", "--5", "5,0", None, True, [], {}]
    + [math.nan, math.inf, -math.inf, 10**400],
)
def test_anything_else_is_not_a_number(raw: object) -> None:
    assert read_number(raw) is None


@given(st.text(max_size=12))
def test_no_text_raises(text: str) -> None:
    number = read_number(text)
    assert number is None or math.isfinite(number.value)


@given(st.floats(allow_nan=False, allow_infinity=False, min_value=-1e12, max_value=1e12))
def test_a_json_number_counts_as_its_shortest_decimal(value: float) -> None:
    number = read_number(value)
    assert number is not None
    assert number.value == value
    assert number.step > 0


@pytest.mark.parametrize(
    ("value", "text"),
    [(0.20876, "0.209"), (478.4, "478"), (62.0, "62"), (1.0, "1"), (2.5, "2.5"), (0.5, "0.5"), (-0.0004, "-0.0004")]
    + [(1100.0, "1100"), (99.95, "100"), (0.0, "0"), (-0.0, "0"), (10.734, "10.7"), (0.005, "0.005"), (2.675, "2.68")],
)
def test_figures_are_written_one_way(value: float, text: str) -> None:
    assert figure(value) == text


# NIST SP 811 (2008), appendix B.8: 1 psi = 6.894 757 kPa; 1 inHg (conventional) = 3.386 389 kPa.
@pytest.mark.parametrize(
    ("value", "unit", "base"),
    [(6.894757293168, "kPa", 1.0), (1.0, "bar", 14.503773773), (14.696, "psia", 0.0), (25.0, "inHg_vac", -12.27885)]
    + [(100.0, "C", 212.0), (273.15, "K", 32.0), (38.0, "mV", 0.038), (1.1, "Mohm", 1.1e6), (1.0, "m", 3.280839895)],
)
def test_units_come_to_base(value: float, unit: str, base: float) -> None:
    assert math.isclose(units.to_base(value, unit), base, rel_tol=2e-6, abs_tol=1e-9)
    assert math.isclose(units.from_base(units.to_base(value, unit), unit), value, rel_tol=1e-12)


def test_air_thins_with_altitude() -> None:
    # Denver, 5,280 ft: 12.1 psia in the ICAO standard atmosphere (handbook tables print 12.1 to 12.2).
    assert math.isclose(units.air_pressure(5280.0), 12.1, abs_tol=0.05)
    assert units.air_pressure(0.0) == units.ATMOSPHERE_PSI


# Python's own calendar is the independent reference.
@given(st.datetimes(min_value=datetime(1970, 1, 2), max_value=datetime(2199, 12, 30)))
def test_times_agree_with_the_calendar(when: datetime) -> None:
    for zone in (UTC, timezone(timedelta(hours=-5)), timezone(timedelta(hours=5, minutes=30))):
        aware = when.replace(tzinfo=zone, microsecond=0)
        seconds = moment.seconds(aware.isoformat())
        assert seconds == aware.timestamp()
        assert moment.written(seconds, moment.zone_of(aware.isoformat())) == aware.isoformat()


@pytest.mark.parametrize(
    "text",
    [
        "2026-10-14",
        "2026-13-01T00:00:00Z",
        "2026-02-30T00:00:00Z",
        "2026-10-14T25:00:00Z",
        "2026-10-14T21:40:00",
        "x" * 25,
    ],
)
def test_what_is_no_time_is_none(text: str) -> None:
    assert moment.seconds(text) is None

"""The cable alone, as read. 100 Mohm: ANSI/NETA MTS-2019 Table 100.1; 5 Mohm: CHECKS.md."""

import pytest

from tests.engine.electrical_readings import found, value


@pytest.mark.parametrize(
    ("read", "unit", "verdict"),
    [
        ("640", "Mohm", "pass"),
        ("40", "Mohm", "watch"),
        ("3.1", "Mohm", "fail"),
        ("2000", "kohm", "fail"),
        (">2000", "Mohm", "pass"),
        ("OL", "Mohm", "pass"),
        (">50", "Mohm", "watch"),
    ],
)
def test_each_band(read, unit, verdict):
    assert found("cable_insulation", value("cable_insulation_resistance", read, unit=unit))["verdict"] == verdict

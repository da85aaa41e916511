"""The saturation tables against CoolProp over a dense grid, published charts and the handbook's own figures."""

import importlib.util
import math
import re
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import CoolProp
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rackside.engine.physics import refrigerant as fluid
from rackside.engine.tables import saturation
from rackside.engine.vocabulary import REFRIGERANTS

ROOT = Path(__file__).parents[2]
DOCUMENT = ROOT / "server" / "docs" / "saturation.md"
ATMOSPHERE = 14.696
LINES = (
    ("bubble", 0, fluid.bubble_pressure, fluid.bubble_temperature),
    ("dew", 1, fluid.dew_pressure, fluid.dew_temperature),
)


def _writer() -> ModuleType:
    """Return the script that writes the tables, which is in no package."""
    spec = importlib.util.spec_from_file_location("saturation_tables", ROOT / "server/setup/saturation_tables.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


WRITER = _writer()


def documented() -> dict[str, tuple[float, float]]:
    """Return the stated largest error of each refrigerant: kelvin and percent of pressure."""
    rows = re.findall(r"^\| (R-\w+) \|.*\| ([\d.]+) \| ([\d.]+) \|$", DOCUMENT.read_text(), re.M)
    return {name: (float(kelvin), float(percent)) for name, kelvin, percent in rows}


def fahrenheit(kelvin: float) -> float:
    return kelvin * 1.8 - 459.67


def grid(refrigerant: str, quality: int) -> Iterator[tuple[float, float]]:
    """Yield (temperature [F], pressure [psia]) of CoolProp every quarter kelvin."""
    pressure = WRITER.saturation(refrigerant, quality)
    warmest = WRITER.warmest(refrigerant)
    for index in range(math.floor((warmest - 223.15) * 4) + 1):
        kelvin = 223.15 + index / 4
        yield fahrenheit(kelvin), pressure(kelvin) / WRITER.PA_PER_PSI


def errors(refrigerant: str) -> tuple[float, float]:
    """Return the largest difference from CoolProp: kelvin, percent of pressure."""
    kelvin, percent = 0.0, 0.0
    for _, quality, pressure_at, temperature_at in LINES:
        for temperature, psia in list(grid(refrigerant, quality))[1:]:
            kelvin = max(kelvin, abs(temperature_at(refrigerant, psia) - temperature) / 1.8)
            percent = max(percent, abs(pressure_at(refrigerant, temperature) / psia - 1) * 100)
    return kelvin, percent


def test_every_refrigerant_of_the_contract_has_a_table():
    assert {row[0] for row in saturation.TABLES} == set(REFRIGERANTS) == set(documented())


@pytest.mark.parametrize("refrigerant", REFRIGERANTS)
def test_dense_grid_of_coolprop(refrigerant, record_property):
    kelvin, percent = errors(refrigerant)
    record_property("largest error", f"{kelvin:.4f} K, {percent:.4f} %")
    stated_kelvin, stated_percent = documented()[refrigerant]
    assert kelvin <= stated_kelvin <= 0.1, f"{refrigerant} is {kelvin:.4f} K off"
    assert percent <= stated_percent <= 0.1, f"{refrigerant} is {percent:.4f} % off"


def test_committed_tables_are_what_the_script_writes():
    """Same CoolProp: the same text. Another one: the same numbers to 0.02 % of pressure."""
    text = WRITER.table_text()
    if CoolProp.__version__ in (saturation.__doc__ or ""):
        assert text == Path(saturation.__file__).read_text()
    written: dict[str, object] = {}
    exec(text, written)
    for old, new in zip(saturation.TABLES, written["TABLES"], strict=True):
        assert old[:3] == new[:3]
        for column in (3, 4):
            assert new[column] == pytest.approx(old[column], abs=20)


def test_outside_the_tables_nothing_is_told():
    for refrigerant, beyond in (("R-448A", 150.0), ("R-744", 88.0), ("R-22", -58.1), ("R-999", 40.0)):
        assert fluid.dew_pressure(refrigerant, beyond) is None
        assert fluid.bubble_pressure(refrigerant, beyond) is None
    for psia in (0.0, -5.0, 1.0, 2000.0, math.inf, math.nan):
        assert fluid.dew_temperature("R-448A", psia) is None
        assert fluid.bubble_slope("R-448A", psia) is None


def test_both_ends_are_covered():
    assert fluid.dew_pressure("R-22", -58.0) is not None
    assert fluid.dew_pressure("R-22", 149.0) is not None


@pytest.mark.parametrize("refrigerant", REFRIGERANTS)
def test_pressure_rises_with_temperature_and_bubble_never_lies_below_dew(refrigerant):
    top = fahrenheit(WRITER.warmest(refrigerant))
    temperatures = [-58.0 + (top + 58.0) * step / 400 for step in range(401)]
    for pressure_at in (fluid.bubble_pressure, fluid.dew_pressure):
        pressures = [pressure_at(refrigerant, temperature) for temperature in temperatures]
        assert all(low < high for low, high in zip(pressures, pressures[1:], strict=False))
    for temperature in temperatures:
        bubble, dew = fluid.bubble_pressure(refrigerant, temperature), fluid.dew_pressure(refrigerant, temperature)
        assert bubble >= dew * (1 - 1e-6)


@given(st.sampled_from(REFRIGERANTS), st.floats(-57.0, 87.0), st.sampled_from(LINES))
def test_there_and_back(refrigerant, temperature, line):
    _, _, pressure_at, temperature_at = line
    assert temperature_at(refrigerant, pressure_at(refrigerant, temperature)) == pytest.approx(temperature, abs=0.02)


@given(st.sampled_from(REFRIGERANTS), st.floats(-55.0, 85.0))
def test_slope_is_the_slope_of_the_table(refrigerant, temperature):
    psia = fluid.dew_pressure(refrigerant, temperature)
    apart = psia * 1e-5
    low, high = fluid.dew_temperature(refrigerant, psia - apart), fluid.dew_temperature(refrigerant, psia + apart)
    assert fluid.dew_slope(refrigerant, psia) == pytest.approx((high - low) / (2 * apart), rel=2e-3)


# Handbook, pressure/temperature crib (public equation-of-state software, printed to 0.1 psi below 100, else to 1 psi).
CRIB = ("R-404A", "R-507A", "R-448A", "R-449A", "R-407A", "R-134a", "R-744")
CRIB_DEW = (
    (-25, (12.7, 14.1, 6.7, 6.8, 5.8, None, 181)),
    (-20, (16.0, 17.6, 9.5, 9.7, 8.5, None, 200)),
    (-10, (23.6, 25.5, 16.0, 16.2, 14.9, 1.9, 243)),
    (0, (32.6, 34.8, 23.8, 24.0, 22.5, 6.5, 291)),
    (15, (49.0, 51.7, 38.3, 38.4, 36.7, 15.0, 376)),
    (20, (55.3, 58.2, 43.9, 44.0, 42.3, 18.4, 407)),
    (25, (62.1, 65.2, 50.0, 50.1, 48.3, 22.1, 441)),
)
CRIB_BUBBLE = (
    (70, (149, 153, 154, 152, 149, 71, 838)),
    (80, (175, 180, 181, 178, 175, 87, 955)),
    (90, (204, 209, 211, 208, 205, 104, None)),
    (105, (254, 260, 262, 258, 255, 135, None)),
    (120, (312, 319, 321, 317, 314, 171, None)),
)


@pytest.mark.parametrize(("temperature", "printed"), CRIB_DEW)
def test_crib_dew(temperature, printed):
    for refrigerant, psig in zip(CRIB, printed, strict=True):
        found = fluid.dew_pressure(refrigerant, temperature) - ATMOSPHERE
        if psig is None:
            assert found < 0
        else:
            assert found == pytest.approx(psig, abs=0.06 if psig < 100 else 0.6), refrigerant


@pytest.mark.parametrize(("temperature", "printed"), CRIB_BUBBLE)
def test_crib_bubble(temperature, printed):
    for refrigerant, psig in zip(CRIB, printed, strict=True):
        found = fluid.bubble_pressure(refrigerant, temperature)
        if psig is None:
            assert found is None
        else:
            assert found - ATMOSPHERE == pytest.approx(psig, abs=0.6), refrigerant


# Check values, section 9 (CoolProp 8.0.0, psig at 14.696 psia, printed to 0.01): refrigerant, F, bubble, dew.
SECTION_9 = (
    ("R-134a", 0, 6.47, 6.47),
    ("R-134a", 20, 18.43, 18.43),  # worked example 9.17
    ("R-134a", 40, 35.05, 35.05),
    ("R-134a", 105, 134.96, 134.96),  # 9.19
    ("R-22", -40, 0.57, 0.57),
    ("R-22", 0, 24.03, 24.03),  # 9.21
    ("R-22", 40, 68.56, 68.56),
    ("R-22", 105, 210.76, 210.76),  # 9.23
    ("R-404A", -20, 16.83, 16.01),
    ("R-404A", 0, 33.66, 32.61),  # 9.25
    ("R-404A", 20, 56.59, 55.3),
    ("R-404A", 105, 254.22, 252.1),  # 9.27
    ("R-507A", -20, 17.61, 17.6),
    ("R-507A", 0, 34.82, 34.8),  # 9.29
    ("R-507A", 20, 58.27, 58.22),
    ("R-507A", 105, 260.09, 259.85),  # 9.31
    ("R-744", -20, 200.22, 200.22),
    ("R-744", 20, 407.21, 407.21),  # 9.33
    ("R-744", 40, 552.88, 552.88),
    ("R-744", 70, 838.13, 838.13),  # 9.35
    ("R-407A", -20, 15.58, 8.5),
    ("R-407A", 20, 55.13, 42.32),  # 9.37
    ("R-407A", 105, 255.34, 227.36),
    ("R-448A", -20, 17.09, 9.53),  # 9.39
    ("R-448A", 20, 57.93, 43.94),
    ("R-448A", 105, 262.08, 229.51),  # 9.41
    ("R-449A", -20, 16.64, 9.67),
    ("R-449A", 20, 56.94, 44.04),  # 9.43
    ("R-449A", 105, 258.44, 228.35),
)


@pytest.mark.parametrize(("refrigerant", "temperature", "bubble", "dew"), SECTION_9)
def test_check_values_section_9(refrigerant, temperature, bubble, dew):
    """Agreement reached: 0.1 psi, everywhere (asked: 0.3 psi for named fluids, 2 psi for mixtures)."""
    assert fluid.bubble_pressure(refrigerant, temperature) - ATMOSPHERE == pytest.approx(bubble, abs=0.1)
    assert fluid.dew_pressure(refrigerant, temperature) - ATMOSPHERE == pytest.approx(dew, abs=0.1)


def test_published_r404a_chart():
    """Worked example 9.7: a published R-404A chart at 85 F, bubble 189.5 and dew 187.5 psig, to 0.1 psi.

    Left out: 9.9, the same chart at 150 F (65.6 C), past the tables' end at 65 C.
    """
    assert fluid.bubble_pressure("R-404A", 85) - ATMOSPHERE == pytest.approx(189.5, abs=0.1)
    assert fluid.dew_pressure("R-404A", 85) - ATMOSPHERE == pytest.approx(187.5, abs=0.1)
    assert fluid.bubble_pressure("R-404A", 150) is None


@pytest.mark.parametrize(
    ("kilopascal", "celsius", "agreement"),
    [
        (140.0, -18.8, 0.08),  # 9.11, engineering-course property table
        (200.0, -10.09, 0.08),  # 9.13, the same
        (101.325, -26.06, 0.03),  # 9.15, property booklet on NIST data; its critical point is past the tables' end
    ],
)
def test_published_r134a_tables(kilopascal, celsius, agreement):
    found = fluid.dew_temperature("R-134a", kilopascal * 1000 / WRITER.PA_PER_PSI)
    assert (found - 32) / 1.8 == pytest.approx(celsius, abs=agreement)


# Boiling points at 1 atm, bubble/dew C: check values, under the table of section 9.
@pytest.mark.parametrize(
    ("refrigerant", "bubble", "dew"),
    [
        ("R-404A", -46.2, -45.5),
        ("R-507A", -46.7, -46.7),
        ("R-407A", -45.0, -38.6),
        ("R-448A", -46.2, -39.7),
        ("R-449A", -45.9, -39.8),
    ],
)
def test_boiling_points(refrigerant, bubble, dew):
    assert (fluid.bubble_temperature(refrigerant, ATMOSPHERE) - 32) / 1.8 == pytest.approx(bubble, abs=0.06)
    assert (fluid.dew_temperature(refrigerant, ATMOSPHERE) - 32) / 1.8 == pytest.approx(dew, abs=0.06)

"""The electrical formulas against independent libraries: numpy phasors and circuits, the uncertainties package."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from rackside.engine.physics.copper import at_temperature, delta_phases, temperature_from_resistance, wye_phases
from rackside.engine.physics.lead_roll import LeadRoll, motor_lead
from rackside.engine.physics.rating_map import RatingMap
from rackside.engine.physics.three_phase import negative_sequence, unbalance
from tests.engine.electrical_readings import MACHINE, found, legs, value

A = np.exp(2j * math.pi / 3)
ohms = st.floats(0.05, 50.0)


def triangle(ab: float, bc: float, ca: float) -> np.ndarray:
    """Return three phasors of these lengths that add up to zero."""
    cosine = (ab * ab + ca * ca - bc * bc) / (2 * ab * ca)
    third = complex(-ca * cosine, -ca * math.sqrt(max(0.0, 1 - cosine * cosine)))
    return np.array([ab, -ab - third, third])


@given(st.floats(-0.12, 0.12), st.floats(-0.12, 0.12))
def test_negative_sequence_is_that_of_the_phasors(first: float, second: float) -> None:
    # Fortescue's transform by numpy; agreement 1e-6 of the ratio (square root of a small difference near balance).
    volts = [460.0, 460.0 * (1 + first), 460.0 * (1 + second)]
    ab, bc, ca = triangle(*volts)
    sequences = sorted([abs(ab + A * bc + A * A * ca), abs(ab + A * A * bc + A * ca)])
    found_percent = negative_sequence(*volts)
    assert found_percent == pytest.approx(100 * sequences[0] / sequences[1], abs=2e-5)


@given(st.floats(1.0, 20.0), st.floats(0.0, 1.0))
def test_true_and_nema_unbalance_stay_in_their_published_range(percent: float, share: float) -> None:
    # Pillay and Manyage, full range scanned for our collection: 0.966 to 1.190 up to 20 %.
    low = 100 - percent
    second = 100 + percent * share
    volts = [low, second, 300 - low - second]
    nema, _ = unbalance(volts)
    ratio = negative_sequence(*volts) / nema
    assert 0.96 < ratio < 1.20


def line_to_line(branches: list[tuple[int, int, float]], terminals: int) -> list[float]:
    """Return the resistances T1-T2, T2-T3, T3-T1 of a network by numpy's pseudo-inverse of its conductances."""
    conductances = np.zeros((terminals, terminals))
    for one, other, resistance in branches:
        conductances[[one, other], [one, other]] += 1 / resistance
        conductances[[one, other], [other, one]] -= 1 / resistance
    inverse = np.linalg.pinv(conductances)
    return [inverse[i, i] + inverse[j, j] - 2 * inverse[i, j] for i, j in ((0, 1), (1, 2), (2, 0))]


@given(ohms, ohms, ohms)
def test_the_phases_of_a_wye_come_back(a: float, b: float, c: float) -> None:
    read = line_to_line([(0, 3, a), (1, 3, b), (2, 3, c)], 4)
    assert wye_phases(*read) == pytest.approx((a, b, c), rel=1e-6, abs=1e-9)


@given(ohms, ohms, ohms)
def test_the_phases_of_a_delta_come_back(ab: float, bc: float, ca: float) -> None:
    read = line_to_line([(0, 1, ab), (1, 2, bc), (2, 0, ca)], 3)
    phases = delta_phases(*read)
    assert phases is not None
    assert phases == pytest.approx((ab, bc, ca), rel=1e-5)


def test_a_delta_that_can_not_be_is_none() -> None:
    assert delta_phases(1.0, 1.0, 5.0) is None


@given(ohms, st.floats(-40, 150), st.floats(-40, 150))
def test_copper_there_and_back(resistance: float, from_c: float, to_c: float) -> None:
    there = at_temperature(resistance, from_c, to_c)
    assert at_temperature(there, to_c, from_c) == pytest.approx(resistance, rel=1e-12)
    assert temperature_from_resistance(resistance, from_c, there) == pytest.approx(to_c, abs=1e-9)


@given(st.lists(st.floats(-1e-3, 1e-3), min_size=10, max_size=10), st.floats(-40, 50), st.floats(60, 140))
def test_slopes_of_a_map_are_its_differences(terms: list[float], suction: float, discharge: float) -> None:
    rated = RatingMap(tuple(terms), (None, None))
    by_suction = (rated.value(suction + 0.01, discharge) - rated.value(suction - 0.01, discharge)) / 0.02
    by_discharge = (rated.value(suction, discharge + 0.01) - rated.value(suction, discharge - 0.01)) / 0.02
    slopes = rated.slopes(suction, discharge)
    assert slopes == pytest.approx((by_suction, by_discharge), rel=1e-4, abs=1e-4)


@given(
    st.lists(st.floats(-4, 4), min_size=3, max_size=3),
    st.lists(st.floats(-4, 4), min_size=3, max_size=3),
    st.sampled_from([(0, 1), (0, 2), (0, 1, 2)]),
)
def test_a_roll_finds_the_side_that_is_uneven(line: list[float], motor: list[float], rolls: tuple[int, ...]) -> None:
    """Amps made of a line part alone, or a motor part alone, are told apart by any two positions."""
    for parts, expected in ((line, "supply"), (motor, "motor")):
        if max(parts) - min(parts) < 0.5:
            continue
        positions = []
        for roll in rolls:
            places = [leg if expected == "supply" else motor_lead(leg, roll) for leg in range(3)]
            positions.append((roll, [30 + parts[place] for place in places]))
        assert LeadRoll(positions).follows(0.0) == expected


def test_uncertainties_of_the_checks_agree_with_an_independent_propagation() -> None:
    """The uncertainties package on digits alone, independent, k = 2; agreement 1e-9 relative."""
    digit = 1 / math.sqrt(12)
    volts = [ufloat(one, 0.1 * digit) for one in (462.1, 463.4, 455.2)]
    hertz = ufloat(59.7, 0.1 * digit)
    expected = {
        "supply_frequency": 100 * (sum(volts) / 3 / hertz / (460 / 60) - 1),
        "single_phasing": ufloat(20.1, 0.1 * digit) / ((ufloat(25.3, 0.1 * digit) + ufloat(24.9, 0.1 * digit)) / 2),
        "fuse_drop": ufloat(40.0, digit) / ufloat(28.0, digit),
        "joint_drop": ufloat(12.0, digit) * 34 / ufloat(24.9, 0.1 * digit),
        "start_voltage_sag": 100 * (ufloat(380, digit) / 460 - 1),
        "load_side_voltage": ufloat(463.4, 0.1 * digit) - ufloat(459.0, 0.1 * digit),
    }
    readings = [
        value("line_frequency", "59.7", state="running"),
        legs("line_voltage", "462.1", "463.4", "455.2"),
        legs("load_voltage", "462.0", "459.0", "455.0"),
        legs("running_current", "25.3", "24.9", "20.1"),
        legs("fuse_drop", "28", "40", "30"),
        legs("joint_drop", "3", "12", "4"),
        legs("start_voltage", "380", "395", "390"),
    ]
    for check, number in expected.items():
        finding = found(check, *readings, machine=MACHINE)
        assert finding["value"] == pytest.approx(number.n, rel=1e-9), check
        assert finding["uncertainty"] == pytest.approx(2 * number.s, rel=1e-9), check


def test_a_meters_percent_cancels_between_line_and_load_but_not_in_a_level() -> None:
    meters = {
        "m": {"kind": "multimeter", "points": {"line_voltage": {"percent": 1.0}, "load_voltage": {"percent": 1.0}}}
    }
    line = legs("line_voltage", "480.0", "480.0", "480.0", meter="m")
    load = legs("load_voltage", "479.0", "479.1", "479.0", meter="m")
    digits = 2 * math.sqrt(2) * 0.1 / math.sqrt(12)
    assert found("load_side_voltage", line, load, meters=meters)["uncertainty"] == pytest.approx(digits, rel=0.01)
    sag = found("supply_frequency", value("line_frequency", "60.0"), line, meters=meters)
    assert sag["uncertainty"] == pytest.approx(2 * 480 / 460 * 1.0 / math.sqrt(3), rel=0.02)

"""Published worked examples of the electrical side, each with its source and the agreement reached.

Numbers are those of our collection of check values, by its own numbering (item.number); test_worked_examples.py lists
where each is tested, and the reason for each that is not.
"""

import math
from typing import Any

import pytest

from rackside.engine.physics import copper, insulation, three_phase
from rackside.engine.physics.contact import SPREAD, watts
from rackside.engine.physics.locked_rotor import kva_per_horsepower, locked_rotor_amps
from rackside.engine.physics.rating_map import rating_map
from rackside.engine.uncertainty import limit_doubt
from tests.engine.electrical_readings import found, legs, value

BTU_PER_HOUR = 3.412141633  # per watt; NIST SP 811, 2008, B.8 (International Table Btu)
MG1_FIGURE = "engineering reference's reading of NEMA MG 1 Figure 14-1"


def nema(*volts: float) -> float:
    return three_phase.unbalance(list(volts))[0]


def largest_true_unbalance(nema_percent: float) -> float:
    """Return the largest negative-sequence ratio of triangles with one NEMA unbalance, the third leg scanned."""
    far = 100.0 + nema_percent
    largest = 0.0
    for step in range(2001):
        second = 100.0 - nema_percent + 2.0 * nema_percent * step / 2000.0
        third = 300.0 - far - second
        if abs(third - 100.0) <= nema_percent + 1e-9:
            largest = max(largest, three_phase.negative_sequence(far, second, third) or 0.0)
    return largest


def rated_limits(nominal: float, rated: float, verdict: str) -> tuple[float, float]:
    """Return the volts at which a leg on a nominal supply starts to get a verdict."""
    machine = {"rated_voltage": rated, "supply": {"nominal_voltage": nominal}}
    limits = found("supply_voltage_level", legs("line_voltage", "460", "460", "460"), machine=machine)["limits"]
    low = [limit["below"] for limit in limits if limit["verdict"] == verdict and "below" in limit]
    high = [limit["above"] for limit in limits if limit["verdict"] == verdict and "above" in limit]
    return rated * (1 + low[0] / 100), rated * (1 + high[0] / 100)


# id, computed, published or worked value, agreement, source
NUMBERS = [
    ("1.1", nema(462, 463, 455), 1.087, 0.005, "NEMA MG 1 with the DOE motor tip sheet's figures (printed 1.1)"),
    ("1.3", nema(460, 467, 450), 1.961, 0.005, "NEMA MG 1 14.36 worked example, from memory"),
    ("1.5", nema(400, 395, 388), 1.606, 0.005, "NEMA MG 1 definition; the blog's own 1.45 takes the wrong leg"),
    ("1.7", three_phase.extra_heating(3.5), 25.0, 0.6, "motor-test training note prints 25 %; 2 u^2 is 24.5"),
    ("1.9", three_phase.extra_heating(2.0), 8.0, 1e-12, "2 u^2"),
    ("1.11", three_phase.extra_heating(5.0), 50.0, 1e-12, "2 u^2"),
    ("1.13", three_phase.derating_factor(1.5), 0.97, 0.02, MG1_FIGURE),
    ("1.15", three_phase.derating_factor(2.5), 0.93, 0.02, MG1_FIGURE),
    ("1.17", three_phase.derating_factor(3.5), 0.85, 0.02, MG1_FIGURE),
    ("1.19", three_phase.derating_factor(4.5), 0.78, 0.02, MG1_FIGURE),
    ("1.21", three_phase.negative_sequence(462, 463, 455), 1.0914, 0.0005, "IEC 61000-4-30 (CIGRE formula)"),
    ("1.23", three_phase.negative_sequence(480, 476, 472), 0.9704, 0.0005, "IEC 61000-4-30 (CIGRE formula)"),
    ("1.25", three_phase.negative_sequence(460, 450, 440), 2.5669, 0.0005, "IEC 61000-4-30 (CIGRE formula)"),
    ("1.27", largest_true_unbalance(5.0), 5.8, 0.05, "Pillay and Manyage, Table 1"),
    ("1.29", largest_true_unbalance(20.0), 23.8, 0.05, "Pillay and Manyage, Table 1"),
    ("2.9", rated_limits(208, 208, "watch")[0], 187.2, 0.5, "ANSI C84.1-2011 and later, Table 1, from memory (187)"),
    ("2.11", rated_limits(480, 460, "watch")[0], 432, 1e-9, "ANSI C84.1-2011 and later, Table 1, from memory"),
    ("2.15 low", rated_limits(208, 208, "fail")[0], 187.2, 1e-9, "NEMA MG 1 12.44.1, 10 % of the plate"),
    ("2.15 high", rated_limits(208, 208, "fail")[1], 228.8, 1e-9, "NEMA MG 1 12.44.1, 10 % of the plate"),
    ("2.17 low", rated_limits(480, 460, "fail")[0], 414, 1e-9, "NEMA MG 1 12.44.1, 10 % of the plate"),
    ("2.17 high", rated_limits(480, 460, "fail")[1], 506, 1e-9, "NEMA MG 1 12.44.1, 10 % of the plate"),
    ("3.1 hot", copper.temperature_from_resistance(80, 20, 100), 83.63, 0.006, "physics textbook problem, 83.630 C"),
    ("3.1 rise", copper.temperature_from_resistance(80, 20, 100) - 20, 63.63, 0.006, "the same, 63.63 K"),
    ("3.3", copper.COPPER_ZERO_C, 1 / 0.00393 - 20, 0.05, "instrument manual, alpha of 0.00393 at 20 C"),
    ("3.5", copper.at_temperature(0.15, 25, 110), 0.19913, 0.00005, "IEEE 112: (234.5 + 110) / (234.5 + 25)"),
    ("3.7", copper.wye_phases(1.0, 1.0, 1.0)[0], 0.5, 1e-12, "circuit theory: line to line is twice the phase"),
    ("3.9 a", copper.wye_phases(1.0, 1.02, 1.04)[0], 0.51, 1e-9, "(Rab + Rca - Rbc) / 2"),
    ("3.9 b", copper.wye_phases(1.0, 1.02, 1.04)[1], 0.49, 1e-9, "(Rab + Rbc - Rca) / 2"),
    ("3.9 c", copper.wye_phases(1.0, 1.02, 1.04)[2], 0.53, 1e-9, "(Rbc + Rca - Rab) / 2"),
    ("3.13", limit_doubt(0.00556), 0.00321, 1e-6, "JCGM 100, 4.3.7: limit / sqrt(3)"),
    ("4.1", 15 * insulation.factor_to_40c(70), 120, 1e-9, "examination answer: factor 8 at 70 C"),
    ("4.3", 150 * insulation.factor_to_40c(20) / insulation.factor_to_40c(30), 75, 1e-9, "insulation-tester manual"),
    ("4.5", 200 * insulation.factor_to_40c(20), 50, 1e-9, "IEEE 43: R 0.5^((40 - T) / 10)"),
    ("4.7", insulation.factor_to_40c(70), 7.997, 0.004, "10^(0.0301 t - 1.2041), the halving rule in logarithms"),
    ("4.9", insulation.factor_to_40c_thermosetting(70), 3.261, 0.002, "IEEE 43-2013 6.3, from memory"),
    ("5.3 limit", SPREAD * 23, 34.5, 1e-9, "breaker article by low-resistance ohmmeter, 29/23/96 micro-ohm"),
    ("5.5 limit", SPREAD * 130, 195, 1e-9, "breaker-maker bulletin quoting NETA, 130/180/150"),
    ("5.7", watts(0.096, 400), 15.36, 0.01, "I squared R: 96 micro-ohm at 400 A"),
    ("6.1", nema(33, 29, 34), 9.375, 0.005, "meter manual, printed 9.4"),
    ("6.17", locked_rotor_amps(6.29, 20, 460), 157.9, 0.1, "forum post prints 158 A, code G, 20 hp, 460 V"),
]


@pytest.mark.parametrize(
    ("number", "computed", "published", "agreement", "source"), NUMBERS, ids=[row[0] for row in NUMBERS]
)
def test_number(number: str, computed: Any, published: float, agreement: float, source: str) -> None:
    assert computed == pytest.approx(published, abs=agreement), f"{number}: {source}"


def test_4_13_polarization_index() -> None:
    read = value("insulation_resistance", "200", at_600s="500", leads="off")
    assert found("insulation_ratio", read)["value"] == 2.5


def test_4_15_equipment_of_600_volts_holds_100_megohms() -> None:
    # ANSI/NETA MTS-2019 Table 100.1; its note 5 sends rotating machines elsewhere, so only the cable is held to it.
    limits = found("cable_insulation", value("cable_insulation_resistance", "640"))["limits"]
    assert [limit["below"] for limit in limits if limit["verdict"] == "watch"] == [100.0]


@pytest.mark.parametrize(
    ("number", "milliohms", "ratio", "verdict"),
    [("5.3", (2.9, 2.3, 9.6), 4.174, "watch"), ("5.5", (1.30, 1.80, 1.50), 1.385, "pass")],
)
def test_neta_spread_of_poles(number: str, milliohms: tuple[float, ...], ratio: float, verdict: str) -> None:
    # The published micro-ohms scaled to a contactor's milliohms, at 10 A of 10 A rated: only the ratio is published.
    drops = [f"{10 * one:.1f}" for one in milliohms]
    amps = legs("running_current", "10.00", "10.00", "10.00")
    finding = found("pole_drop", legs("pole_drop", *drops), amps, machine={"rated_load_current": 10})
    assert finding["detail"]["ratio"] == pytest.approx(ratio, abs=0.001)
    assert finding["verdict"] == verdict


def test_6_3_one_step_roll_follows_the_motor() -> None:
    # Condition-monitoring article: 5.1/6.2/4.8 A, after A to B to C to A 4.8/5.1/6.2.
    before = legs("running_current", "5.1", "6.2", "4.8")
    after = legs("running_current", "4.8", "5.1", "6.2", roll=1)
    assert found("lead_roll", before, after)["detail"]["follows"] == "motor"


def test_6_5_three_position_roll_follows_the_supply() -> None:
    # EASA: positions A-1 B-2 C-3, A-2 B-3 C-1, A-3 B-1 C-2; A-3 is 48 in its table and sums.
    first = legs("running_current", "49", "44", "39")
    second = legs("running_current", "44", "39", "44", roll=2)
    third = legs("running_current", "48", "44", "44", roll=1)
    detail = found("lead_roll", first, second, third)["detail"]
    assert (detail["line_sums"], detail["motor_sums"]) == ([141, 127, 127], [137, 132, 126])
    assert detail["follows"] == "supply"


def test_6_19_locked_rotor_current_goes_with_the_volts() -> None:
    volts = legs("start_voltage", "414", "414", "414")
    amps = legs("start_current", "120", "120", "120", duration=0.3)
    machine = {"rated_voltage": 460, "locked_rotor_current": 158}
    finding = found("start_current", amps, volts, machine=machine)
    assert finding["detail"]["expected"] == pytest.approx(142.2, abs=0.1)


def test_6_23_trip_ceiling_is_140_percent() -> None:
    # NEC 440.52(A)(1), from memory: 140 % of 38 A is 53.2 A.
    finding = found("overload_setting", value("overload_dial", "38"), machine={"rated_load_current": 38})
    ceiling = min(limit["above"] for limit in finding["limits"] if limit["verdict"] == "fail" and "above" in limit)
    assert ceiling / 100 * 38 * 1.2 == pytest.approx(53.2)


@pytest.mark.parametrize(
    ("letter", "low", "high"),
    [("A", 0.0, 3.14), ("G", 5.6, 6.29), ("H", 6.3, 7.09), ("U", 20.0, 22.39)],
)
def test_code_letters_of_nec_table_430_7b(letter: str, low: float, high: float) -> None:
    assert kva_per_horsepower(letter) == (low, high)


# Bicubic order: 1, x, x2, y, y2, xy, x3, y3, x2y, xy2 with x saturated suction and y saturated discharge [C], in W.
# Source: EnergyPlus compressor data set: coefficients and, in its comments, nominal capacity [Btu/h] and power [kW].
DATA_SET = [
    (
        "8.1",
        (-25, 100),
        [23500.0, 816.7, 10.7, -28.24, 0.1131, -0.4553, 0.05604, -0.00412, -0.006728, 0.006782],
        [4018.0, 95.0, 1.507, 5.705, 1.247, -1.381, 0.01277, -0.007518, -0.02424, 0.02917],
        (18561.0, 3.1),
    ),
    (
        "8.3",
        (-25, 100),
        [44080.0, 1536.0, 20.39, -32.11, -0.1294, -0.7336, 0.1066, 0.0004306, -0.005138, -0.0005615],
        [830.8, -160.2, -3.544, 225.9, 0.006751, 4.971, -0.018, 0.0002163, 0.03186, 0.003772],
        (40337.0, 6.6),
    ),
    (
        "8.5",
        (-25, 105),
        [28610.0, 998.9, 12.82, -114.1, -1.536, -5.219, 0.05422, 0.006769, -0.06867, -0.02054],
        [5755.0, 194.3, 3.1, -8.486, 1.125, -4.675, 0.01546, 0.0004334, -0.04741, 0.04461],
        (21800.0, 5.5),
    ),
    (
        "8.7",
        (-25, 105),
        [51130.0, 1709.0, 20.7, -327.2, 0.7931, -9.247, 0.08041, -0.01785, -0.1026, -0.02362],
        [6291.0, 137.2, 1.629, 202.2, -3.177, -0.845, 0.008776, 0.04113, -0.01534, 0.01617],
        (37500.0, 8.6),
    ),
    (
        "8.9",
        (20, 120),
        [11080.0, 371.2, 4.662, -40.0, -0.6289, -1.658, 0.02093, 0.002702, -0.02262, -0.009961],
        [1941.0, 46.2, 0.6496, 5.885, 0.2897, -0.5671, 0.003147, 0.0008508, -0.005617, 0.004436],
        (21500.0, 2.8),
    ),
]


def mapped(order: str, unit: str, terms: list[float]) -> Any:
    ratings = {"order": order, "temperature_unit": unit, "current": terms}
    found_map = rating_map(ratings, "current")
    assert found_map is not None
    return found_map


@pytest.mark.parametrize(("number", "at_f", "capacity", "power", "nominal"), DATA_SET, ids=[row[0] for row in DATA_SET])
def test_bicubic_maps_give_their_nominal_rating(
    number: str,
    at_f: tuple[float, float],
    capacity: list[float],
    power: list[float],
    nominal: tuple[float, float],
) -> None:
    # Agreement reached: 0.25 % of capacity, 0.06 kW of power (printed to 0.1); the rating point is inferred by match.
    suction, discharge = [(one - 32) / 1.8 for one in at_f]
    assert mapped("bicubic", "C", capacity).value(suction, discharge) * BTU_PER_HOUR == pytest.approx(
        nominal[0], rel=0.0025
    )
    assert mapped("bicubic", "C", power).value(suction, discharge) / 1000 == pytest.approx(nominal[1], abs=0.06)


# Source: openstudio-standards refrigeration_compressors.csv, evaluated by hand; agreement 0.05 %.
BICUBIC = [
    (
        "8.11",
        (-30, 40),
        [
            *(58336.86118, 1561.7435, 6.606812861, -283.6500679, -0.120234941),
            *(-12.49574858, -0.116278559, 0.002277001, -0.118148325, 0.032839613),
        ],
        18342.8,
    ),
    (
        "8.11 power",
        (-30, 40),
        [
            *(6274.990362, 61.39066125, 1.620853748, 129.1127948, 0.874116171),
            *(1.958117256, 0.030293311, 0.005754678, 0.004653957, -0.000749905),
        ],
        9859.3,
    ),
    (
        "8.13",
        (-10, 45),
        [
            *(61412.17466, 1570.851906, 13.53344913, -500.1952361, 8.16391243),
            *(-3.689538504, 0.054485574, -0.088096805, 0.006381584, -0.037503058),
        ],
        35446.3,
    ),
    (
        "8.13 power",
        (-10, 45),
        [
            *(4994.033647, 170.249719, 2.846389112, 356.7940341, -6.307470374),
            *(-1.409856005, 0.012160476, 0.076231729, -0.057527471, 0.009054446),
        ],
        13985.9,
    ),
]


@pytest.mark.parametrize(("number", "at_c", "terms", "expected"), BICUBIC, ids=[row[0] for row in BICUBIC])
def test_bicubic_maps(number: str, at_c: tuple[float, float], terms: list[float], expected: float) -> None:
    assert mapped("bicubic", "C", terms).value(*at_c) == pytest.approx(expected, rel=5e-4)


# Source: sample coefficients of a university air-conditioner model (R-410A, 3 tons), order read from its code; the
# outputs were evaluated by hand. Agreement 0.01 %.
MASS_FLOW = [217.3163128, 5.094492028, -0.593170311, 0.0438, -0.0214, 0.0104, 7.9e-05, -5.73e-05, 0.000179, -8.08e-05]
POWER = [
    -561.3615705,
    -15.62601841,
    46.92506685,
    -0.217949552,
    0.435062616,
    -0.442400826,
    0.000225,
    0.00237,
    -0.00332,
    0.0025,
]


@pytest.mark.parametrize(
    ("number", "at_f", "mass_flow", "power"),
    [("8.15", (45, 130), 459.448, 3074.97), ("8.17", (40, 110), 431.67, 2340.0)],
)
def test_maps_in_the_order_of_ahri_540(number: str, at_f: tuple[float, float], mass_flow: float, power: float) -> None:
    assert mapped("ahri-540", "F", MASS_FLOW).value(*at_f) == pytest.approx(mass_flow, rel=1e-4)
    assert mapped("ahri-540", "F", POWER).value(*at_f) == pytest.approx(power, rel=1e-4)


def test_both_orders_are_one_polynomial() -> None:
    # AHRI C1..C10 are terms 1, 2, 4, 3, 6, 5, 7, 9, 10, 8 of the bicubic order.
    bicubic = [float(one) for one in range(1, 11)]
    ahri = [bicubic[place - 1] for place in (1, 2, 4, 3, 6, 5, 7, 9, 10, 8)]
    assert mapped("ahri-540", "C", ahri).value(-7.0, 41.0) == mapped("bicubic", "C", bicubic).value(-7.0, 41.0)
    x, y = -7.0, 41.0
    powers = [1, x, x * x, y, y * y, x * y, x**3, y**3, x * x * y, x * y * y]
    by_hand = math.fsum(term * power for term, power in zip(bicubic, powers, strict=True))
    assert mapped("bicubic", "C", bicubic).value(x, y) == pytest.approx(by_hand, rel=1e-12)

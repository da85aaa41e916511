"""Mean amps against the map (AHRI 540, ten coefficients) or a like twin. Limits: CHECKS.md, 10 and 15 %."""

import pytest
from CoolProp.CoolProp import PropsSI
from uncertainties import ufloat

from tests.engine.electrical_readings import MACHINE, found, legs, value

# Ten made-up terms: 20 A at 0/100 F, more with both temperatures; in AHRI order, F.
TERMS = [8.0, 0.1, 0.12, 0.001, 0.0005, 0.0, 0.00001, 0.0, 0.00001, 0.0]
ENVELOPE = {"suction": [-40, 20], "discharge": [60, 130]}
MAPPED = {
    **MACHINE,
    "refrigerant": "R-404A",
    "ratings": {"order": "ahri-540", "temperature_unit": "F", "current": TERMS, "envelope": ENVELOPE},
}
SUCTION = value("suction_pressure", "16.0", state="running")
DISCHARGE = value("discharge_pressure", "230.0", state="running")
VOLTS = legs("line_voltage", "460.0", "460.0", "460.0")
AROUND = (SUCTION, DISCHARGE, VOLTS)


def amps(*read, **about):
    return legs("running_current", *read, **{"load": "full", **about})


def dew_f(psig):
    return PropsSI("T", "P", (psig + 14.696) * 6894.757, "Q", 1, "R404A") * 1.8 - 459.67


def by_hand(suction, discharge):
    s, d = suction, discharge
    powers = [1, s, d, s * s, s * d, d * d, s**3, d * s * s, s * d * d, d**3]
    return sum(term * power for term, power in zip(TERMS, powers, strict=True))


EXPECTED = by_hand(dew_f(16.0), dew_f(230.0))


def against(ratio, around=AROUND, machine=MAPPED, **about):
    read = f"{EXPECTED * ratio:.2f}"
    return found("current_against_expected", amps(read, read, read, **about), *around, machine=machine)


@pytest.mark.parametrize(
    ("ratio", "verdict"),
    [(1.0, "pass"), (1.09, "pass"), (1.12, "watch"), (1.17, "fail"), (0.88, "watch"), (0.80, "fail")],
)
def test_against_the_map(ratio, verdict):
    # Saturation from CoolProp, map by hand; agreement 0.1 percentage points.
    finding = against(ratio)
    assert finding["value"] == pytest.approx(100 * (ratio - 1), abs=0.1)
    assert (finding["verdict"], finding["detail"]["by"]) == (verdict, "map")


def test_high_and_low_are_named_apart():
    assert "unloader" in against(0.80)["because"]
    assert "drag" in against(1.17)["because"]


def test_amps_go_against_the_volts():
    low = legs("line_voltage", "414.0", "414.0", "414.0")
    finding = against(1.0, (SUCTION, DISCHARGE, low))
    assert finding["detail"]["expected"] == pytest.approx(EXPECTED / 0.9, rel=1e-3)


def test_uncertainty_agrees_with_an_independent_propagation():
    # The uncertainties package; dew slopes by CoolProp's central differences; agreement 1 %.
    def dew(psig):
        slope = (dew_f(psig.n + 0.5) - dew_f(psig.n - 0.5)) / 1.0
        return dew_f(psig.n) + slope * (psig - psig.n)

    digit = 1 / 12**0.5
    read = round(EXPECTED, 2)
    mean = sum(ufloat(read, 0.01 * digit) for _ in range(3)) / 3
    volts = sum(ufloat(460, 0.1 * digit) for _ in range(3)) / 3
    expected = by_hand(dew(ufloat(16, 0.1 * digit)), dew(ufloat(230, 0.1 * digit))) * 460 / volts
    percent = 100 * (mean / expected - 1)
    assert against(1.0)["uncertainty"] == pytest.approx(2 * percent.s, rel=0.01)


def test_the_bicubic_order_and_celsius_give_the_same():
    # x, x2, y, y2, xy, x3, y3, x2y, xy2 of a map linear in both temperatures; C = (F - 32) / 1.8.
    fahrenheit = [8.0, 0.1, 0.12] + [0.0] * 7
    celsius = [8.0 + 32 * 0.22, 0.18, 0.0, 0.216] + [0.0] * 6
    values = []
    for order, unit, terms in (("ahri-540", "F", fahrenheit), ("bicubic", "C", celsius)):
        machine = {**MAPPED, "ratings": {"order": order, "temperature_unit": unit, "current": terms}}
        values.append(against(1.0, machine=machine)["detail"]["expected"])
    assert values[0] == pytest.approx(values[1], rel=1e-12)


def test_outside_the_envelope_nothing_is_expected():
    warm = value("suction_pressure", "70.0", state="running")
    finding = against(1.0, (warm, DISCHARGE, VOLTS))
    assert finding["verdict"] == "cannot_tell"
    assert "suction" in finding["because"]


def test_a_map_without_its_envelope_is_used_and_said_so():
    ratings = {key: part for key, part in MAPPED["ratings"].items() if key != "envelope"}
    assert "range the map was published for" in against(1.0, machine={**MAPPED, "ratings": ratings})["because"]


@pytest.mark.parametrize(
    ("around", "about", "missing"),
    [
        ((DISCHARGE, VOLTS), {}, "suction_pressure"),
        ((SUCTION, VOLTS), {}, "discharge_pressure"),
        ((SUCTION, DISCHARGE), {}, "line_voltage"),
        (AROUND, {"load": None}, "load"),
        (AROUND, {"load": "unloaded"}, "load"),
    ],
)
def test_what_is_missing_is_named(around, about, missing):
    finding = against(1.0, around, **about)
    assert (finding["verdict"], finding["missing"]) == ("cannot_tell", [missing])


def test_without_map_or_twin_both_are_named():
    finding = against(1.0, machine=MACHINE)
    assert finding["missing"] == ["machine ratings.current", "running_current of a like twin"]


def test_the_twin_beside_it_serves_without_a_map():
    # Handbook, case F2: B2 39.2/35.4/31.6, twin B3 38.4/35.0/31.5 in the same minute.
    twin = amps("38.4", "35.0", "31.5", twin=True)
    finding = found("current_against_expected", amps("39.2", "35.4", "31.6"), twin)
    assert finding["value"] == pytest.approx(100 * (106.2 / 104.9 - 1))
    assert finding["detail"]["by"] == "twin"


@pytest.mark.parametrize(
    ("neighbour", "verdict"),
    [
        ({"like": True, "running": True}, "fail"),
        ({"like": False, "running": True}, "cannot_tell"),
        ({"like": True, "running": False}, "cannot_tell"),
    ],
)
def test_a_neighbour_must_be_like_and_running(neighbour, verdict):
    beside = [{"tag": "A6", "readings": [amps("40.0", "40.0", "40.0")], **neighbour}]
    finding = found("current_against_expected", amps("30.0", "30.0", "30.0"), neighbours=beside)
    assert finding["verdict"] == verdict


def test_a_twin_at_another_load_or_another_hour_is_no_twin():
    now, then = "2026-10-14T22:00:00Z", "2026-10-14T20:00:00Z"
    unlike = amps("40.0", "40.0", "40.0", twin=True, load="unloaded")
    old = amps("40.0", "40.0", "40.0", twin=True, at=then)
    for twin in (unlike, old):
        finding = found("current_against_expected", amps("30.0", "30.0", "30.0", at=now), twin)
        assert finding["verdict"] == "cannot_tell"

"""The unloader's step in amps."""

import pytest
from uncertainties import ufloat

from tests.engine.plant_readings import found


def step(loaded, unloaded, **more):
    legs = {"loaded": loaded, "unloaded": unloaded}
    return {"point": "unloader_step", "legs": legs, "unit": "A", "state": "running", **more}


def unloader(loaded, unloaded, **more):
    return found("unloader", {}, step(loaded, unloaded), **more)


# CHECKS.md, unloader: a step of at least 15 %; the handbook (A15) calls 20 to 40 % usual.
@pytest.mark.parametrize(
    ("loaded", "unloaded", "verdict"),
    [
        ("25.0", "17.5", "pass"),
        ("25.0", "20.0", "pass"),
        ("25.0", "22.5", "fail"),
        ("25.0", "25.0", "fail"),
    ],
)
def test_step(loaded, unloaded, verdict):
    assert unloader(loaded, unloaded)["verdict"] == verdict


def test_too_coarse_a_clamp_cannot_tell():
    """7 to 6 A in whole amps: 14 %, and the digits alone are 7.6 % wide."""
    assert unloader("7", "6")["verdict"] == "cannot_tell"


def test_what_a_clamp_reads_wrong_on_both_cancels():
    """5 % of reading, common to both, changes the ratio not at all; the position in the jaw does."""
    meters = {"clamp": {"kind": "clamp", "points": {"unloader_step": {"percent": 5.0}}}}
    told = found("unloader", {}, step("25.0", "17.5", meter="clamp"), meters=meters)
    spread = [(0.01 / 12 + (0.01 * amps) ** 2 / 3) ** 0.5 for amps in (25.0, 17.5)]
    loaded, unloaded = ufloat(25.0, spread[0]), ufloat(17.5, spread[1])
    assert told["uncertainty"] == pytest.approx(2 * (100 * (loaded - unloaded) / loaded).std_dev, rel=1e-9)


def test_swapped_names_are_named():
    told = unloader("17", "25")
    assert told["verdict"] == "cannot_tell"
    assert "swapped" in told["because"]


def test_no_amps_no_step():
    assert unloader("0", "0")["verdict"] == "cannot_tell"

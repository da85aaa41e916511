"""Write the engine's saturation tables from CoolProp: python saturation_tables.py [TARGET]."""

import math
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import CoolProp
from CoolProp import CoolProp as Props

TARGET = Path(__file__).parents[1] / "rackside" / "engine" / "tables" / "saturation.py"
COLDEST, WARMEST = 223.15, 338.15
# Half a millikelvin below the critical point of R-744, where both phases are still told apart.
WARMEST_R744 = 304.1277
INTERVALS = 12
PA_PER_PSI = 6894.757293168

PURE = {"R-22": "R22", "R-134a": "R134a", "R-290": "R290", "R-744": "CO2"}
PSEUDO_PURE = {"R-404A": "R404A", "R-407C": "R407C", "R-410A": "R410A", "R-507A": "R507A"}
# Shares by mass. Source: ASHRAE 34, from memory.
MIXTURES = {
    "R-407A": {"R32": 0.20, "R125": 0.40, "R134a": 0.40},
    "R-448A": {"R32": 0.26, "R125": 0.26, "R1234yf": 0.20, "R134a": 0.21, "R1234ze(E)": 0.07},
    "R-449A": {"R32": 0.243, "R125": 0.247, "R1234yf": 0.253, "R134a": 0.257},
}
REFRIGERANTS = tuple(sorted({**PURE, **PSEUDO_PURE, **MIXTURES}))
MODELS = (
    (PURE, "reference equation of state"),
    (PSEUDO_PURE, "pseudo-pure fit, bubble and dew lines apart"),
    (MIXTURES, "Helmholtz mixture of its components by mass, some binary pairs estimated (about 2 psi)"),
)
HEAD = '''"""Saturation pressures, written by server/setup/saturation_tables.py from CoolProp {version}; not by hand.

A row: refrigerant, model, warmest [K], bubble, dew. Bubble and dew are 100000 ln(p / psia) at equal steps of
temperature from COLDEST [K] to the warmest.
"""

COLDEST = {coldest}
TABLES: "tuple[tuple[str, str, float, tuple[int, ...], tuple[int, ...]], ...]" = (
'''


def saturation(refrigerant: str, quality: int) -> Callable[[float], float]:
    """Return pressure [Pa] as a function of temperature [K], asked from cold to warm; bubble is quality 0, dew 1."""
    if refrigerant in MIXTURES:
        return _stepped(_mixture(MIXTURES[refrigerant]), quality)
    state = Props.AbstractState("HEOS", PURE.get(refrigerant) or PSEUDO_PURE[refrigerant])

    def pressure(kelvin: float) -> float:
        state.update(CoolProp.QT_INPUTS, quality, kelvin)
        return float(state.p())

    return pressure


def _mixture(by_mass: dict[str, float]) -> Any:
    moles = [share / Props.PropsSI("M", name) for name, share in by_mass.items()]
    state = Props.AbstractState("HEOS", "&".join(by_mass))
    state.set_mole_fractions([amount / sum(moles) for amount in moles])
    return state


def _stepped(state: Any, quality: int) -> Callable[[float], float]:
    """Creep up in steps of a kelvin, each solved from the last: from afar the mixture solver gets lost near 65 C."""
    reached = [COLDEST]
    state.update(CoolProp.QT_INPUTS, quality, COLDEST)

    def pressure(kelvin: float) -> float:
        while reached[0] < kelvin - 1e-9:
            reached[0] = min(kelvin, reached[0] + 1.0)
            state.update_with_guesses(CoolProp.QT_INPUTS, quality, reached[0], _guesses(state))
        return float(state.p())

    return pressure


def _guesses(state: Any) -> Any:
    guesses = Props.PyGuessesStructure()
    guesses.T, guesses.p = state.T(), state.p()
    guesses.rhomolar_liq = state.saturated_liquid_keyed_output(CoolProp.iDmolar)
    guesses.rhomolar_vap = state.saturated_vapor_keyed_output(CoolProp.iDmolar)
    guesses.x, guesses.y = state.mole_fractions_liquid(), state.mole_fractions_vapor()
    return guesses


def warmest(refrigerant: str) -> float:
    """Return the upper end of a table [K]."""
    return WARMEST_R744 if refrigerant == "R-744" else WARMEST


def column(refrigerant: str, quality: int) -> tuple[int, ...]:
    """Return 100000 ln(p / psia) at the table's temperatures."""
    pressure = saturation(refrigerant, quality)
    step = (warmest(refrigerant) - COLDEST) / INTERVALS
    pressures = [pressure(COLDEST + step * index) for index in range(INTERVALS + 1)]
    return tuple(round(100000 * math.log(pascals / PA_PER_PSI)) for pascals in pressures)


def row(refrigerant: str) -> str:
    """Return one table as source text."""
    model = next(words for fluids, words in MODELS if refrigerant in fluids)
    members = (f'"{refrigerant}"', f'"{model}"', warmest(refrigerant), column(refrigerant, 0), column(refrigerant, 1))
    return "    (\n" + "".join(f"        {member},\n" for member in members) + "    ),\n"


def table_text() -> str:
    """Return the whole tables module."""
    head = HEAD.format(version=CoolProp.__version__, coldest=COLDEST)
    return head + "".join(row(refrigerant) for refrigerant in REFRIGERANTS) + ")\n"


if __name__ == "__main__":
    (Path(sys.argv[1]) if len(sys.argv) > 1 else TARGET).write_text(table_text())

"""A year of routine visits: healthy readings with the slow drifts that a trend should show."""

from random import Random
from typing import Any, NamedTuple

from . import plant
from .people import CASTELLANOS, LINDQVIST, OKAFOR
from .story import Story
from .visit import Round, Visit

VISITS_A_YEAR = 6
FIRST_DAY = 352
DAYS_BETWEEN = 61
COPPER = 234.5


class Health(NamedTuple):
    """A machine on an ordinary day, and what a year does to it (per year, as a factor)."""

    amps: float
    suction: float
    superheat: float
    discharge: float
    discharge_temperature: float
    net_oil: float
    milliohms: tuple[float, float, float]
    megohms_at_40c: float
    insulation_drift: float = 0.95
    pole_drift: float = 1.04
    oil_drift: float = 1.0


_LOW = Health(24.8, 10.5, 24, 215, 210, 32, (1.42, 1.50, 1.46), 180)
_MEDIUM = Health(33.5, 40, 27, 222, 178, 31, (1.25, 1.31, 1.28), 260)
HEALTH: dict[str, Health] = {
    **{tag: _LOW if tag[0] == "A" else _MEDIUM for tag in plant.MACHINES},
    "A2": _LOW._replace(net_oil=34, oil_drift=0.74),
    "A4": _LOW._replace(megohms_at_40c=210, insulation_drift=0.45),
    "B1": _MEDIUM._replace(amps=32.0, suction=38.5, discharge=208, milliohms=(1.20, 1.28, 1.36)),
    "B4": _MEDIUM._replace(amps=38.5, milliohms=(1.21, 1.24, 1.22), pole_drift=1.36),
}
# What was topped up at a visit: a machine's tag and which of its visits.
ADDED: dict[tuple[str, int], tuple[tuple[str, str, str], ...]] = {
    ("A2", 3): (("oil_added", "16", "floz"),),
    ("A2", 5): (("oil_added", "24", "floz"),),
    ("A5", 1): (("refrigerant_added", "38", "lb"),),
    ("A5", 4): (("refrigerant_added", "64.5", "lb"),),
    ("B2", 2): (("refrigerant_added", "22", "lb"),),
}
# The addition that the office looked into.
TOPPED_UP = ("A5", 4)
# Dew temperature of R-448A by gauge pressure [psig, F]; handbook A, pressure and temperature crib.
DEW = ((6.7, -25), (9.5, -20), (16.0, -10), (23.8, 0), (38.3, 15), (43.9, 20), (50.0, 25))


def write_year(story: Story) -> None:
    """Write every machine's routine visits; the seed decides each reading."""
    for number, tag in enumerate(plant.MACHINES):
        for turn in range(VISITS_A_YEAR):
            day = FIRST_DAY - turn * DAYS_BETWEEN - 3 * number
            _RoutineVisit(story, tag, turn, day).write()
    write_trail(story)


def write_trail(story: Story) -> None:
    """Write what the office noted after rack A took more than usual: the leak, its repair and the first test."""
    tag, turn = TOPPED_UP
    topped_up = FIRST_DAY - turn * DAYS_BETWEEN - 3 * list(plant.MACHINES).index(tag)
    told = (
        (1, {"kind": "leak_found", "what": "flare of the liquid line at the receiver, by soap"}),
        (2, {"kind": "recovered", "pounds": "6.5", "what": "to open the flare"}),
        (2, {"kind": "repaired", "what": "flare made anew, R. Lindqvist"}),
        (2, {"kind": "first_test", "result": "held", "what": "nitrogen, then soap"}),
    )
    trail = [
        {"id": story.id_of(f"trail {place}"), "rack": "A", "by": CASTELLANOS.name, **noted}
        | {"on": story.day(topped_up - later, "12:00").date().isoformat()}
        for place, (later, noted) in enumerate(told)
    ]
    extra = {"extra": {**plant.SITE["extra"], "refrigerant_trail": trail}}
    story.write("site trail", "site", extra, CASTELLANOS, story.day(topped_up - 3, "09:00"), base=(story.site,))


def dew_temperature(psig: float) -> float:
    """Return the dew temperature [F] between the crib's lines."""
    for (low, cold), (high, warm) in zip(DEW, DEW[1:], strict=False):
        if psig <= high:
            return cold + (warm - cold) * (psig - low) / (high - low)
    return float(DEW[-1][1])


class _RoutineVisit:
    """One routine visit: readings running, locked out, and again after one start."""

    def __init__(self, story: Story, tag: str, turn: int, day: int) -> None:
        self.tag, self.turn = tag, turn
        self.chance = Random(f"{story.seed} {tag} {turn}")
        self.health = HEALTH[tag]
        self.plate = plant.PLATES[plant.MACHINES[tag]]
        self.year = turn / VISITS_A_YEAR
        clock = f"{self.chance.randrange(8, 15):02}:{self.chance.randrange(60):02}"
        technician = OKAFOR if (turn + ord(tag[1])) % 2 else LINDQVIST
        self.visit = Visit(story, f"routine {tag} {turn}", tag, technician, story.day(day, clock))
        self.amps = self.health.amps * self._near(1, 0.015)
        self.volts = self._near(476, 2)

    def write(self) -> None:
        self.visit.open("routine")
        self._running(self.visit.round("as_found"))
        self._locked_out(self.visit.wait(25).round("interim"))
        left = self.visit.wait(20).round("as_left")
        self._after_start(left)
        for point, value, unit in ADDED.get((self.tag, self.turn), ()):
            left.value(point, value, unit)
        of = self.visit.submit()
        self.visit.review(of, "accepted", hours=self.chance.randrange(2, 30))

    def _near(self, value: float, spread: float) -> float:
        """Return a number near the value, never further off than twice the spread."""
        return value + max(-2.0, min(2.0, self.chance.gauss(0, 1))) * spread

    def _legs(self, mean: float, spread: float, form: str) -> str:
        return " ".join(format(self._near(mean, spread), form) for _ in range(3))

    def _power(self, found: Round) -> None:
        found.legs("line_voltage", self._legs(self.volts, 0.7, ".0f"), "V", "running")
        found.legs("running_current", self._legs(self.amps, self.amps * 0.005, ".1f"), "A", "running", load="full")
        drops = [ohms * self._pole_factor(pole) * self.amps for pole, ohms in enumerate(self.health.milliohms)]
        found.legs("pole_drop", " ".join(format(self._near(drop, 0.4), ".0f") for drop in drops), "mV", "running")

    def _pole_factor(self, pole: int) -> float:
        """Return how far a pole has aged; a drift of more than a tenth is one pole's alone."""
        drift = self.health.pole_drift
        return float(drift**self.year) if pole == 0 or drift < 1.1 else 1.0

    def _oil(self, found: Round, since_start: int | None = None) -> None:
        net = round(self._near(self.health.net_oil * self.health.oil_drift**self.year, 0.7))
        more = {} if since_start is None else {"since_start": since_start}
        found.net_oil(net, round(self.health.suction), **more)

    def _pressures(self, found: Round) -> float:
        """Write both pressures and return the suction's."""
        suction = self._near(self.health.suction, 0.4)
        found.value("suction_pressure", f"{suction:.1f}", "psig", "running")
        found.value("discharge_pressure", f"{self._near(self.health.discharge, 4):.0f}", "psig", "running")
        return suction

    def _running(self, found: Round) -> None:
        health = self.health
        self._power(found)
        self._oil(found)
        suction = self._pressures(found)
        superheat = self._near(health.superheat, 1.5)
        found.value("oil_level", "0.5", "fraction", "running")
        found.value("oil_colour", "straw" if self.year > 0.4 else "clear")
        found.value("suction_temperature", f"{dew_temperature(suction) + superheat:.0f}", "F", "running", probe="clamp")
        hot = f"{self._near(health.discharge_temperature, 3):.0f}"
        found.value("discharge_temperature", hot, "F", "running", probe="insulated_clamp")
        found.value("sump_temperature", f"{self._near(118, 3):.0f}", "F", "running")
        found.value("starts_last_hour", str(self.chance.randrange(2, 5)))

    def _locked_out(self, found: Round) -> None:
        celsius = self._near(25, 3)
        shell: dict[str, Any] = {"leads": "off", "winding_temperature_unit": "F"}
        shell["winding_temperature"] = f"{celsius * 1.8 + 32:.0f}"
        ohms = self.plate["winding_resistance_25c"] * (COPPER + celsius) / (COPPER + 25)
        legs = self._legs(ohms, ohms * 0.003, ".3f")
        found.legs("winding_resistance", legs, "ohm", "isolated", lead_zero=True, **shell)
        megohms = self.health.megohms_at_40c * self.health.insulation_drift**self.year * 2 ** ((40 - celsius) / 10)
        read = f"{self._near(megohms, megohms * 0.02):.0f}"
        found.value("insulation_resistance", read, "Mohm", "isolated", test_voltage=500, seconds=60, **shell)

    def _after_start(self, found: Round) -> None:
        start = self.volts * self._near(0.945, 0.005)
        expected = self.plate["locked_rotor_current"] * start / self.plate["rated_voltage"]
        found.legs("start_voltage", self._legs(start, 1, ".0f"), "V", "starting", same_start=True)
        legs = self._legs(expected * self._near(0.78, 0.03), expected * 0.02, ".0f")
        more = {"same_start": True, "capture": "inrush", "duration": f"{self._near(0.25, 0.04):.2f}"}
        found.legs("start_current", legs, "A", "starting", **more)
        self.visit.wait(15)
        self._power(found)
        self._pressures(found)
        self._oil(found, since_start=900)

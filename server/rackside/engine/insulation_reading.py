"""An insulation reading in megohms, as read and corrected to 40 C."""

import math

from . import units
from .check import Measured
from .finding import Finding
from .physics.insulation import factor_to_40c, factor_to_40c_thermosetting
from .reading import Reading
from .uncertainty import COVERAGE, digit_doubt, expanded
from .winding_temperature import step_kelvin, winding_celsius

WARM_C = 20.0
# The correction to 40 C holds for a winding between these. Source: CHECKS.md; IEEE 43-2013, 6.3.
CORRECTABLE_C = (10.0, 85.0)


class InsulationReading:
    """The number of an insulation reading.

    mohm: as read [Mohm], 0 for OL. winding_c: the winding's temperature [C], None when not given. unit: as read.
    """

    def __init__(self, reading: Reading, form: str = "") -> None:
        assert reading.value is not None
        self.reading = reading
        self.id = reading.id
        self.unit = reading.unit
        self.over_limit = reading.value.over_limit()
        self.bound = reading.value.bound
        self.mohm = units.from_base(reading.value.value, "Mohm")
        self.winding_c = winding_celsius(reading)
        self.form = form

    def in_unit(self, mohm: float) -> float:
        return units.from_base(units.to_base(mohm, "Mohm"), self.unit)

    def correctable(self) -> bool:
        """Return whether the winding's temperature is known and in the range of the correction."""
        return self.winding_c is not None and CORRECTABLE_C[0] <= self.winding_c <= CORRECTABLE_C[1]

    def surely_below(self, mohm: float) -> bool:
        """Return whether the whole interval of the reading lies below an edge [Mohm]."""
        high = self.as_read().high
        return high is not None and high < mohm

    def as_read(self) -> Measured:
        return self._measured(1.0, 0.0)

    def corrected(self) -> Measured:
        """Return the reading at 40 C; the winding's temperature must be known."""
        assert self.winding_c is not None
        factor = self._factor(self.winding_c)
        return self._measured(factor, self._temperature_doubt() * factor)

    def corrected_between(self, low_c: float, high_c: float) -> Measured:
        """Return where the reading lies at 40 C when the winding is only known to be between two temperatures."""
        measured = self._measured(1.0, 0.0)
        if measured.low is not None:
            measured.low = measured.low * self._factor(low_c)
        if measured.high is not None:
            measured.high = measured.high * self._factor(high_c)
        return measured

    def _factor(self, winding_c: float) -> float:
        return factor_to_40c_thermosetting(winding_c) if self.form == "thermosetting" else factor_to_40c(winding_c)

    def _temperature_doubt(self) -> float:
        """Return the standard uncertainty of the correction, relative: ln 2 / 10 per K of the thermometer's step."""
        return math.log(2.0) / 10.0 * digit_doubt(step_kelvin(self.reading))

    def _measured(self, factor: float, temperature_doubt: float) -> Measured:
        quantity = self.reading.value
        assert quantity is not None
        value = self.mohm * factor
        scaled = factor / 1.0e6
        own = expanded([(scaled, quantity.value, quantity.doubt)])
        heat = COVERAGE * temperature_doubt * self.mohm
        measured = Measured(value, math.sqrt(own * own + heat * heat), quantity.step * scaled)
        measured.low, measured.high = quantity.interval(measured.uncertainty, value)
        if self.over_limit:
            measured.low = None if self.mohm > 0 else 1.0e9
        measured.bound = quantity.bound
        return measured


def lowest_unless_warm_and_dry(findings: "list[Finding]") -> Finding:
    """Return the finding that carries: the lowest taken with leads off, unless a later one was taken warm.

    Without any taken leads off, the lowest of all.
    """
    off = [finding for finding in findings if finding.detail.get("leads") == "off"] or findings
    lowest = off[0]
    for finding in off[1:]:
        if _order(finding) < _order(lowest):
            lowest = finding
    for finding in off:
        warm = (finding.detail.get("winding_c") or 0.0) >= WARM_C
        later = finding.at is not None and lowest.at is not None and finding.at > lowest.at
        if warm and later:
            lowest = finding
    return lowest


def _order(finding: Finding) -> float:
    """Return a finding's place from the lowest: one over the range, or without a number, is above all others."""
    if finding.detail.get("bound") == "OL" or "as_read" not in finding.detail:
        return 1.0e30
    at_40c = finding.detail.get("at_40c")
    return float(finding.detail["as_read"] if at_40c is None else at_40c)

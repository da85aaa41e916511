"""What the saturation tables say beside a line temperature, and what a line temperature needs to be judged."""

from . import units
from .call import Scene
from .check import Check, Measured, decided
from .finding import Finding, Scale, cannot_tell
from .kinds import Json
from .limits import Limit
from .odd_units import hints_of_units
from .physics import refrigerant as fluid
from .points.point import RUNNING
from .reading import Quantity, Reading
from .uncertainty import expanded

# A low-temperature machine's saturated suction. Source: CHECKS.md, application.
LOW_TEMPERATURE_F = 0.0
CRITICAL_PSIA = (("R-744", 1069.8),)
# A running machine's line can't stay this far beyond both saturation lines. Source: common practice, no source.
IMPOSSIBLE_F = 5.0


class Saturation:
    """The saturated temperature at the pressure read beside another reading.

    line: "dew" or "bubble". pressure: the reading, None when there is none. psia: absolute, by the site's air pressure.
    fahrenheit, slope [F per psi]: None and 0 when `why` (sentence key, values) tells why not; missing: what is missing.
    """

    def __init__(self, reading: Reading, point: str, line: str, scene: Scene) -> None:
        self.line = line
        self.atmosphere = scene.call.atmosphere
        self.refrigerant = scene.machine.word("refrigerant")
        self.pressure = scene.nearest(point, reading, RUNNING)
        self.psia: "float | None" = None
        self.fahrenheit: "float | None" = None
        self.slope = 0.0
        self.why: "tuple[str, Json]" = ("", {})
        self.missing: "tuple[str, ...]" = ()
        if self.pressure is None or self.pressure.value is None:
            self.why = why_not_read(point, scene, "saturation.no_pressure")
            self.missing = (point,)
        elif not self.refrigerant:
            self.why = ("saturation.no_refrigerant", {})
            self.missing = ("machine refrigerant",)
        elif self.pressure.value.bound:
            self.why = ("saturation.only_a_bound", {"point": point})
        else:
            self._look_up(self.pressure.value)

    def _look_up(self, pressure: Quantity) -> None:
        self.psia = pressure.value + self.atmosphere
        self.fahrenheit = self.at(self.psia)
        slope = fluid.dew_slope if self.line == "dew" else fluid.bubble_slope
        self.slope = slope(self.refrigerant, self.psia) or 0.0
        if self.fahrenheit is None:
            critical = [limit for name, limit in CRITICAL_PSIA if name == self.refrigerant]
            above = bool(critical) and self.psia > critical[0]
            values = {"value": pressure.as_read, "unit": pressure.unit, "refrigerant": self.refrigerant}
            self.why = ("saturation.above_critical" if above else "saturation.outside", values)

    def at(self, psia: float) -> "float | None":
        """Return the saturated temperature [F] of this line at another pressure [psi absolute]."""
        table = fluid.dew_temperature if self.line == "dew" else fluid.bubble_temperature
        return table(self.refrigerant, psia)

    def glide(self) -> float:
        """Return how far the dew and bubble temperatures lie apart [F]; a line between them carries both phases."""
        if self.psia is None:
            return 0.0
        dew = fluid.dew_temperature(self.refrigerant, self.psia)
        bubble = fluid.bubble_temperature(self.refrigerant, self.psia)
        return 0.0 if dew is None or bubble is None else dew - bubble

    def over(self, temperature: Quantity) -> Measured:
        """Return temperature minus saturated temperature [F] with what both meters leave open."""
        assert self.pressure is not None and self.pressure.value is not None and self.fahrenheit is not None
        pressure = self.pressure.value
        parts = [(1.0, temperature.value, temperature.doubt), (-self.slope, pressure.value, pressure.doubt)]
        step = max(temperature.step, pressure.step * self.slope)
        return Measured(temperature.value - self.fahrenheit, expanded(parts), step)

    def under(self, temperature: Quantity) -> Measured:
        """Return saturated temperature minus temperature [F]."""
        over = self.over(temperature)
        return Measured(-over.value, over.uncertainty, over.step)


def why_not_read(point: str, scene: Scene, absent: str) -> "tuple[str, Json]":
    """Return why no reading of a point goes with another: what is wrong with the one there is, or else `absent`."""
    for other in scene.round.readings:
        if other.point.name == point and other.problems:
            return other.problems[0]
    return absent, {"point": point}


def not_running(reading: Reading) -> bool:
    """Return whether a reading was taken on a machine that stood still."""
    return reading.state not in ("", RUNNING)


def refusal(check: str, reading: Reading, saturation: Saturation) -> "Finding | None":
    """Return why a line temperature can't be compared with saturation, None when it can."""
    if reading.option("probe") == "infrared":
        return infrared(check, reading)
    if reading.value is None or reading.value.bound:
        return cannot_tell(check, [reading], "saturation.only_a_bound", {"point": reading.point.name})
    if saturation.fahrenheit is not None:
        return None
    key, values = saturation.why
    beside = [reading] if saturation.pressure is None else [reading, saturation.pressure]
    return cannot_tell(check, beside, key, values, saturation.missing)


def infrared(check: str, reading: Reading) -> Finding:
    """Return the finding of a line temperature taken by infrared."""
    finding = cannot_tell(check, [reading], "saturation.infrared", {"point": reading.point.name})
    finding.fits = False
    return finding


def compared(
    check: Check, measured: Measured, reading: Reading, saturation: Saturation, limits: "tuple[Limit, ...]"
) -> Finding:
    """Return the decided finding of a difference [F] from saturation, told in the unit of the temperature reading."""
    assert saturation.pressure is not None and saturation.fahrenheit is not None
    scale = Scale("F", reading.unit, True)
    finding = decided(check, measured, scale, limits, [reading.id, saturation.pressure.id])
    finding.detail["saturated"] = units.from_base(saturation.fahrenheit, reading.unit)
    finding.detail["line"] = saturation.line
    finding.detail["refrigerant"] = saturation.refrigerant
    finding.said[0][1]["saturated"] = finding.detail["saturated"]
    return finding


def impossible(
    check: str, measured: Measured, reading: Reading, saturation: Saturation, usual: "tuple[float, float]", key: str
) -> "Finding | None":
    """Return a finding that names what looks wrong when the line lies beyond both saturation lines, else None.

    usual: the differences [F] that a hint at another unit must come to. key: the sentence.
    """
    if measured.value + measured.uncertainty >= -(IMPOSSIBLE_F + saturation.glide()):
        return None
    assert saturation.pressure is not None
    finding = cannot_tell(check, [reading, saturation.pressure], key, _told(reading, saturation))
    finding.fits = False
    return hint_at_units(finding, reading, saturation, usual)


def hint_at_units(
    finding: Finding,
    reading: Reading,
    saturation: Saturation,
    usual: "tuple[float, float]",
    only: "tuple[str, ...]" = (),
) -> Finding:
    """Say which other unit (of those in `only`, when told) would bring the difference [F] into the usual range."""
    assert reading.value is not None and saturation.pressure is not None and saturation.pressure.value is not None
    sign = 1.0 if saturation.line == "dew" else -1.0
    for hint, fahrenheit, psia in hints_of_units(reading.value, saturation.pressure.value, saturation.atmosphere):
        saturated = saturation.at(psia) if not only or hint in only else None
        if saturated is not None and usual[0] <= sign * (fahrenheit - saturated) <= usual[1]:
            finding.say(hint, {"point": saturation.pressure.point.name, "temperature": reading.point.name})
    return finding


def _told(reading: Reading, saturation: Saturation) -> Json:
    assert reading.value is not None and saturation.fahrenheit is not None
    saturated = units.from_base(saturation.fahrenheit, reading.unit)
    return {"value": reading.value.as_read, "saturated": saturated, "unit": reading.unit}


def application_of(scene: Scene, saturated_suction_f: "float | None") -> "tuple[str, bool]":
    """Return low, medium or high and whether it was only taken from the saturated suction [F]; "" when unknown."""
    application = scene.machine.word("application")
    if application or saturated_suction_f is None:
        return application, False
    return ("low" if saturated_suction_f <= LOW_TEMPERATURE_F else "medium"), True


def tell_application(finding: Finding, application: str, assumed: bool, saturated: float, unit: str) -> None:
    """Note in a finding which application it was judged as, and say so when nobody had written it down."""
    finding.detail["application"] = application
    if assumed:
        values = {"application": application, "value": saturated, "unit": unit}
        finding.say("saturation.application_assumed", values)

"""Does the insulation go on charging while the test volts stay on?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..limits import COMMON_PRACTICE, FROM_MEMORY, PASS, WATCH, Limit, Source, rank
from ..number import Number, read_number
from ..own_limits import limits_for
from ..reading import Quantity, Reading
from ..uncertainty import Doubt, digit_doubt, expanded
from ..units import from_base, span_to_base, to_base

DAR = Source("60 s / 30 s: 1.25 and above is good, below 1 is bad", "", "", COMMON_PRACTICE)
PI = Source("IEEE 43", "12.2.2: 600 s / 60 s at least 2 for classes B, F and H", "2013", FROM_MEMORY)
RISING = Source("a small random winding need only not fall while its insulation passes", "", "", COMMON_PRACTICE)
LIMITS = (
    Limit(WATCH, None, 1.0, "ratio", RISING, "insulation passes"),
    Limit(WATCH, None, 1.25, "ratio", DAR, "60 s / 30 s, insulation does not pass"),
    Limit(WATCH, None, 2.0, "ratio", PI, "600 s / 60 s, insulation does not pass"),
)
# Above this the testers' last digits decide the ratio. Source: CHECKS.md (IEEE 43 waives the index above 5000 Mohm).
JUDGED_TO_MOHM = 1000.0
RATIOS = (("at_30s", "dielectric_absorption", LIMITS[1]), ("at_600s", "polarization_index", LIMITS[2]))


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge 60 s / 30 s and 600 s / 60 s where they were read; the worse speaks."""
    at_60s = reading.value
    given = [row for row in RATIOS if reading.option(row[0]) is not None]
    if at_60s is None or not given:
        return None
    if at_60s.over_limit() or from_base(at_60s.value, "Mohm") > JUDGED_TO_MOHM:
        return cannot_tell(CHECK.name, [reading], "insulation_ratio.too_high", {"limit": JUDGED_TO_MOHM})
    passes = scene.verdict_of("insulation", reading) == PASS
    worst: "Finding | None" = None
    detail = {}
    for field, name, strict in given:
        limits = limits_for(CHECK, scene, (LIMITS[0] if passes else strict,))
        finding = _one(reading, at_60s, field, limits)
        detail[name] = finding.value
        if worst is None or rank(finding.verdict) > rank(worst.verdict):
            worst = finding
    assert worst is not None
    worst.detail.update(detail)
    worst.detail["insulation_passes"] = passes
    return worst


def _one(reading: Reading, at_60s: Quantity, field: str, limits: "tuple[Limit, ...]") -> Finding:
    other = read_number(reading.raw.get(field))
    if other is None or other.bound or at_60s.bound or other.value <= 0 or at_60s.value <= 0:
        return cannot_tell(CHECK.name, [reading], "insulation_ratio.unread", {"field": field}, (field,))
    told = _quantity(other, at_60s)
    early, late = (at_60s, told) if field == "at_600s" else (told, at_60s)
    ratio = late.value / early.value
    parts = [(1.0 / early.value, late.value, late.doubt), (-ratio / early.value, early.value, early.doubt)]
    finding = decided(CHECK, Measured(ratio, expanded(parts)), Scale("ratio", "ratio"), limits, [reading.id])
    finding.said[0][1]["seconds"] = [60, 30] if field == "at_30s" else [600, 60]
    if ratio < 1.0 and finding.said[0][0] == "insulation_ratio.watch":
        finding.said[0] = ("insulation_ratio.falls", finding.said[0][1])
    return finding


def _quantity(number: Number, like: Quantity) -> Quantity:
    """Return a number of the same test, in the unit and with the meter of the 60 s reading."""
    step = span_to_base(number.step, like.unit)
    doubt = Doubt(max(digit_doubt(step), like.doubt.own), like.doubt.shared, like.doubt.group)
    return Quantity(to_base(number.value, like.unit), step, "", doubt, like.unit, number.value)


CHECK = Check(
    name="insulation_ratio",
    reads=("insulation_resistance",),
    unit="ratio",
    formula="60 s / 30 s; 600 s / 60 s",
    limits=LIMITS,
    sources=(DAR, PI, RISING),
    example={
        "machine": {"type": "semi-hermetic-reciprocating"},
        "readings": [
            {
                "point": "insulation_resistance",
                "value": "200",
                "at_600s": "500",
                "unit": "Mohm",
                "state": "isolated",
                "leads": "off",
                "winding_temperature": 25,
                "winding_temperature_unit": "C",
            }
        ],
        "value": 2.5,
        "tolerance": 1e-9,
        "verdict": "pass",
        "source": "IEEE 43-2013: polarization index 500 / 200",
    },
    find=find,
)

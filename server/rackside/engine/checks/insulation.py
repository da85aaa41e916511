"""Does the winding hold off the shell?"""

from ..call import Scene
from ..check import Check, decided
from ..finding import Finding, Scale, cannot_tell
from ..insulation_reading import CORRECTABLE_C, InsulationReading, lowest_unless_warm_and_dry
from ..kinds import Json
from ..limits import CANNOT_TELL, COMMON_PRACTICE, FAIL, FROM_MEMORY, PASS, PUBLISHED, WATCH, Limit, Source, lower
from ..own_limits import has_own_limits, limits_for
from ..reading import Reading

IEEE43 = Source("IEEE 43", "Table 3 (5 Mohm, random wound and below 1 kV)", "2013", FROM_MEMORY)
SERVICE = Source(
    "hermetic motor service practice: 10 s and 60 s readings both at least 50 Mohm", "", "", COMMON_PRACTICE
)
CORRECTION = Source("IEEE 43", "6.3", "2013", PUBLISHED)
WELDED = Source(
    "makers of welded compressors accept readings down to 0.5 Mohm; the machine's own bulletin wins",
    "",
    "",
    COMMON_PRACTICE,
)
CORRECTED = (
    Limit(WATCH, None, 50.0, "Mohm", SERVICE, "semi-hermetic and open, corrected to 40 C"),
    Limit(FAIL, None, 5.0, "Mohm", IEEE43, "semi-hermetic and open, corrected to 40 C"),
)
WELDED_LIMITS = lower(20.0, 0.5, "Mohm", WELDED, "welded scroll or reciprocating, as read")
# Below this, as read, no moisture explains it away. Source: CHECKS.md, insulation (common practice, no source).
GROUNDED_MOHM = 0.5
# Colder than the correction reaches a winding reads higher than at 40 C: what is a ground there is one everywhere.
GROUNDED = lower(None, GROUNDED_MOHM, "Mohm", SERVICE, "as read, winding below 10 C")
# A welded machine between a grounded and a plainly accepted reading needs its maker's number. Source: CHECKS.md.
WELDED_OPEN_QUESTION_MOHM = 1.0
COLD_WINDING_C = 20.0
COLD_SUMP_F = 60.0
SUMP_OVER_AMBIENT_F = 20.0
DAMP_SIGNS = ("oil_glass_full", "oil_foam", "frost_on_crankcase", "terminal_box_wet")


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the 60 s insulation resistance by the kind of machine, its temperature and its own minimum."""
    megohms = InsulationReading(reading, scene.machine.word("insulation_form"))
    if scene.machine.number("insulation_minimum") is not None:
        finding = _as_read(megohms, scene, _own_minimum(scene))
    elif scene.machine.kind() == "welded" or has_own_limits(CHECK, scene):
        finding = _as_read(megohms, scene, limits_for(CHECK, scene, WELDED_LIMITS))
    else:
        finding = _corrected(megohms, scene)
    _tell(finding, megohms)
    if finding.verdict in (WATCH, FAIL) and _may_be_damp(megohms, scene):
        finding.verdict = CANNOT_TELL
        finding.said = [("insulation.damp", {"value": megohms.mohm, "unit": "Mohm"})]
    _say_what_was_joined(finding, reading)
    return finding


def _own_minimum(scene: Scene) -> "tuple[Limit, ...]":
    source = Source("this machine's insulation minimum", "", "", PUBLISHED)
    return (Limit(FAIL, None, scene.machine.number("insulation_minimum"), "Mohm", source, "as read"),)


def _as_read(megohms: InsulationReading, scene: Scene, limits: "tuple[Limit, ...]") -> Finding:
    finding = decided(CHECK, megohms.as_read(), Scale("Mohm", megohms.unit), limits, [megohms.id])
    welded = limits is WELDED_LIMITS
    if welded and finding.verdict == WATCH and megohms.mohm < WELDED_OPEN_QUESTION_MOHM:
        finding.verdict = CANNOT_TELL
        finding.missing = ["machine insulation_minimum"]
        finding.said = [("insulation.makers_number", {"value": megohms.mohm})]
    return finding


def _corrected(megohms: InsulationReading, scene: Scene) -> Finding:
    low, high = CORRECTABLE_C
    if megohms.winding_c is not None and not megohms.correctable():
        if megohms.winding_c < low and megohms.surely_below(GROUNDED_MOHM):
            return decided(CHECK, megohms.as_read(), Scale("Mohm", megohms.unit), GROUNDED, [megohms.id])
        values = {"low": low * 1.8 + 32.0, "high": high * 1.8 + 32.0, "unit": "F"}
        return cannot_tell(CHECK.name, [megohms.reading], "insulation.temperature_out_of_range", values)
    measured = megohms.corrected() if megohms.winding_c is not None else megohms.corrected_between(low, high)
    finding = decided(CHECK, measured, Scale("Mohm", megohms.unit), CORRECTED, [megohms.id])
    if finding.verdict in (WATCH, CANNOT_TELL) and megohms.winding_c is None:
        finding.verdict = CANNOT_TELL
        finding.said = [("insulation.no_temperature", {})]
        finding.missing = ["winding_temperature"]
    return finding


def _tell(finding: Finding, megohms: InsulationReading) -> None:
    if not megohms.over_limit:
        finding.detail["as_read"] = megohms.in_unit(megohms.mohm)
    finding.detail["leads"] = megohms.reading.option("leads") or "unstated"
    if megohms.bound:
        finding.detail["bound"] = megohms.bound
    if megohms.winding_c is not None:
        finding.detail["winding_c"] = megohms.winding_c
        if megohms.correctable() and not megohms.over_limit:
            finding.detail["at_40c"] = megohms.in_unit(megohms.corrected().value)
    if megohms.over_limit:
        finding.value = finding.uncertainty = None
        if finding.verdict == PASS:
            finding.said = []
        finding.say("insulation.over_limit")


def _may_be_damp(megohms: InsulationReading, scene: Scene) -> bool:
    """Return whether cold refrigerant or water may explain a low reading of a winding below 20 C."""
    if megohms.mohm < GROUNDED_MOHM or megohms.winding_c is None or megohms.winding_c >= COLD_WINDING_C:
        return False
    return any(scene.sign(sign) for sign in DAMP_SIGNS) or _cold_sump(scene)


def _cold_sump(scene: Scene) -> bool:
    sump = scene.newest("sump_temperature")
    if sump is None or sump.value is None:
        return False
    ambient = scene.newest("ambient_temperature")
    if ambient is not None and ambient.value is not None:
        return sump.value.value < ambient.value.value + SUMP_OVER_AMBIENT_F
    return sump.value.value < COLD_SUMP_F


def _say_what_was_joined(finding: Finding, reading: Reading) -> None:
    if reading.option("leads") == "off":
        return
    if finding.verdict == PASS:
        finding.say("insulation.clears_both")
    elif finding.verdict in (WATCH, FAIL):
        finding.say("insulation.names_neither")


EXAMPLE: Json = {
    "machine": {"type": "semi-hermetic-reciprocating"},
    "readings": [
        {
            "point": "insulation_resistance",
            "value": "180",
            "unit": "Mohm",
            "state": "isolated",
            "leads": "off",
            "winding_temperature": 22,
            "winding_temperature_unit": "C",
        }
    ],
    "value": 51.69142597486657,
    "tolerance": 1e-9,
    "verdict": "watch",
    "source": "halving form of IEEE 43-2013, 6.3: 180 Mohm at 22 C is 51.7 at 40 C (the handbook prints 52); "
    "one degree of the thermometer reaches below the 50 Mohm line",
}
CHECK = Check(
    name="insulation",
    reads=("insulation_resistance", "sump_temperature", "ambient_temperature"),
    unit="Mohm",
    formula="semi-hermetic, open: as read x 0.5^((40 - winding C) / 10); welded: as read",
    limits=CORRECTED + WELDED_LIMITS,
    sources=(IEEE43, CORRECTION, SERVICE, WELDED),
    example=EXAMPLE,
    find=find,
    carry=lowest_unless_warm_and_dry,
)

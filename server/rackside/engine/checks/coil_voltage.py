"""Does the contactor's coil get its volts when it is called, and none when it is not?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..limits import FAIL, FROM_MEMORY, Limit, Source, rank
from ..own_limits import limits_for
from ..reading import Quantity, Reading
from ..uncertainty import expanded

COIL = Source(
    "IEC 60947-4-1 and NEMA ICS 2: a contactor operates from 85 to 110 % of its coil's rated volts", "", "", FROM_MEMORY
)
CALLED = (
    Limit(FAIL, None, 85.0, "%", COIL, "called"),
    Limit(FAIL, 110.0, None, "%", COIL, "called"),
)
NOT_CALLED = (Limit(FAIL, 10.0, None, "%", COIL, "not called"),)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the coil's volts against its rating, by whether it was being called."""
    rated = scene.machine.number("coil_voltage")
    volts = reading.value
    called = reading.option("called")
    if called is None:
        finding = cannot_tell(CHECK.name, [reading], "coil_voltage.called", {}, ("called",))
        finding.fits = False
        return finding
    if rated is None or volts is None:
        return cannot_tell(CHECK.name, [reading], "coil_voltage.no_plate", {}, ("machine coil_voltage",))
    return _judged(reading, volts, rated, scene) if called else _not_called(reading, volts, rated)


def _measured(volts: Quantity, rated: float) -> Measured:
    uncertainty = expanded([(100.0 / rated, volts.value, volts.doubt)])
    return Measured(100.0 * volts.value / rated, uncertainty, 100.0 * volts.step / rated)


def _judged(reading: Reading, volts: Quantity, rated: float, scene: Scene) -> Finding:
    finding = decided(CHECK, _measured(volts, rated), Scale("%", "%"), limits_for(CHECK, scene, CALLED), [reading.id])
    finding.detail.update({"called": True, "moment": reading.option("moment") or "unstated"})
    low = finding.value is not None and finding.value < 100.0
    if finding.verdict == FAIL:
        finding.said = [("coil_voltage.low" if low else "coil_voltage.high", finding.said[0][1])]
    return finding


def _not_called(reading: Reading, volts: Quantity, rated: float) -> Finding:
    finding = decided(CHECK, _measured(volts, rated), Scale("%", "%"), NOT_CALLED, [reading.id])
    finding.detail["called"] = False
    finding.said[0] = ("coil_voltage.not_called_" + finding.verdict, finding.said[0][1])
    return finding


def worst_of_both_moments(findings: "list[Finding]") -> Finding:
    """Return the worse of the newest at pull-in and the newest sealed; readings while called go before all others."""
    called = [finding for finding in findings if finding.detail.get("called")] or findings
    latest: "dict[str, Finding]" = {}
    for finding in called:
        moment = str(finding.detail.get("moment"))
        if moment not in latest or _replaces(finding, latest[moment]):
            latest[moment] = finding
    chosen = latest[sorted(latest)[0]]
    for moment in sorted(latest):
        if rank(latest[moment].verdict) > rank(chosen.verdict):
            chosen = latest[moment]
    return chosen


def _replaces(finding: Finding, other: Finding) -> bool:
    if finding.at is None or other.at is None or finding.at == other.at:
        return rank(finding.verdict) > rank(other.verdict)
    return finding.at > other.at


CHECK = Check(
    name="coil_voltage",
    reads=("coil_voltage",),
    unit="%",
    formula="100 x coil volts / rated coil volts, the worse of pull-in and sealed",
    limits=CALLED + NOT_CALLED,
    sources=(COIL,),
    example={
        "machine": {"coil_voltage": 120},
        "readings": [
            {
                "point": "coil_voltage",
                "value": "112",
                "unit": "V",
                "state": "stopped",
                "called": True,
                "moment": "pull_in",
            }
        ],
        "value": 93.33333333333333,
        "tolerance": 1e-9,
        "verdict": "pass",
        "source": "handbook, case F4: 112 V at pull-in on a 120 V coil, 93 % of its rating",
    },
    find=find,
    carry=worst_of_both_moments,
)

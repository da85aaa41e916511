"""What the checks make of the field under the thumb, before it is kept."""

from .call import Call, Round, Scene
from .check import Check
from .finding import Finding
from .judge import computed, judged_reading
from .reading import Reading
from .so_far import begun, unfinished


def looked(call: Call, round_: Round, reading: Reading, checks: "tuple[Check, ...]") -> "list[Finding]":
    """Return what every check that uses this reading would say, were it kept in this round."""
    readings = [other for other in round_.readings if other.id != reading.id or not reading.id]
    trial = Round({"id": round_.id, "label": round_.label, "at": round_.at_text}, readings + [reading])
    scene = Scene(call, trial, checks)
    findings = []
    for check in checks:
        if reading.point.name not in check.reads:
            continue
        for judged in trial.readings:
            if judged.point.name not in check.judges:
                continue
            if reading.point.name in check.judges and judged is not reading:
                continue
            finding = _so_far(check, judged, scene) or judged_reading(check, judged, scene)
            if finding is not None:
                findings.append(finding)
    return findings


def _so_far(check: Check, reading: Reading, scene: Scene) -> "Finding | None":
    """Return what the legs typed so far tell, None when the reading is whole or they tell this check nothing."""
    part = begun(reading) if check.so_far is not None else None
    if part is None:
        return None
    found = computed(check, check.so_far, part, scene)
    if found is None or not found.legs:
        return None
    return unfinished(found, reading)

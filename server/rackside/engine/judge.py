"""Run every check over every round and put the answers together."""

from .call import Call, Round, Scene
from .check import FINER_STEP, Check, finer_step
from .finding import Finding, Scale, cannot_tell, unread
from .kinds import Any, Json
from .limits import CANNOT_TELL, FAIL, ORDER, PASS, WATCH, rank
from .own_limits import OWN, unusable_unit
from .reading import Reading
from .say import say
from .so_far import begun
from .suspicion import suspicions_of
from .told_limit import told_detail, told_limit
from .units import dimension, span_from_base

# Units that no meter shows.
RELATIVE = ("%", "ratio")


def judged_rounds(call: Call, checks: "tuple[Check, ...]") -> "list[tuple[Round, list[Finding]]]":
    """Return each round with its findings, the carrying one of each check marked."""
    return [(round_, _judged_round(Scene(call, round_, checks), checks)) for round_ in call.rounds]


def _judged_round(scene: Scene, checks: "tuple[Check, ...]") -> "list[Finding]":
    findings = []
    for check in checks:
        found = []
        for reading in scene.round.readings:
            if reading.point.name in check.judges:
                finding = judged_reading(check, reading, scene)
                if finding is not None:
                    found.append(finding)
        mark_carrying(found, check)
        findings.extend(found)
    return findings


def judged_reading(check: Check, reading: Reading, scene: Scene) -> "Finding | None":
    """Return one check's finding on one reading, None when it has nothing to say about it."""
    if reading.option("twin"):
        return None
    finding = unread(check.name, reading)
    if finding is not None:
        finding = _beyond_already(check, reading, scene, finding)
    if finding is None:
        finding = _found(check, reading, scene)
    elif reading.not_taken and check.untaken is not None:
        finding = check.untaken(reading) or finding
    if finding is None:
        return None
    finding.at, finding.point = reading.at, reading.point.name
    _name_the_step(finding, reading)
    if any(limit.get("when") == OWN for limit in finding.limits):
        finding.say("limit.own", {"source": (scene.machine.own_limits(check.name) or {}).get("source")})
    if finding.limits and unusable_unit(check, scene):
        finding.say("limit.own_unit", {"unit": unusable_unit(check, scene), "wanted": check.unit})
    extra = reading.raw.get("extra")
    versions = extra.get("two_versions") if isinstance(extra, dict) else None
    if isinstance(versions, list) and versions:
        finding.say("reading.two_versions", {"members": versions})
    return finding


def _beyond_already(check: Check, reading: Reading, scene: Scene, unread_: Finding) -> Finding:
    """Return the fail of a leg that is beyond its limit whatever the missing ones read, else what is missing."""
    part = begun(reading) if check.so_far is not None else None
    found = computed(check, check.so_far, part, scene) if part is not None else None
    if found is None or found.verdict != FAIL:
        return unread_
    found.missing = unread_.missing + found.missing
    found.said.extend(unread_.said)
    return found


def _name_the_step(finding: Finding, reading: Reading) -> None:
    """Tell the finer step in the unit the meter shows, where the check's own is a percentage or a ratio of it."""
    shown = [quantity for quantity in reading.quantities() + [reading.value] if quantity is not None]
    steps = [span_from_base(quantity.step, quantity.unit) for quantity in shown]
    for key, values in finding.said:
        if key == FINER_STEP and values["unit"] in RELATIVE and steps and max(steps) > 0:
            values["step"], values["step_unit"] = finer_step(max(steps), values), shown[0].unit


def _found(check: Check, reading: Reading, scene: Scene) -> "Finding | None":
    """Return the check's own finding, with what looks wrong about the reading; an impossible one is not judged."""
    found = computed(check, check.find, reading, scene)
    if found is None:
        return None
    for suspicion in suspicions_of(reading, scene):
        if suspicion.impossible:
            found = cannot_tell(check.name, [reading], suspicion.key, suspicion.values)
            found.fits = False
            return found
        found.say(suspicion.key, suspicion.values)
    return found


def computed(check: Check, find: Any, reading: Reading, scene: Scene) -> "Finding | None":
    """Return what a check finds; numbers so far out that no arithmetic holds them are not judged."""
    try:
        found: "Finding | None" = find(reading, scene)
        if found is None or found.finite():
            return found
    except (OverflowError, ZeroDivisionError, ValueError):
        pass
    finding = cannot_tell(check.name, [reading], "reading.beyond_arithmetic", {"point": reading.point.name})
    finding.fits = False
    return finding


def mark_carrying(findings: "list[Finding]", check: Check) -> None:
    """Mark the finding that carries the check: the newest in the right condition; without times the worse verdict."""
    if not findings:
        return
    fitting = [finding for finding in findings if finding.fits] or findings
    chosen = check.carry(fitting) if check.carry is not None else newest(fitting)
    chosen.carries = True
    for finding in fitting:
        if finding is not chosen and finding.point == chosen.point:
            finding.say("suspicion.another_carries")


def newest(findings: "list[Finding]") -> Finding:
    """Return the finding with the latest time; where times are missing or the same, the worse."""
    chosen = findings[0]
    for finding in findings[1:]:
        if finding.at is None or chosen.at is None or finding.at == chosen.at:
            later = rank(finding.verdict) > rank(chosen.verdict)
        else:
            later = finding.at > chosen.at
        if later:
            chosen = finding
    return chosen


def finding_json(finding: Finding, language: str) -> Json:
    """Return a finding as the contract writes it."""
    spoken = [say(key, values, language) for key, values in finding.said]
    key, values = finding.said[0] if finding.said else ("", {})
    told: Json = {
        "check": finding.check,
        "verdict": finding.verdict,
        "value": finding.value,
        "unit": finding.unit or None,
        "uncertainty": finding.uncertainty,
        "legs": finding.legs,
        "limits": [told_limit(limit, language) for limit in finding.limits],
        "detail": told_detail(finding.detail, language),
        "because": " ".join(spoken),
        "said": {"key": key, "values": values},
        "readings": [reading for reading in finding.readings if reading],
        "missing": finding.missing,
        "carries": finding.carries,
    }
    if len(finding.said) > 1:
        told["also"] = [{"key": key, "values": values} for key, values in finding.said[1:]]
    return told


def rounds_json(judged: "list[tuple[Round, list[Finding]]]", language: str) -> "list[Json]":
    """Return the rounds of the result."""
    rounds = []
    for round_, findings in judged:
        told: Json = {"label": round_.label, "findings": [finding_json(finding, language) for finding in findings]}
        if round_.id:
            told["round"] = round_.id
        if round_.at_text:
            told["at"] = round_.at_text
        rounds.append(told)
    return rounds


def standing(judged: "list[tuple[Round, list[Finding]]]") -> "dict[str, Finding]":
    """Return, for each check, the carrying finding of the latest round that has one; a reading left out takes back
    nothing."""
    found: "dict[str, Finding]" = {}
    for _, findings in _in_time(judged):
        for finding in findings:
            if finding.carries and not (finding.unread() and finding.check in found):
                found[finding.check] = finding
    return found


def _in_time(judged: "list[tuple[Round, list[Finding]]]") -> "list[tuple[Round, list[Finding]]]":
    """Return the rounds by label (as found before as left), then time, then the order given."""
    order = {"as_found": 0, "interim": 1, "as_left": 2}
    keyed = []
    for index in range(len(judged)):
        round_ = judged[index][0]
        keyed.append((order.get(round_.label, 1), round_.at or 0.0, index))
    return [judged[index] for _, _, index in sorted(keyed)]


def summary(stand: "dict[str, Finding]", gates: Json) -> Json:
    """Return the call in one line: the worst standing verdict and which checks have it."""
    by_verdict: "dict[str, list[str]]" = {verdict: [] for verdict in ORDER}
    for check in sorted(stand):
        by_verdict[stand[check].verdict].append(check)
    worst = PASS
    for verdict in ORDER:
        if by_verdict[verdict]:
            worst = verdict
    return {
        "verdict": worst if stand else CANNOT_TELL,
        "fail": by_verdict[FAIL],
        "watch": by_verdict[WATCH],
        "cannot_tell": by_verdict[CANNOT_TELL],
        "gates": {name: gates[name]["open"] for name in gates},
    }


def comparison(call: Call, judged: "list[tuple[Round, list[Finding]]]", checks: "tuple[Check, ...]") -> "list[Json]":
    """Return the first as-found value beside the last as-left value of each check that has both, in the latter's
    unit."""
    before: "dict[str, Finding]" = {}
    after: "dict[str, Finding]" = {}
    for round_, findings in _in_time(judged):
        for finding in findings:
            if not finding.carries or finding.value is None:
                continue
            if round_.label == "as_found" and finding.check not in before:
                before[finding.check] = finding
            if round_.label == "as_left":
                after[finding.check] = finding
    pairs: "list[Any]" = []
    differences = [check.name for check in checks if check.difference]
    for name in sorted(before):
        first, last = before[name], after.get(name)
        if last is None or dimension(first.unit) != dimension(last.unit):
            continue
        scale = Scale(first.unit, last.unit, name in differences, call.atmosphere)
        found = None if first.value is None else scale.value(first.value)
        pairs.append({"check": name, "as_found": found, "as_left": last.value, "unit": last.unit})
    return pairs

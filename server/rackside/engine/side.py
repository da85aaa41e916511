"""On which side of its limits a value lies, for the words that say what to do about it."""

from .finding import Finding


def say_side(finding: Finding, sides: "tuple[str, ...]") -> Finding:
    """Let a verdict that has a sentence for its side be spoken by it; sides like "watch_low" name those there are."""
    spoken, values = finding.said[0]
    side = finding.verdict + "_" + _side(finding)
    if spoken == finding.check + "." + finding.verdict and side in sides:
        finding.said[0] = (finding.check + "." + side, values)
    return finding


def _side(finding: Finding) -> str:
    for limit in finding.limits:
        if limit["verdict"] != finding.verdict or finding.value is None:
            continue
        if limit.get("above") is not None and finding.value > limit["above"]:
            return "high"
        if limit.get("below") is not None and finding.value < limit["below"]:
            return "low"
    return ""

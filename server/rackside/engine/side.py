"""On which side of its limits a value lies, for the words that say what to do about it."""

from .finding import Finding


def say_side(finding: Finding) -> Finding:
    """Let a watch or fail be spoken by its own sentence for too high or too low: "<check>.<verdict>_high" or "_low"."""
    key = finding.check + "." + finding.verdict
    spoken, values = finding.said[0]
    if spoken != key or finding.value is None:
        return finding
    for limit in finding.limits:
        if limit["verdict"] != finding.verdict:
            continue
        if limit.get("above") is not None and finding.value > limit["above"]:
            finding.said[0] = (key + "_high", values)
        if limit.get("below") is not None and finding.value < limit["below"]:
            finding.said[0] = (key + "_low", values)
    return finding

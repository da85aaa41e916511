"""Which finding carries a check that judges readings of two points, each by its own limits."""

from .finding import Finding
from .judge import newest
from .limits import rank


def worse_of_both(findings: "list[Finding]") -> Finding:
    """Return, of the newest finding of each point (detail "point"), the worse."""
    points = sorted({finding.detail.get("point", "") for finding in findings})
    chosen = None
    for point in points:
        latest = newest([finding for finding in findings if finding.detail.get("point", "") == point])
        if chosen is None or rank(latest.verdict) > rank(chosen.verdict):
            chosen = latest
    assert chosen is not None
    return chosen

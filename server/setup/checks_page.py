"""Write server/docs/checks.md: every point, check and limit with its source, as the engine describes them.

Run with --check to only tell whether the page is stale.
"""

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from rackside import host

PAGE = Path(__file__).parents[1] / "docs" / "checks.md"
HEAD = """# Points, checks and limits

Made by `python server/setup/checks_page.py` from the engine itself; a test fails when it is stale. A machine's own
limits, from its bulletin, win over every default below and are named as such in the finding.
"""


def page(words: dict[str, Any]) -> str:
    return "\n".join([HEAD, *_points(words), "", *_checks(words)]) + "\n"


def _points(words: dict[str, Any]) -> Iterator[str]:
    yield "## Points\n"
    yield "| point | title | legs or value | units | states | believed from … to |"
    yield "|---|---|---|---|---|---|"
    for point in words["points"]:
        keys = ", ".join(point["keys"]) or ", ".join(f"`{word}`" for word in point["words"]) or "value"
        span = f"{point['low']:g} … {point['high']:g}" if point["units"] else ""
        cells = [
            f"`{point['name']}`",
            point["title"],
            keys,
            ", ".join(point["units"]),
            ", ".join(point["states"]),
            span,
        ]
        yield "| " + " | ".join(cells) + " |"


def _checks(words: dict[str, Any]) -> Iterator[str]:
    yield "## Checks"
    for check in words["checks"]:
        yield f"\n### `{check['check']}`: {check['title']}\n"
        yield f"Reads {', '.join(f'`{point}`' for point in check['reads'])}. Value: {check['formula']}.\n"
        if check["limits"]:
            yield "| verdict | limit | when | source | status |\n|---|---|---|---|---|"
        for limit in check["limits"]:
            yield _limit_row(limit)
        yield f"\nWorked example: {check['example']['source']}: {_outcome(check)}."


def _limit_row(limit: dict[str, Any]) -> str:
    side = "above" if "above" in limit else "below"
    source = limit["source"]
    named = " ".join(part for part in (source["work"], source["clause"], source["edition"]) if part)
    cells = [
        limit["verdict"],
        f"{side} {limit[side]:g} {limit['unit']}",
        limit.get("when", ""),
        named,
        source["status"],
    ]
    return "| " + " | ".join(cells) + " |"


def _outcome(check: dict[str, Any]) -> str:
    value = check["example"]["value"]
    return (
        check["example"]["verdict"]
        if value is None
        else f"{value:.6g} {check['example'].get('unit', check['unit'])}, {check['example']['verdict']}"
    )


if __name__ == "__main__":
    written = page(host.describe())
    if "--check" in sys.argv:
        sys.exit(
            0 if PAGE.read_text(encoding="utf-8") == written else "server/docs/checks.md is stale: run this script"
        )
    PAGE.write_text(written, encoding="utf-8")

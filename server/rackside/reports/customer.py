"""What the customer's report shows: plain words, five numbers, before and after. Pure."""

from typing import Any

from rackside.reports import findings, happenings, text

Json = dict[str, Any]
NUMBERS = 5
PHOTOS = 6


def customer_values(sheet: Json) -> Json:
    """Return what the template of the customer's report needs beside the sheet."""
    case, result = sheet["case"], sheet["result"]
    compared, undecided = findings.measured(findings.pairs(result))
    return {
        "heading": f"{sheet['named']}: what was found and what was done",
        "decision": case.get("decision"),
        "events": happenings.events(case),
        "actions": happenings.actions(case),
        "numbers": compared[:NUMBERS],
        "rest": compared[NUMBERS:],
        "to_watch": findings.last_not_passed(compared),
        "undecided": undecided,
        "passed": happenings.passed(result),
        "cause": text.name("cause", (case.get("decision") or {}).get("cause")),
        "photos_shown": sheet["photos"][:PHOTOS],
        "photos_more": len(sheet["photos"][PHOTOS:]),
    }

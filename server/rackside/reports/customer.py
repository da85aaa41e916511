"""The customer's report of one call: plain words, five numbers, before and after. A pure function to HTML."""

from typing import Any

from rackside.reports import findings, text
from rackside.reports.pages import environment

Json = dict[str, Any]
NUMBERS = 5
PAGES = environment()


def customer_report(call: Json, case: Json, result: Json, vocabulary: Json) -> str:
    """Return the report as HTML.

    call: id, state, opened_at, reported, site and machine (their bodies), technicians (names), submitted and reviewed
    ({at, by, note, …} or None). case, result, vocabulary: as the engine gives them.
    """
    where = text.zone(call["site"])
    compared, undecided = findings.measured(findings.pairs(result))
    return PAGES.get_template("customer.html").render(
        call=call,
        case=case,
        result=result,
        where=where,
        zone_words=text.zone_words(call["site"]),
        complaint=_text_of(vocabulary.get("complaints", []), "complaint", case.get("complaint")),
        decision=case.get("decision"),
        numbers=compared[:NUMBERS],
        rest=compared[NUMBERS:],
        to_watch=_to_watch(compared),
        undecided=undecided,
        overrides=case.get("overrides") or [],
        cause=text.name("cause", (case.get("decision") or {}).get("cause")),
    )


def _text_of(listed: list[Json], key: str, wanted: str | None) -> str:
    found = [item["text"] for item in listed if item.get(key) == wanted]
    return found[0] if found else (wanted or "").replace("_", " ")


def _to_watch(compared: list[Json]) -> list[Json]:
    """Return what the last reading of each check still says that is not a pass."""
    last = [pair["left"] or pair["between"] or pair["found"] for pair in compared]
    return [finding for finding in last if finding["verdict"] != "pass"]

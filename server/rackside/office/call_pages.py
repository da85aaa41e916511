"""One call: its rails, what was said and done, and the office's answer to it."""

import json
from typing import Annotated, Any
from uuid import uuid4

from fastapi import Form, Request, Response
from fastapi.responses import HTMLResponse, RedirectResponse

from rackside import host
from rackside.access.caller import Caller
from rackside.office.log_lines import lines_of
from rackside.office.pages import NOT_JUDGED, OwnForm, SignedIn, Store, log, page, routes
from rackside.office.plate import plate_lines
from rackside.records import Database, Refused, calls, comparing, judging, machines
from rackside.reports import findings, sheet, text
from rackside.reports.pdf import pdf_of
from rackside.sync import reviewing

Json = dict[str, Any]
router = routes()
Text = Annotated[str, Form()]


@router.get("/calls/{call_id}")
def call_page(request: Request, database: Store, caller: SignedIn, call_id: str, done: str = "") -> Response:
    return _call_page(request, database, caller, call_id, done=done)


def _call_page(
    request: Request, database: Database, caller: Caller, call_id: str, status: int = 200, **more: Any
) -> Response:
    with database.reading() as connection:
        call = sheet.sheet_of(connection, call_id, caller.sites)
        meters = {
            meter["id"]: meter.get("name") or meter.get("kind") or "meter" for meter in machines.meters(connection)
        }
    values = {
        "call": call,
        "where": text.zone(call["site"]),
        "zone_words": text.zone_words(call["site"]),
        "plate": plate_lines(call["machine"]),
        "log": lines_of(call["entries"], meters),
        "seen": call["changed"],
        "review_id": str(uuid4()),
        "stale_since": None,
        "draft": "",
        "wrong": "",
        "done": "",
    }
    return page(request, "call.html", status, caller, **(values | _judgement(database, call_id) | more))


def _judgement(database: Database, call_id: str) -> Json:
    """Return what the page shows of the judgement; a call the engine fails at still shows its log."""
    try:
        judged = judging.judged(database, call_id)
        phone = comparing.phone_of(database, call_id)
    except NOT_JUDGED as error:
        log.error("the engine failed", call=call_id, error=str(error))
        return {"result": None, "not_judged": str(error)}
    result = json.loads(judged.result)
    standing_out, quiet = findings.parted(findings.pairs(result))
    told = {"result": result, "standing_out": standing_out, "quiet": quiet, "judged_at": judged.judged_at}
    return told | {"same_rules": judged.digest == host.digest(), "phone": phone}


@router.post("/calls/{call_id}/reviews", dependencies=[OwnForm])
def review(
    request: Request,
    database: Store,
    caller: SignedIn,
    call_id: str,
    outcome: Text,
    seen: Annotated[int, Form(ge=0, le=2**53)],
    id: Text,
    note: Text = "",
    of: Text = "",
) -> Response:
    """Accept a call or send it back: the same entry that POST /api/v1/calls/{id}/reviews writes."""
    caller.need("review")
    with database.reading() as connection:
        calls.one(connection, call_id, caller.sites)
    note = note.strip()
    if outcome == "returned" and not note:
        wrong = "Say in the note what is missing: the technician reads it on the phone."
        return _call_page(request, database, caller, call_id, 422, wrong=wrong)
    told = {"id": id, "outcome": outcome, "note": note or None, "of": of or None, "seen": seen}
    try:
        reviewing.review(database, caller, call_id, told, request.app.state.settings.entry_limit)
    except Refused as refused:
        if refused.code != "stale":
            raise
        return _call_page(request, database, caller, call_id, 412, stale_since=seen, draft=note)
    return RedirectResponse(f"/office/calls/{call_id}?done={outcome}", 303)


@router.get("/calls/{call_id}/report")
def report(database: Store, caller: SignedIn, call_id: str) -> Response:
    return HTMLResponse(sheet.customer_html(database, call_id, caller.sites))


@router.get("/calls/{call_id}/report.pdf")
def report_pdf(database: Store, caller: SignedIn, call_id: str) -> Response:
    named = {"Content-Disposition": f'inline; filename="report-{call_id[:8]}.pdf"'}
    return Response(
        pdf_of(sheet.customer_html(database, call_id, caller.sites)), media_type="application/pdf", headers=named
    )

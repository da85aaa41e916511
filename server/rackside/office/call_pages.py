"""One call: its rails, what was said and done, and the office's answer to it."""

from typing import Annotated, Any
from uuid import uuid4

from fastapi import Form, Request, Response
from fastapi.responses import RedirectResponse

from rackside import host
from rackside.access.caller import Caller
from rackside.office import asking, versions
from rackside.office.call_judgement import judgement_of
from rackside.office.call_things import things_shown
from rackside.office.log_lines import lines_of
from rackside.office.pages import OwnForm, SignedIn, Store, page, routes
from rackside.records import Database, Refused, calls, clock, machines, photos, watches
from rackside.reports import sheet, text
from rackside.reports.plate import plate_lines
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
        watched = watches.inside(connection, call)
        missing = set(photos.wanted(connection, [photo["sha256"] for photo in call["photos"]]))
        linked = [calls.listed_one(connection, one, clock.now()) for one in _linked(call)]
    values = {
        "call": call,
        "where": text.zone(call["site"]),
        "zone_words": text.zone_words(call["site"]),
        "plate": plate_lines(call["machine"]),
        "log": lines_of(call["entries"], meters),
        "clashes": versions.clashes_of(call["entries"]),
        "inside": [watch for watch in watched if watch["id"] != call["follows"]],
        "linked": {one["id"]: one for one in linked},
        "askable": asking.askable(host.describe()),
        "asked_points": [],
        "asked_step": "",
        "steps": asking.steps(call["entries"], meters),
        "seen": call["changed"],
        "review_id": str(uuid4()),
        "stale_since": None,
        "draft": "",
        "wrong": "",
        "done": "",
    }
    shown = things_shown(call, missing, request.app.state.settings.currency) | judgement_of(database, call_id)
    return page(request, "call.html", status, caller, **(values | shown | more))


def _linked(call: Json) -> list[str]:
    return [one for one in (call["follows"], *call["followed_by"]) if one]


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
    step: Text = "",
    points: Annotated[list[str] | None, Form()] = None,
) -> Response:
    """Accept a call or send it back: the same entry that POST /api/v1/calls/{id}/reviews writes."""
    caller.need("review")
    with database.reading() as connection:
        calls.one(connection, call_id, caller.sites)
    typed = {"draft": note.strip(), "asked_points": points or [], "asked_step": step}
    note = asking.note_of(note.strip(), points or [], host.describe()) if outcome == "returned" else note.strip()
    if outcome == "returned" and not note:
        wrong = "Say in the note what is missing, or choose a reading to ask for: the technician reads it on the phone."
        return _call_page(request, database, caller, call_id, 422, wrong=wrong, **typed)
    about = step if outcome == "returned" and step else of
    told = {"id": id, "outcome": outcome, "note": note or None, "of": about or None, "seen": seen}
    try:
        reviewing.review(database, caller, call_id, told, request.app.state.settings.entry_limit)
    except Refused as refused:
        if refused.code != "stale":
            raise
        return _call_page(request, database, caller, call_id, 412, stale_since=seen, **typed)
    return RedirectResponse(f"/office/calls/{call_id}?done={outcome}", 303)

"""What the office writes to a call beside its review: which version holds, what it follows, judging it again."""

from typing import Any

from fastapi import Request, Response
from fastapi.responses import RedirectResponse

from rackside.access.caller import Caller
from rackside.office import versions
from rackside.office.pages import OwnForm, Sent, SignedIn, Store, routes
from rackside.office.writing import correct
from rackside.records import Database, Refused, calls, judging, log, watches

router = routes()
Json = dict[str, Any]


@router.post("/calls/{call_id}/versions", dependencies=[OwnForm])
def version_picked(request: Request, database: Store, caller: SignedIn, call_id: str, form: Sent) -> Response:
    """Settle a disagreement: a correction with both versions as its base."""
    _seen(database, caller, call_id)
    with database.reading() as connection:
        clashes = versions.clashes_of(log.of_call(connection, call_id))
    thing = form.get("thing", "")
    correct(request, caller, thing, versions.picked(clashes, thing, form))
    return RedirectResponse(f"/office/calls/{call_id}?done=picked", 303)


@router.post("/calls/{call_id}/follows", dependencies=[OwnForm])
def linked(request: Request, database: Store, caller: SignedIn, call_id: str, form: Sent) -> Response:
    """Say that a call is the same trouble again: it came inside the watch of the one it then follows."""
    call = _seen(database, caller, call_id)
    with database.reading() as connection:
        offered = {watch["id"] for watch in watches.inside(connection, call)}
    if form.get("of") not in offered:
        raise Refused("invalid_query", "Only a call whose watch this one came into can be followed.")
    correct(request, caller, call_id, {"follows": form["of"]})
    return RedirectResponse(f"/office/calls/{call_id}?done=linked", 303)


@router.post("/calls/{call_id}/judgements", dependencies=[OwnForm])
def judged_again(database: Store, caller: SignedIn, call_id: str) -> Response:
    """Judge by today's rules; the earlier judgements stay beside it."""
    _seen(database, caller, call_id)
    judging.judge_again(database, call_id, caller.author)
    return RedirectResponse(f"/office/calls/{call_id}?done=judged#judgements", 303)


def _seen(database: Database, caller: Caller, call_id: str) -> Json:
    caller.need("review")
    with database.reading() as connection:
        return calls.one(connection, call_id, caller.sites)

"""Sign in, sign out, and the office's own files."""

import mimetypes
from typing import Annotated

from fastapi import Form, Request, Response
from fastapi.responses import FileResponse, RedirectResponse

from rackside.access import sessions
from rackside.office.pages import HERE, OwnForm, Store, page, routes
from rackside.records import Refused
from rackside.reports.pages import STATIC

FOLDERS = (HERE / "static", STATIC)
router = routes()
Text = Annotated[str, Form()]


@router.get("/sign-in")
def sign_in_page(request: Request, next: str = "/office") -> Response:
    return page(request, "sign_in.html", next=_own_place(next), wrong="")


@router.post("/sign-in", dependencies=[OwnForm])
def sign_in(request: Request, database: Store, name: Text, password: Text, next: Text = "/office") -> Response:
    try:
        token = sessions.sign_in(database, name, password, request.app.state.settings.session_hours)
    except Refused as refused:
        status = 429 if refused.code == "slow_down" else 401
        return page(request, "sign_in.html", status, next=_own_place(next), wrong=refused.detail)
    response = RedirectResponse(_own_place(next), 303)
    sessions.set_cookie(response, token, request)
    return response


@router.post("/sign-out", dependencies=[OwnForm])
def sign_out(request: Request) -> Response:
    response = RedirectResponse("/office/sign-in", 303)
    sessions.sign_out(request, response)
    return response


@router.get("/static/{name}")
def static_file(name: str) -> Response:
    """Return a style sheet of the office or of a report."""
    for folder in FOLDERS:
        known = {path.name: path for path in folder.iterdir()}
        if name in known:
            kind = mimetypes.guess_type(name)[0] or "application/octet-stream"
            return FileResponse(known[name], media_type=kind, headers={"Cache-Control": "no-cache"})
    raise Refused("not_found", f"The office has no file {name}.")


def _own_place(path: str) -> str:
    """Return where to go after signing in: only ever a page of the office."""
    return path if path == "/office" or (path.startswith("/office/") and "\\" not in path) else "/office"

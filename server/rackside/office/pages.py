"""How an office page is answered: who may see it, how it is rendered, and how a refusal looks."""

from collections.abc import Callable, Coroutine
from pathlib import Path
from typing import Annotated, Any

import structlog
from fastapi import APIRouter, Depends, Request, Response
from fastapi.exceptions import RequestValidationError
from fastapi.responses import HTMLResponse, RedirectResponse
from fastapi.routing import APIRoute

from rackside import host
from rackside.access import sessions
from rackside.access.caller import Caller
from rackside.office.log_lines import spoken
from rackside.records import Database, Refused
from rackside.reports.job_marks import change_words
from rackside.reports.outputs import OUTPUTS
from rackside.reports.pages import environment
from rackside.reports.text import zone

HERE = Path(__file__).parent
PAGES = environment(HERE / "templates")
NAVIGATION = (
    ("/office", "Today"),
    ("/office/calls", "Calls"),
    ("/office/fleet", "Fleet"),
    ("/office/machines", "Machines"),
    ("/office/sites", "Sites"),
    ("/office/people", "People"),
    ("/office/devices", "Phones and keys"),
)
PAGES.filters["spoken"] = spoken
PAGES.filters["marked"] = lambda extra: change_words(None, extra)
PAGES.filters["without"] = lambda mapping, name: {key: value for key, value in mapping.items() if key != name}
PAGES.filters["site_name"] = lambda site, names: names.get(site, "a site that is not here")
PAGES.globals.update(zone=zone, NAVIGATION=NAVIGATION, OUTPUTS=OUTPUTS)
STATUS = {"no_credentials": 401, "not_allowed": 403, "not_found": 404, "stale": 412, "slow_down": 429, "busy": 503}
MOST_READ = 1_000_000
NOT_JUDGED = (host.EngineFailed, host.InvalidCase)
KEPT = "Its entries are kept; report this with the call's address."
trouble = structlog.get_logger("rackside.office")
STATUS |= {"engine_failed": 500, "report_engine_missing": 503, "invalid_query": 422, "invalid_body": 422}


class NotSignedIn(Exception):
    """Nobody is signed in at this page."""


class OfficeRoute(APIRoute):
    """A route whose refusals are pages."""

    def get_route_handler(self) -> Callable[[Request], Coroutine[Any, Any, Response]]:
        handler = super().get_route_handler()

        async def answered(request: Request) -> Response:
            try:
                return await handler(request)
            except NotSignedIn:
                return to_sign_in(request)
            except Refused as refused:
                return refusal_page(request, refused.code, refused.detail)
            except NOT_JUDGED as error:
                trouble.error("the engine failed", path=request.url.path, error=str(error))
                return refusal_page(request, "engine_failed", f"The engine can't judge this call: {error}. {KEPT}")
            except RequestValidationError as error:
                missing = ", ".join(str(fault["loc"][-1]) for fault in error.errors())
                return refusal_page(request, "invalid_query", f"The form came without what it needs: {missing}.")

        return answered


def routes() -> APIRouter:
    """Return an empty router of office pages."""
    return APIRouter(route_class=OfficeRoute, include_in_schema=False)


def database_of(request: Request) -> Database:
    database: Database = request.app.state.database
    return database


def _signed_in(request: Request) -> Caller:
    caller = sessions.person_of(request)
    if caller is None:
        raise NotSignedIn
    return caller


def _own_form(request: Request) -> None:
    sessions.check_origin(request)


async def _sent(request: Request) -> dict[str, str]:
    """Return a form's boxes as text; a file counts as what is written in it."""
    sent: dict[str, str] = {}
    async with request.form(max_files=1, max_fields=200) as form:
        for name, value in form.multi_items():
            sent[name] = (
                value if isinstance(value, str) else (await value.read(MOST_READ)).decode("utf-8-sig", "replace")
            )
    return sent


Store = Annotated[Database, Depends(database_of)]
SignedIn = Annotated[Caller, Depends(_signed_in)]
Sent = Annotated[dict[str, str], Depends(_sent)]
OwnForm = Depends(_own_form)


def page(request: Request, template: str, status: int = 200, caller: Caller | None = None, **values: Any) -> Response:
    """Return a rendered page; `caller` is who reads it."""
    html = PAGES.get_template(template).render(caller=caller, path=request.url.path, **values)
    return HTMLResponse(html, status, {"Cache-Control": "no-store"})


def refusal_page(request: Request, code: str, detail: str) -> Response:
    """Return a page that says what was refused and why."""
    caller = sessions.person_of(request)
    return page(request, "refused.html", STATUS.get(code, 422), caller, code=code, detail=detail)


def to_sign_in(request: Request) -> Response:
    """Send to the sign-in page, and back afterwards where the request only read."""
    place = f"?next={request.url.path}" if request.method == "GET" else ""
    return RedirectResponse(f"/office/sign-in{place}", 303)

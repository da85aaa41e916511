"""The one place where a refusal becomes an answer: RFC 9457 problem details with a stable code and a remedy."""

from http import HTTPStatus
from typing import Any, NamedTuple

import structlog
from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, Response
from sqlalchemy.exc import OperationalError
from starlette.exceptions import HTTPException

from rackside.host import EngineFailed, InvalidCase
from rackside.records import Refused
from rackside.records.database import is_busy

log = structlog.get_logger("rackside.api")
MEDIA_TYPE = "application/problem+json"


class Code(NamedTuple):
    """A permanent code: its status and what to do about it."""

    status: int
    remedy: str


CODES: dict[str, Code] = {
    "not_json": Code(400, "Send one JSON text in UTF-8."),
    "no_credentials": Code(
        401, "Send the token of POST /api/v1/devices, or a key that an admin made, as: Authorization: Bearer TOKEN."
    ),
    "token_revoked": Code(401, "Sign in again; what this device holds stays and can be sent then."),
    "token_expired": Code(401, "Sign in again with the password; what this device holds stays and can be sent then."),
    "not_allowed": Code(403, "Ask somebody who has the right, or have it given in the office."),
    "not_found": Code(404, "Check the id or address; it may also belong to a site you do not work at."),
    "photo_unannounced": Code(404, "Push the photo's entry first, then the photo."),
    "method_not_allowed": Code(405, "Look up the methods of this address in /api/v1/openapi.json."),
    "epoch_changed": Code(409, "The server's log is another one: send all you hold, then pull from the beginning."),
    "scope_changed": Code(409, "Pull again from the beginning: GET /api/v1/entries?after=0."),
    "stale": Code(412, "Read what came since and decide again with the new `seen`."),
    "body_too_large": Code(413, "Send less at once."),
    "batch_too_large": Code(413, "Send at most 500 entries at once."),
    "photo_type": Code(415, "Send a JPEG, PNG or WebP picture."),
    "media_type": Code(415, "Send it with Content-Type: application/json."),
    "invalid_case": Code(422, "Correct each fault at its pointer."),
    "invalid_query": Code(422, "Correct each fault at its pointer; /api/v1/openapi.json says what is taken."),
    "not_csv": Code(422, "Send CSV in UTF-8: commas, quotes as usual, the first line naming each column once."),
    "invalid_rows": Code(422, "Correct each row at its pointer and send the table again; dry_run tells beforehand."),
    "photo_mismatch": Code(422, "Send the bytes whose SHA-256 is in the address."),
    "slow_down": Code(429, "Wait as long as Retry-After says."),
    "engine_failed": Code(500, "The entries are kept. Report this with the id of the call; the log has the details."),
    "server_failed": Code(500, "Send it again later; nothing was half done. The server's log has the details."),
    "busy": Code(503, "Send it again as Retry-After says; nothing of it was taken."),
    "report_engine_missing": Code(503, "Use the HTML report, or have the PDF libraries installed on the server."),
    "id_reused": Code(409, "Keep the entry under a new id, if it is not the one the server has."),
    "unknown_kind": Code(422, "Use a kind that GET /api/v1/vocabulary lists, or update this device."),
    "unknown_schema": Code(422, "Update the device or the server: they are too far apart."),
    "invalid_body": Code(422, "Correct each fault at its pointer and send it as a new entry."),
    "missing_reference": Code(422, "Send the entry it leans on first, then this one again."),
    "foreign_site": Code(403, "Ask the office for the site, then send it again."),
    "forged_author": Code(403, "Send it signed in as its author, from the author's device."),
    "entry_too_large": Code(413, "Shorten its text; photos go by PUT /api/v1/photos."),
}


def problem(code: str, detail: str, **members: Any) -> dict[str, Any]:
    """Return the problem details of a code."""
    known = CODES[code]
    title = HTTPStatus(known.status).phrase
    head = {"type": f"urn:rackside:problem:{code}", "title": title, "status": known.status}
    return head | {"code": code, "detail": detail, "remedy": known.remedy} | members


def answer(code: str, detail: str, **members: Any) -> Response:
    """Return a problem as an HTTP answer; `retry_after` becomes the header."""
    headers = {}
    retry_after = members.pop("retry_after", 1 if code == "busy" else None)
    if retry_after is not None:
        headers["Retry-After"] = str(retry_after)
    if CODES[code].status == HTTPStatus.UNAUTHORIZED:
        headers["WWW-Authenticate"] = "Bearer"
    return JSONResponse(problem(code, detail, **members), CODES[code].status, headers, MEDIA_TYPE)


def install(app: FastAPI) -> None:
    """Make every failure of the application answer in this one form."""
    app.add_exception_handler(Refused, _refused)
    app.add_exception_handler(InvalidCase, _invalid_case)
    app.add_exception_handler(EngineFailed, _engine)
    app.add_exception_handler(RequestValidationError, _invalid_request)
    app.add_exception_handler(HTTPException, _http)
    app.add_exception_handler(OperationalError, _database)
    app.add_exception_handler(Exception, _failed)


def _refused(_request: Request, refused: Any) -> Response:
    return answer(refused.code, refused.detail, **refused.members)


def _invalid_case(request: Request, invalid: Any) -> Response:
    if request.url.path.endswith("/analyse"):
        return answer("invalid_case", f"This case has {len(invalid.errors)} faults.", errors=invalid.errors)
    log.error("the engine refused what the log composed", path=request.url.path, errors=invalid.errors)
    return answer("engine_failed", "The engine can't judge what the log of this call makes.", errors=invalid.errors)


def _engine(request: Request, failed: Any) -> Response:
    log.error("the engine failed", path=request.url.path, exc_info=failed)
    return answer("engine_failed", str(failed))


def _invalid_request(_request: Request, invalid: Any) -> Response:
    if any(error["type"] == "json_invalid" for error in invalid.errors()):
        return answer("not_json", "The body is not JSON.")
    errors = [{"pointer": _pointer(error["loc"]), "detail": error["msg"] + "."} for error in invalid.errors()]
    return answer("invalid_query", "; ".join(f"{one['pointer']}: {one['detail']}" for one in errors), errors=errors)


def _pointer(place: tuple[Any, ...]) -> str:
    return "".join("/" + str(step).replace("~", "~0").replace("/", "~1") for step in place[1:])


def _http(request: Request, error: Any) -> Response:
    if error.status_code == HTTPStatus.METHOD_NOT_ALLOWED and _has_address(request):
        told = answer("method_not_allowed", f"{request.method} is not for {request.url.path}.")
        told.headers.update(error.headers or {})
        return told
    if error.status_code in (HTTPStatus.NOT_FOUND, HTTPStatus.METHOD_NOT_ALLOWED):
        own = error.detail != HTTPStatus(error.status_code).phrase
        return answer("not_found", error.detail if own else f"There is nothing at {request.url.path}.")
    if error.status_code == HTTPStatus.REQUEST_ENTITY_TOO_LARGE:
        return answer("body_too_large", error.detail)
    if error.status_code == HTTPStatus.BAD_REQUEST:
        return answer("not_json", str(error.detail))
    raise error


def _has_address(request: Request) -> bool:
    """Return whether an address under /api is one of ours; outside, where the page's files are, any may be."""
    path = request.url.path
    return not path.startswith("/api/") or any(pattern.fullmatch(path) for pattern in request.app.state.addresses)


def _database(request: Request, error: Any) -> Response:
    if is_busy(error):
        return answer("busy", "The database is busy with another writer.")
    log.error("the database failed", path=request.url.path, error=str(error.orig))
    return answer("busy", "The database does not answer.", retry_after=5)


def _failed(request: Request, error: Exception) -> Response:
    log.error("a request failed", path=request.url.path, exc_info=error)
    return answer("server_failed", "Something went wrong in the server.")

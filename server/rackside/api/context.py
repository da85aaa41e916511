"""What routes ask for: settings, database, caller, and the JSON they were sent."""

import json
from typing import Annotated, Any

from fastapi import BackgroundTasks, Depends, Request
from fastapi.security import HTTPBearer
from fastapi.security.http import HTTPAuthorizationCredentials

from rackside.access import devices, sessions
from rackside.access.caller import Caller
from rackside.records import Database, Refused
from rackside.settings import Settings

EXACT = 2**53
bearer = HTTPBearer(auto_error=False, description="The token of POST /devices, or a key")


def database_of(request: Request) -> Database:
    database: Database = request.app.state.database
    return database


def settings_of(request: Request) -> Settings:
    settings: Settings = request.app.state.settings
    return settings


def caller_of(
    request: Request,
    credentials: Annotated[HTTPAuthorizationCredentials | None, Depends(bearer)],
    later: BackgroundTasks,
) -> Caller:
    """Return who asks: by token, or for reading by the office's cookie."""
    with database_of(request).reading() as connection:
        if credentials is not None:
            caller = devices.caller_of(connection, credentials.credentials)
            if devices.last_seen.is_due(caller.device_id):
                later.add_task(devices.last_seen.note, database_of(request), caller.device_id)
            return caller
        person = sessions.caller_of(connection, request) if request.method in ("GET", "HEAD") else None
    if person is None:
        raise Refused("no_credentials", "This address needs a token.")
    return person


async def text_of(request: Request) -> str:
    """Return the JSON text a request carries, not parsed."""
    kind = request.headers.get("content-type", "application/json").split(";")[0].strip().lower()
    if kind != "application/json" and not kind.endswith("+json"):
        raise Refused("media_type", f"The content type is {kind}.")
    try:
        return (await request.body()).decode()
    except UnicodeDecodeError as error:
        raise Refused("not_json", f"The body is not UTF-8: {error.reason} at byte {error.start}.") from error


async def json_of(request: Request) -> Any:
    """Return the JSON a request carries; a whole number is whole however it was written."""
    try:
        return json.loads(await text_of(request), parse_float=_number, parse_constant=_no_constant)
    except (ValueError, RecursionError) as error:
        raise Refused("not_json", f"The body is not JSON: {error}.") from error


def _number(text: str) -> float:
    number = float(text)
    return int(number) if abs(number) < EXACT and number.is_integer() else number


def _no_constant(text: str) -> float:
    raise ValueError(f"{text} is no JSON number")


def right(name: str) -> Any:
    """Return the dependency that gives the caller and refuses one without a right."""

    async def checked(caller: Annotated[Caller, Depends(caller_of)]) -> Caller:
        caller.need(name)
        return caller

    return Depends(checked)


Base = Annotated[Database, Depends(database_of)]
Chosen = Annotated[Settings, Depends(settings_of)]
Anyone = Annotated[Caller, Depends(caller_of)]
Reader = Annotated[Caller, right("read")]
Writer = Annotated[Caller, right("write")]
Reviewer = Annotated[Caller, right("review")]
Analyst = Annotated[Caller, right("analyse")]
Admin = Annotated[Caller, right("admin")]
Body = Annotated[Any, Depends(json_of)]
Text = Annotated[str, Depends(text_of)]

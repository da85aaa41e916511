"""Taking in the file of a phone that could not send."""

from typing import Annotated, Any

import structlog
from fastapi import Depends, Request, Response
from starlette.datastructures import UploadFile

from rackside.office.pages import OwnForm, SignedIn, Store, page, routes
from rackside.records import Database, Refused, photos
from rackside.sync import carried

router = routes()
taken_in = structlog.get_logger("rackside.carried")
STATUSES = ("accepted", "repeated", "refused")


async def _file(request: Request) -> str:
    """Return the text of the file in the form, whatever its name."""
    async with request.form(max_files=1, max_fields=1) as form:
        sent = form.get("file")
        if not isinstance(sent, UploadFile):
            raise Refused("invalid_query", "Choose the file that the phone wrote.")
        return (await sent.read()).decode("utf-8", "replace")


@router.get("/import")
def ask_for_file(request: Request, caller: SignedIn) -> Response:
    caller.need("review")
    return page(request, "import.html", caller=caller, told=None)


@router.post("/import", dependencies=[OwnForm])
def take_file(request: Request, database: Store, caller: SignedIn, text: Annotated[str, Depends(_file)]) -> Response:
    settings = request.app.state.settings
    file = carried.read(text)
    answers = carried.take(database, caller, file.entries, settings.entry_limit)
    told: dict[str, Any] = {name: [one for one in answers if one.status == name] for name in STATUSES}
    told["photos"], told["photos_refused"] = _keep_photos(database, settings.photos, file.photos)
    counts = {name: len(told[name]) for name in STATUSES}
    taken_in.info("a phone's file was taken in", by=caller.author, photos=told["photos"], **counts)
    return page(request, "import.html", caller=caller, told=told)


def _keep_photos(database: Database, folder: Any, found: list[tuple[str, bytes]]) -> tuple[int, list[str]]:
    """Keep the photos that an entry announces; return how many, and why others were not."""
    kept, refused = 0, []
    for sha256, content in found:
        with database.reading() as connection:
            announced = photos.announced(connection, sha256)
        try:
            if not announced:
                raise Refused("photo_unannounced", f"No entry announces the photo {sha256[:12]}.")
            photos.keep(database, folder, sha256, content)
            kept += 1
        except Refused as problem:
            refused.append(problem.detail)
    return kept, refused

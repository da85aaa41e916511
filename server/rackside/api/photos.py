"""Photos by their content."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response
from fastapi.responses import FileResponse

from rackside.access.caller import Caller
from rackside.api.context import Base, Chosen, Reader, Writer, settings_of
from rackside.api.refusals import refuses
from rackside.records import Database, Refused, photos

router = APIRouter(prefix="/photos", tags=["photos"])
PICTURE = {"schema": {"type": "string", "format": "binary"}}
PICTURES = dict.fromkeys(("image/jpeg", "image/png", "image/webp"), PICTURE)


async def picture_of(request: Request) -> bytes:
    """Return a photo's bytes, refused as soon as there are too many."""
    limit = settings_of(request).photo_limit
    parts, size = [], 0
    async for part in request.stream():
        size += len(part)
        if size > limit:
            raise Refused("body_too_large", f"A photo has at most {limit} bytes.")
        parts.append(part)
    return b"".join(parts)


def _check_announced(database: Database, caller: Caller, sha256: str) -> None:
    with database.reading() as connection:
        sites = photos.announced(connection, sha256)
    if not any(caller.sees(site) for site in sites):
        raise Refused("photo_unannounced", f"No entry you may see announces the photo {sha256}.")


@router.put(
    "/{sha256}",
    status_code=201,
    summary="Send a photo whole",
    description="Its entry comes first. 201, or 200 when it was there already; `ETag` is the hash of what is kept.",
    response_class=Response,
    responses={200: {"description": "It was there already"}}
    | refuses("photo_unannounced", "photo_type", "photo_mismatch"),
    openapi_extra={
        "requestBody": {
            "required": True,
            "content": PICTURES,
        }
    },
)
def put_photo(
    sha256: str, content: Annotated[bytes, Depends(picture_of)], caller: Writer, database: Base, settings: Chosen
) -> Response:
    _check_announced(database, caller, sha256)
    new = photos.keep(database, settings.photos, sha256, content)
    return Response(status_code=201 if new else 200, headers={"ETag": f'"{sha256}"'})


@router.get(
    "/{sha256}",
    summary="Get a photo",
    description="To be kept for ever: its address is its content.",
    response_class=FileResponse,
    responses={200: {"content": PICTURES}} | refuses("photo_unannounced", "not_found"),
)
def get_photo(sha256: str, caller: Reader, database: Base, settings: Chosen) -> Response:
    _check_announced(database, caller, sha256)
    with database.reading() as connection:
        stored = photos.stored(connection, settings.photos, sha256)
    if stored is None or not stored.path.exists():
        raise Refused("not_found", f"The photo {sha256} is announced but has not arrived yet.")
    kept = {"Cache-Control": "private, max-age=31536000, immutable"}
    return FileResponse(stored.path, media_type=stored.media_type, headers=kept)

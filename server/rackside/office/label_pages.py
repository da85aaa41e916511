"""Labels to print for machines: a QR picture of the machine's address, and its short code to type."""

from typing import Any

import segno
from fastapi import Request, Response
from fastapi.responses import RedirectResponse

from rackside.office.pages import SignedIn, Store, page, routes
from rackside.office.short_code import code_of, matches
from rackside.records import Refused, machines

router = routes()
Json = dict[str, Any]


@router.get("/machines/{machine_id}/labels")
def machine_labels(request: Request, database: Store, caller: SignedIn, machine_id: str) -> Response:
    with database.reading() as connection:
        machine = machines.one(connection, machine_id, caller.sites, rounds=0)
        everyone = machines.ids(connection)
    return _sheet(request, caller, [machine] * 8, everyone, f"/office/machines/{machine_id}", machine["tag"])


@router.get("/sites/{site_id}/labels")
def site_labels(request: Request, database: Store, caller: SignedIn, site_id: str) -> Response:
    with database.reading() as connection:
        site = machines.site(connection, site_id, caller.sites)
        found, _ = machines.page(connection, caller.sites, site=site_id, limit=500)
        everyone = machines.ids(connection)
    found.sort(key=lambda machine: (machine["rack"] or "", machine["tag"] or ""))
    return _sheet(request, caller, found, everyone, f"/office/sites/{site_id}", site["name"])


def _sheet(
    request: Request, caller: Any, found: list[Json], everyone: list[str], back: str, title: str | None
) -> Response:
    labels = [label(machine, everyone, str(request.base_url)) for machine in found]
    return page(request, "labels.html", caller=caller, labels=labels, back=back, title=title or "machine")


def label(machine: Json, everyone: list[str], address: str) -> Json:
    """Return a label: where its picture leads, the picture's path, and the code in groups of three."""
    code = code_of(machine["id"], everyone)
    picture = segno.make_qr(f"{address}m/{code}", error="q")
    dark = [(x, y) for y, row in enumerate(picture.matrix) for x, bit in enumerate(row) if bit]
    return {
        "tag": machine["tag"] or "?",
        "rack": machine["rack"],
        "site": machine["site"]["name"],
        "address": f"{address}m/{code}",
        "code": " ".join(code[place : place + 3] for place in range(0, len(code), 3)),
        "size": len(picture.matrix),
        "path": "".join(f"M{x} {y}h1v1h-1z" for x, y in dark),
    }


@router.get("/m/{code}")
def by_code(database: Store, caller: SignedIn, code: str) -> Response:
    """Open the machine of a label's code at the office."""
    with database.reading() as connection:
        found = matches(code, machines.ids(connection, caller.sites))
    if len(found) != 1:
        raise Refused("not_found", f"{len(found) or 'No'} machine{'s have' if found else ' has'} the code {code} here.")
    return RedirectResponse(f"/office/machines/{found[0]}", 303)

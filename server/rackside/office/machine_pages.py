"""One machine: its page, its plate as a form, its own limits, its rating map, and putting it out of service."""

from typing import Any

from fastapi import Request, Response
from fastapi.responses import RedirectResponse

from rackside import host
from rackside.access.caller import Caller
from rackside.office import limits_form, plate_form, rating_plot, ratings_form, versions
from rackside.office.pages import OwnForm, Sent, SignedIn, Store, page, routes
from rackside.office.trend_rows import trend_rows
from rackside.office.writing import correct, keep, made
from rackside.records import Database, Refused, calls, log, machines
from rackside.reports import text
from rackside.reports.plate import plate_lines

router = routes()
Json = dict[str, Any]
DONE = {
    "plate": "The plate is written down.",
    "limit": "The limit is written down; the next judgement uses it.",
    "ratings": "The rating map is written down; the next judgement uses it.",
    "retired": "Out of service: it stands in no list any more, its history stays.",
    "back": "Back in service.",
    "picked": "Settled: the version you picked counts.",
}


@router.get("/machines/{machine_id}")
def machine_page(request: Request, database: Store, caller: SignedIn, machine_id: str, done: str = "") -> Response:
    with database.reading() as connection:
        machine = machines.one(connection, machine_id, caller.sites)
        site = machines.site(connection, machine["site"]["id"], caller.sites)
        found, after = calls.page(connection, caller.sites, machine=machine_id, limit=20)
        points = machines.trends(connection, machine_id)
        clashes = versions.clashes_of(log.of_thing(connection, machine_id))
    values = {
        "site": site,
        "zone_words": text.zone_words(site),
        "calls": found,
        "after": after,
        "plate": plate_lines(machine["plate"]),
        "trends": trend_rows(points),
        "limits": limits_form.lines(machine["plate"].get("limits") or {}),
        "map": rating_plot.pictures(machine["plate"].get("ratings") or {}),
        "clashes": clashes,
        "done": DONE.get(done, ""),
    }
    return page(request, "machine.html", caller=caller, machine=machine, **values)


@router.post("/machines/{machine_id}/confirmation", dependencies=[OwnForm])
def confirm_plate(request: Request, database: Store, caller: SignedIn, machine_id: str) -> Response:
    """Accept a machine's plate as it stands: a review entry about the machine."""
    _editable(database, caller, machine_id)
    keep(request, caller, made(caller, "review", {"outcome": "accepted", "of": machine_id}))
    return RedirectResponse(f"/office/machines/{machine_id}", 303)


@router.get("/machines/{machine_id}/plate")
def plate_page(request: Request, database: Store, caller: SignedIn, machine_id: str) -> Response:
    machine = _editable(database, caller, machine_id)
    return _plate_page(request, caller, machine, plate_form.filled(machine["plate"]))


def _plate_page(
    request: Request, caller: Caller, machine: Json, boxes: dict[str, str], status: int = 200, **more: Any
) -> Response:
    values: Json = {"faults": {}, "other_faults": [], "since": [], "seen": machine["changed"]} | more
    tools = {"groups": plate_form.GROUPS, "choice_words": plate_form.choice_words, "unit_word": plate_form.unit_word}
    return page(request, "plate.html", status, caller, machine=machine, boxes=boxes, **tools, **values)


@router.post("/machines/{machine_id}/plate", dependencies=[OwnForm])
def plate_written(request: Request, database: Store, caller: SignedIn, machine_id: str, form: Sent) -> Response:
    machine = _editable(database, caller, machine_id)
    asked = plate_form.changed(machine["plate"], form)
    if _stale(form, machine):
        since = _since(database, machine_id, int(form["seen"]))
        return _plate_page(request, caller, machine, form, 412, since=since)
    if asked.faults or asked.other_faults:
        told = {"faults": asked.faults, "other_faults": asked.other_faults}
        return _plate_page(request, caller, machine, form, 422, **told)
    if asked.members:
        correct(request, caller, machine_id, asked.members)
    return RedirectResponse(f"/office/machines/{machine_id}?done=plate", 303)


@router.post("/machines/{machine_id}/service", dependencies=[OwnForm])
def service(request: Request, database: Store, caller: SignedIn, machine_id: str, form: Sent) -> Response:
    """Take a machine out of service or back: an entry like any other, nothing is deleted."""
    retired = form.get("retired") == "yes"
    machine = _editable(database, caller, machine_id)
    if machine["retired"] != retired:
        correct(request, caller, machine_id, {"retired": retired})
    return RedirectResponse(f"/office/machines/{machine_id}?done={'retired' if retired else 'back'}", 303)


@router.get("/machines/{machine_id}/limits")
def limits_page(request: Request, database: Store, caller: SignedIn, machine_id: str) -> Response:
    return _limits_page(request, caller, _editable(database, caller, machine_id), {})


def _limits_page(
    request: Request, caller: Caller, machine: Json, form: dict[str, str], status: int = 200, faults: Any = ()
) -> Response:
    own = limits_form.lines(machine["plate"].get("limits") or {})
    values = {"limits": own, "checks": _units(), "form": form, "faults": list(faults), "seen": machine["changed"]}
    return page(request, "limits.html", status, caller, machine=machine, **values)


@router.post("/machines/{machine_id}/limits", dependencies=[OwnForm])
def limit_written(request: Request, database: Store, caller: SignedIn, machine_id: str, form: Sent) -> Response:
    machine = _editable(database, caller, machine_id)
    held = dict(machine["plate"].get("limits") or {})
    if form.get("drop"):
        held.pop(form["drop"], None)
    else:
        check, limit, faults = limits_form.read(form, _units())
        if faults:
            return _limits_page(request, caller, machine, form, 422, faults)
        held[check] = limit
    correct(request, caller, machine_id, {"limits": held or None})
    return RedirectResponse(f"/office/machines/{machine_id}?done=limit", 303)


def _units() -> dict[str, str]:
    return {check["check"]: check["unit"] for check in host.describe()["checks"] if check["unit"]}


@router.get("/machines/{machine_id}/ratings")
def ratings_page(request: Request, database: Store, caller: SignedIn, machine_id: str) -> Response:
    machine = _editable(database, caller, machine_id)
    ratings = machine["plate"].get("ratings") or {}
    return _ratings_page(request, caller, machine, rating_plot.form_of(ratings), ratings)


def _ratings_page(
    request: Request,
    caller: Caller,
    machine: Json,
    form: dict[str, str],
    ratings: Json,
    status: int = 200,
    faults: Any = (),
    looked: bool = False,
) -> Response:
    values = {"form": form, "map": rating_plot.pictures(ratings), "faults": list(faults), "looked": looked}
    return page(request, "ratings.html", status, caller, machine=machine, **values)


@router.post("/machines/{machine_id}/ratings", dependencies=[OwnForm])
def ratings_written(request: Request, database: Store, caller: SignedIn, machine_id: str, form: Sent) -> Response:
    """Draw what was pasted, and write it down when that was asked for; with one fault nothing is taken."""
    machine = _editable(database, caller, machine_id)
    form["table"] = form.get("file") or form.get("table", "")
    read = ratings_form.read(form["table"])
    bounds, bound_faults = ratings_form.envelope(form)
    faults = [*read.faults, *bound_faults]
    ratings = read.ratings | {"order": form.get("order", ""), "temperature_unit": form.get("temperature_unit", "")}
    ratings |= {"envelope": bounds} if bounds else {}
    if not faults:
        faults = plate_form.ratings_faults(machine["plate"], ratings)
    if faults:
        return _ratings_page(request, caller, machine, form, {}, 422, faults)
    if form.get("step") != "keep":
        return _ratings_page(request, caller, machine, form, ratings, looked=True)
    correct(request, caller, machine_id, {"ratings": ratings})
    return RedirectResponse(f"/office/machines/{machine_id}?done=ratings", 303)


@router.post("/machines/{machine_id}/versions", dependencies=[OwnForm])
def version_picked(request: Request, database: Store, caller: SignedIn, machine_id: str, form: Sent) -> Response:
    _editable(database, caller, machine_id)
    with database.reading() as connection:
        clashes = versions.clashes_of(log.of_thing(connection, machine_id))
    correct(request, caller, machine_id, versions.picked(clashes, machine_id, form))
    return RedirectResponse(f"/office/machines/{machine_id}?done=picked", 303)


def _editable(database: Database, caller: Caller, machine_id: str) -> Json:
    caller.need("review")
    with database.reading() as connection:
        return machines.one(connection, machine_id, caller.sites, rounds=0)


def _stale(form: dict[str, str], machine: Json) -> bool:
    seen = form.get("seen", "")
    if not seen.isdecimal():
        raise Refused("invalid_query", "The form came without what it was opened at: open the page again.")
    return int(seen) < int(machine["changed"])


def _since(database: Database, machine_id: str, seen: int) -> list[Json]:
    with database.reading() as connection:
        return [entry for entry in log.of_thing(connection, machine_id) if entry["cursor"] > seen]

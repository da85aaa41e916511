"""Sites, machines and people from a table: all of it or nothing, with a trial run."""

import json
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Depends, Query, Request
from pydantic import Field

from rackside.access.caller import Caller
from rackside.access.importing import take_people
from rackside.api.context import Base, Chosen, Writer
from rackside.api.refusals import refuses
from rackside.api.told import Told
from rackside.records import Database, Refused
from rackside.sync.importing import take_rows
from rackside.sync.tables import rows_of

router = APIRouter(prefix="/import", tags=["import"])
Kind = Literal["sites", "machines", "people"]
THINGS = {"sites": "site", "machines": "machine"}
ROWS: dict[str, Any] = {"type": "array", "maxItems": 5000, "items": {"type": "object"}}
BODY = {
    "required": True,
    "content": {
        "application/json": {"schema": ROWS},
        "text/csv": {"schema": {"type": "string"}},
    },
}


class ImportedRow(Told):
    row: int = Field(description="The first row after a header is 1")
    status: str = Field(description="new, changed or same; wrong in a trial run")
    id: str | None
    errors: list[dict[str, str]]
    password: str | None = Field(None, description="Made up for a person, told this once")


class Imported(Told):
    kind: str
    dry_run: bool
    new: int
    changed: int
    same: int
    wrong: int
    rows: list[ImportedRow]


class _Undone(Exception):
    """Carries the answer of a trial run out of the transaction that it undoes."""

    def __init__(self, told: dict[str, Any]) -> None:
        self.told = told


async def rows_sent(request: Request) -> list[Any]:
    """Return the rows of a CSV or JSON body."""
    kind = request.headers.get("content-type", "application/json").split(";")[0].strip().lower()
    try:
        text = (await request.body()).decode("utf-8-sig")
        if kind == "text/csv":
            return rows_of(text)
        if kind != "application/json":
            raise Refused("media_type", f"The content type is {kind}; application/json and text/csv are taken.")
        rows = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise Refused("not_json", f"The body can't be read: {error}.") from error
    if not isinstance(rows, list):
        raise Refused(
            "invalid_rows", "A list of rows is needed.", errors=[{"pointer": "", "detail": "Must be a list."}]
        )
    return rows


@router.post(
    "/{kind}",
    response_model=Imported,
    responses=refuses("invalid_rows", "not_csv", "batch_too_large"),
    openapi_extra={"requestBody": BODY},
    summary="Enter a table",
    description="Rows are known again by `id`, or a site by its name, a machine by site, rack and tag, a person by "
    "name: a table sent twice changes nothing the second time. In CSV a column named with a dot goes inside, like "
    "`supply.nominal_voltage`, and `sites` of a person are parted by semicolons. One wrong row, and nothing is "
    "written.",
)
def import_table(
    kind: Kind,
    caller: Writer,
    database: Base,
    settings: Chosen,
    rows: Annotated[list[Any], Depends(rows_sent)],
    dry_run: Annotated[bool, Query(description="Only say what would become of each row")] = False,
) -> dict[str, Any]:
    return enter(database, caller, kind, rows, dry_run, settings.entry_limit)


def enter(
    database: Database, caller: Caller, kind: str, rows: list[Any], dry_run: bool, entry_limit: int
) -> dict[str, Any]:
    """Write every row or none; return what became of each."""
    if kind == "people":
        caller.need("admin")
    try:
        with database.writing() as connection:
            taken = (
                take_people(connection, rows, caller.sites)
                if kind == "people"
                else take_rows(connection, caller, THINGS[kind], rows, entry_limit)
            )
            told = _told(kind, dry_run, taken)
            if dry_run or told["wrong"]:
                raise _Undone(told)
            return told
    except _Undone as undone:
        if not dry_run:
            raise _refusal(undone.told) from None
        return undone.told


def _told(kind: str, dry_run: bool, taken: Any) -> dict[str, Any]:
    rows = [
        {"row": row.number, **{name: value for name, value in row._asdict().items() if name != "number"}}
        for row in taken
    ]
    for row in rows if dry_run else ():
        row.pop("password", None)
    counts = {status: sum(row["status"] == status for row in rows) for status in ("new", "changed", "same", "wrong")}
    return {"kind": kind, "dry_run": dry_run, **counts, "rows": rows}


def _refusal(told: dict[str, Any]) -> Refused:
    errors = [
        {"pointer": f"/{row['row'] - 1}{fault['pointer']}", "detail": f"Row {row['row']}: {fault['detail']}"}
        for row in told["rows"]
        for fault in row["errors"]
    ]
    return Refused(
        "invalid_rows", f"{told['wrong']} of {len(told['rows'])} rows are wrong; nothing was written.", errors=errors
    )

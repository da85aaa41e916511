"""The commands that take records out and in."""

import json
import zipfile
from pathlib import Path
from typing import Annotated, Literal

import typer

from rackside.access.caller import ROLES, Caller
from rackside.api.imports import enter
from rackside.cli.asked import Url, chosen, fail, opened
from rackside.records import Refused, portable
from rackside.sync.tables import rows_of

Photos = Annotated[Path | None, typer.Option(help="Folder of the photos; RACKSIDE_PHOTOS when not given.")]


def export(
    file: Annotated[Path, typer.Argument(help="The zip file to write.")], photos: Photos = None, database: Url = None
) -> None:
    """Write everything into one archive: the log and all tables as JSON Lines, and the photos."""
    counts = portable.export(opened(database), photos or chosen().photos, file)
    typer.echo(_counted(file, counts))


def load(
    file: Annotated[Path, typer.Argument(help="An archive of `rackside export`, or a table as .csv or .json.")],
    kind: Annotated[
        Literal["sites", "machines", "people"] | None, typer.Option("--as", help="What the rows of a table are.")
    ] = None,
    dry_run: Annotated[bool, typer.Option(help="Only say what would become of each row.")] = False,
    author: Annotated[str, typer.Option(help="The name that a table's entries carry.")] = "rackside import",
    photos: Photos = None,
    database: Url = None,
) -> None:
    """Fill an empty database from an archive, or enter a table of sites, machines or people: all of it or nothing."""
    if not file.is_file():
        raise fail(f"There is no file {file}.", 2)
    if zipfile.is_zipfile(file):
        try:
            counts = portable.load(opened(database), photos or chosen().photos, file)
        except portable.NotLoaded as reason:
            raise fail(str(reason)) from None
        typer.echo(
            _counted(file, counts) + ". Passwords and tokens are not in it: `rackside user password` gives new ones."
        )
    elif kind is None:
        raise fail("Say what the rows are: --as sites, --as machines or --as people.", 2)
    else:
        _enter(file, kind, dry_run, author, database)


def _counted(file: Path, counts: dict[str, int]) -> str:
    return f"{file}: " + ", ".join(f"{count} {name}" for name, count in counts.items())


def _enter(file: Path, kind: str, dry_run: bool, author: str, database: str | None) -> None:
    caller = Caller(author, "admin", author, author, None, None, ROLES["admin"])
    try:
        content = file.read_text(encoding="utf-8-sig")
        rows = json.loads(content) if file.suffix == ".json" else rows_of(content)
        if not isinstance(rows, list):
            raise fail(f"{file}: a list of rows is needed.", 2)
        told = enter(opened(database), caller, kind, rows, dry_run, chosen().entry_limit)
    except ValueError as error:
        raise fail(f"{file}: {error}", 2) from None
    except Refused as refused:
        lines = [
            fault["detail"] + (f" ({fault['pointer']})" if fault["pointer"] else "")
            for fault in refused.members.get("errors", [])
        ]
        raise fail("\n".join([refused.detail, *lines])) from None
    for row in told["rows"]:
        faults = "; ".join(f"{fault['pointer']} {fault['detail']}".strip() for fault in row["errors"])
        typer.echo(" ".join(filter(None, (f"row {row['row']}: {row['status']}", faults, row.get("password")))))
    counts = ", ".join(f"{told[status]} {status}" for status in ("new", "changed", "same", "wrong"))
    typer.echo(f"{file}: {counts}" + ("; nothing was written" if dry_run else ""))
    if told["wrong"]:
        raise typer.Exit(1)

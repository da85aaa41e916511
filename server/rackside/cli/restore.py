"""The command that puts a backup back."""

from pathlib import Path
from typing import Annotated

import typer

from rackside.cli.asked import Url, chosen, fail, opened
from rackside.records import archive, restoring


def restore(
    file: Annotated[Path, typer.Argument(help="A file that rackside backup wrote.")],
    replace: Annotated[bool, typer.Option("--replace", help="Also where the database holds entries.")] = False,
    photos: Annotated[Path | None, typer.Option(help="Folder of the photos; RACKSIDE_PHOTOS when not given.")] = None,
    database: Url = None,
) -> None:
    """Put a backup in place of the database, all or nothing, and verify it. Phones then send what it lacks."""
    target = opened(database)
    held = restoring.held(target)
    if held and not replace:
        raise fail(f"The database holds {held} entries: say --replace to have this backup in their place.")
    try:
        told = restoring.restore(target, file, photos or chosen().photos)
    except archive.BackupFailed as failed:
        raise fail(str(failed)) from None
    typer.echo(f"{file}: {told}")

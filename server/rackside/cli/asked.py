"""What several commands ask for and how they fail."""

from typing import Annotated

import typer

from rackside.records import Database
from rackside.settings import Settings

Url = Annotated[str | None, typer.Option("--database", help="Database URL; RACKSIDE_DATABASE_URL when not given.")]
SiteIds = Annotated[list[str] | None, typer.Option("--site", help="Id of a site; again for more. None: all sites.")]


def fail(sentence: str, code: int = 1) -> typer.Exit:
    """Say on stderr what is wrong, and return the exit to raise."""
    typer.echo(sentence, err=True)
    return typer.Exit(code)


def chosen(**given: str | int | None) -> Settings:
    """Return the settings with what the command line says over them."""
    return Settings(**{name: value for name, value in given.items() if value is not None})  # type: ignore[arg-type]


def opened(url: str | None) -> Database:
    """Return the database, brought to this version."""
    database = Database(chosen(database_url=url).database_url)
    database.migrate()
    return database

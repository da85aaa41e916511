"""Migrations, run forward at start. Configured here: no ini file."""

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, text

HERE = Path(__file__).parent


def _configuration(connection: Connection | None = None) -> Config:
    configuration = Config()
    configuration.set_main_option("script_location", str(HERE))
    configuration.set_main_option("path_separator", "os")
    configuration.attributes["connection"] = connection
    return configuration


def upgrade(connection: Connection, revision: str = "head") -> None:
    """Run what is missing inside the caller's transaction; a second process waits for the first."""
    if connection.dialect.name == "postgresql":
        connection.execute(text("SELECT pg_advisory_xact_lock(7262)"))
    command.upgrade(_configuration(connection), revision)


def newest() -> str:
    """Return the revision this version of the program needs."""
    return ScriptDirectory.from_config(_configuration()).get_current_head() or ""

"""How alembic runs here: on the connection and in the transaction it is given."""

from alembic import context
from sqlmodel import SQLModel

from rackside.records import judged, outgoing, projected, tables  # noqa: F401

context.configure(connection=context.config.attributes["connection"], target_metadata=SQLModel.metadata)
context.run_migrations()

"""Insert many rows at once the way each database takes them fastest."""

from operator import itemgetter
from typing import Any

import psycopg
from sqlalchemy import Connection, Table
from sqlalchemy.exc import DBAPIError


def insert_many(connection: Connection, table: Table, rows: list[dict[str, Any]]) -> None:
    """Insert rows that all have the same columns; a failure is one of SQLAlchemy's errors, as everywhere."""
    if not rows:
        return
    names = list(rows[0])
    values = list(map(itemgetter(*names), rows))
    columns = ", ".join(f'"{name}"' for name in names)
    if connection.dialect.name == "postgresql":
        statement = f'COPY "{table.name}" ({columns}) FROM STDIN'
        cursor: Any = connection.connection.cursor()
        try:
            with cursor, cursor.copy(statement) as copy:
                for row in values:
                    copy.write_row(row)
        except psycopg.Error as error:
            raise DBAPIError.instance(statement, None, error, psycopg.Error, dialect=connection.dialect) from error
        return
    marks = ", ".join("?" * len(names))
    connection.exec_driver_sql(f'INSERT INTO "{table.name}" ({columns}) VALUES ({marks})', values)

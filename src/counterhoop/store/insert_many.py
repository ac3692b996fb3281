"""Put many rows in at the speed of the driver: a shelf of a million has fifteen million of them."""

from __future__ import annotations

from operator import itemgetter
from typing import Any

from sqlalchemy import Connection, Table, insert


def insert_many(connection: Connection, table: Table, rows: list[dict[str, Any]]) -> None:
    """Insert rows that all have the same columns; none is no row.

    Only for columns of whole numbers and texts, which the driver takes as they are.
    """
    if not rows:
        return
    statement = insert(table).compile(dialect=connection.dialect, column_keys=list(rows[0]))
    given: list[Any] = rows
    if statement.positional:
        order = statement.positiontup or []
        given = [*zip(*(map(itemgetter(name), rows) for name in order), strict=True)]
    connection.exec_driver_sql(str(statement), given)

"""Put a row in unless it is there, whoever else does the same at the same moment."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection, Table
from sqlalchemy.dialects import postgresql, sqlite


def insert_unless_there(connection: Connection, table: Table, row: dict[str, Any]) -> None:
    """Insert a row, or leave the one that is there as it is."""
    if connection.dialect.name == "postgresql":
        connection.execute(postgresql.insert(table).values(row).on_conflict_do_nothing())
    else:
        connection.execute(sqlite.insert(table).values(row).on_conflict_do_nothing())

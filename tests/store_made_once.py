"""A new store is made by its migrations once for each process of tests; later ones copy the SQL.

Putting the statements together takes alembic far longer than the database takes to run them, and
some thousand tests begin with an empty store.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from sqlalchemy import Connection, event, inspect

from counterhoop.store.migrate import APPLICATION_ID, NEWEST, move_to

Said = list[tuple[str, Any]]


class MovesAgain:
    """Moves an empty database to a shape by the statements with which it was done the first time.

    Anything else, a store that holds something among them, goes through the migrations themselves.
    """

    def __init__(self) -> None:
        self._said: dict[str, Said] = {}

    def __call__(self, connection: Connection, shape: str) -> None:
        dialect = connection.dialect.name
        if dialect != "sqlite":
            # Before the look: as in the migrations, of two that start together one waits.
            connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({APPLICATION_ID})")
        if shape != NEWEST or inspect(connection).get_table_names():
            move_to(connection, shape)
        elif dialect in self._said:
            for statement, words in self._said[dialect]:
                connection.exec_driver_sql(statement, words or None)
        else:
            with written_down(connection) as said:
                move_to(connection, shape)
            self._said[dialect] = said


@contextmanager
def written_down(connection: Connection) -> Iterator[Said]:
    """Yield the statements that a connection runs inside."""
    said: Said = []

    def write_down(
        _on: object, _cursor: object, statement: str, words: Any, _context: object, _many: bool
    ) -> None:
        said.append((statement, words))

    event.listen(connection, "before_cursor_execute", write_down)
    try:
        yield said
    finally:
        event.remove(connection, "before_cursor_execute", write_down)


def make_stores_once(patch: pytest.MonkeyPatch) -> None:
    """Let this process put the statements together once."""
    patch.setattr("counterhoop.store.store.move_to", MovesAgain())

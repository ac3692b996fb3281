"""Look the issued papers over: each by its hash, each series by its numbers."""

from __future__ import annotations

from collections.abc import Iterator

from sqlalchemy import Connection, select

from counterhoop.store.row_hash import is_as_written
from counterhoop.store.running.issued import read_issued
from counterhoop.store.tables import issued, turn


def issued_faults(connection: Connection) -> Iterator[str]:
    """Yield what is wrong with the issued papers, a line each; nothing is changed."""
    entry = 0
    rows = connection.execute(select(issued).order_by(issued.c.entry)).mappings().all()
    for row in rows:
        called = f"{row['series']} {row['called']}"
        yield from (f"issued paper {lost} is lost" for lost in range(entry + 1, row["entry"]))
        entry = max(entry, row["entry"])
        try:
            if not is_as_written(row):
                yield f"{called} is not what was given out"
            read_issued(row)
        except (ValueError, TypeError):
            yield f"{called} can no longer be read"
    last = connection.execute(select(turn.c.number).where(turn.c.name == "issued")).scalar() or 0
    yield from (f"issued paper {lost} is lost" for lost in range(entry + 1, last + 1))
    if entry > last:
        yield f"{entry} papers were issued, and only {last} counted"
    so_far: dict[tuple[str, int], int] = {}
    for row in sorted(rows, key=lambda one: (one["series"], one["year"], one["number"])):
        key = (row["series"], row["year"])
        if row["number"] != so_far.get(key, 0) + 1:
            yield f"there is a gap before {row['series']} {row['called']}"
        so_far[key] = row["number"]

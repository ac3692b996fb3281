"""The bins, and how many pieces lie in each."""

from __future__ import annotations

from sqlalchemy import Connection, text

_BIN = {"sqlite": "json_extract(p.body, '$.bin')", "postgresql": "p.body::json ->> 'bin'"}


def bins(connection: Connection) -> dict[str, int]:
    """Return how many pieces are written for each bin, by name; those of which none is left too.

    Reads through the whole shelf: a second for a million pieces.
    """
    which = _BIN[connection.dialect.name]
    away = (
        "SELECT 1 FROM hiding AS h WHERE h.thing = 'piece' AND h.thing_id = p.id"
        " AND h.back_at IS NULL"
    )
    asked = text(
        f"SELECT {which} AS bin, count(*) AS pieces FROM piece AS p"
        f" WHERE {which} IS NOT NULL AND NOT EXISTS ({away}) GROUP BY {which}"
    )
    found = connection.execute(asked).all()
    return {str(row.bin): int(row.pieces) for row in sorted(found, key=lambda row: str(row.bin))}

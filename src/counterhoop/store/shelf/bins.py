"""The bins: how many pieces are written for each, and which."""

from __future__ import annotations

from sqlalchemy import Connection, text

from counterhoop.store.shelf.look_up import Kept, pieces_at
from counterhoop.store.shelf.reckoned import known_words
from counterhoop.store.shelf.words import words_in

_BIN = {"sqlite": "json_extract(p.body, '$.bin')", "postgresql": "p.body::json ->> 'bin'"}


def bins(connection: Connection) -> dict[str, int]:
    """Return how many pieces are written for each bin, by name; those of which none is left too.

    Reads through the whole shelf: a second for a million pieces.
    """
    which = _BIN[connection.dialect.name]
    asked = text(
        f"SELECT {which} AS bin, count(*) AS pieces FROM piece AS p JOIN piece_stock AS s"
        f" ON s.entry = p.entry WHERE s.hidden = 0 AND {which} IS NOT NULL GROUP BY {which}"
    )
    found = connection.execute(asked).all()
    return {str(row.bin): int(row.pieces) for row in sorted(found, key=lambda row: str(row.bin))}


def pieces_in_bin(connection: Connection, name: str, *, limit: int) -> tuple[Kept, ...]:
    """Return what is written for a bin of exactly this name, in the order in which it came."""
    values: dict[str, int | str] = {"name": name, "limit": limit}
    where = ["s.hidden = 0", f"{_BIN[connection.dialect.name]} = :name"]
    # The bin's name is among the words of its pieces: few have them all.
    for at, number in enumerate(known_words(connection, list(words_in(name))).values()):
        where.append(f"p.entry IN (SELECT entry FROM piece_word WHERE word_id = :w{at})")
        values[f"w{at}"] = number
    asked = (
        "SELECT p.entry FROM piece AS p JOIN piece_stock AS s ON s.entry = p.entry"
        f" WHERE {' AND '.join(where)} ORDER BY p.entry LIMIT :limit"
    )
    entries = [*connection.execute(text(asked), values).scalars()]
    found = pieces_at(connection, entries)
    return tuple(found[entry] for entry in entries)

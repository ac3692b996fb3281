"""The bins: how many pieces are written for each, and which."""

from __future__ import annotations

import json

from sqlalchemy import Connection, text

from counterhoop.store.shelf.look_up import Kept, pieces_at
from counterhoop.store.shelf.reckoned import known_words
from counterhoop.store.shelf.words import words_in

_BIN = {
    "sqlite": "json_extract(p.body, '$.bin')",
    # PostgreSQL takes a body as JSON only if it can hold all of it as text, and half a sign in the
    # words of a piece it cannot. A quote within a text has a stroke before it, so only the bin is
    # found so; its signs beyond ASCII are read here.
    "postgresql": r"""substring(p.body from '"bin":"((?:[^"\\]|\\.)*)"')""",
}
_HAS = {"sqlite": "instr(p.body, :bin) > 0", "postgresql": "position(:bin in p.body) > 0"}
_IN_SIGHT = "FROM piece AS p JOIN piece_stock AS s ON s.entry = p.entry WHERE s.hidden = 0"


def bins(connection: Connection) -> dict[str, int]:
    """Return how many pieces are written for each bin, by name; those of which none is left too.

    Reads through the whole shelf: a second for a million pieces.
    """
    which = _BIN[connection.dialect.name]
    asked = text(f"SELECT {which} AS bin, count(*) AS pieces {_IN_SIGHT} GROUP BY {which}")
    found = {row.bin: int(row.pieces) for row in connection.execute(asked) if row.bin is not None}
    if connection.dialect.name == "postgresql":
        found = {json.loads(f'"{name}"'): pieces for name, pieces in found.items()}
    return dict(sorted(found.items()))


def pieces_in_bin(connection: Connection, name: str, *, limit: int) -> tuple[Kept, ...]:
    """Return what is written for a bin of exactly this name, in the order in which it came."""
    values: dict[str, int | str] = {"bin": f'"bin":{json.dumps(name)}', "limit": limit}
    where = [_HAS[connection.dialect.name]]
    # The bin's name is among the words of its pieces: few have them all.
    for at, number in enumerate(known_words(connection, list(words_in(name))).values()):
        where.append(f"p.entry IN (SELECT entry FROM piece_word WHERE word_id = :w{at})")
        values[f"w{at}"] = number
    asked = f"SELECT p.entry {_IN_SIGHT} AND {' AND '.join(where)} ORDER BY p.entry LIMIT :limit"
    entries = [*connection.execute(text(asked), values).scalars()]
    found = pieces_at(connection, entries)
    return tuple(found[entry] for entry in entries)

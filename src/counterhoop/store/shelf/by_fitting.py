"""Pieces that are certain entries of the fittings book, found at once on a shelf of any size."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, func, select, text

from counterhoop.fittings.book import name_key
from counterhoop.store.body import write_body
from counterhoop.store.plain_text import LONGEST
from counterhoop.store.shelf.ask_the_shelf import how_many
from counterhoop.store.shelf.look_up import Kept, pieces_at
from counterhoop.store.shelf.reckoned import known_words
from counterhoop.store.shelf.words import words_in
from counterhoop.store.tables import movement

ENOUGH = 5000
"""How far is counted to see which word is the rarest: more is common."""
MOST_PIECES = 500
"""Of one entry; more bags than that of one part nobody has."""
_MARK, _LONGEST = '"fitting":"', 12 * LONGEST + 2
"""How a piece's entry is written, and the most signs that its name takes, each a pair of escapes
between two quotes."""
_DECODER = json.JSONDecoder()
_ODD = re.compile(r'(?:\\u[0-9a-f]{4}|[^A-Za-z0-9.,/+"{}:-])+')


def pieces_by_fitting(
    connection: Connection, names: Iterable[str], *, client: str
) -> dict[str, tuple[Kept, ...]]:
    """Return the pieces in sight that are entries of these names, in the order in which they came.

    Parameters
    ----------
    connection : sqlalchemy.Connection
    names : iterable of str
        Of entries of the book, whatever their capitals.
    client : str
        Whose job it is for: other clients' pieces are left out; empty for the shop's own.

    Returns
    -------
    dict of str to tuple of Kept
        By ``name_key``; also pieces of which none is left. An entry that the shelf never had is
        not in it.
    """
    called = {name_key(name): name for name in names}
    wanted = {key: words_in(name) for key, name in called.items()}
    texts = sorted({word for words in wanted.values() for word in words})
    known = known_words(connection, texts)
    there = {key: words for key, words in wanted.items() if words and known.keys() >= {*words}}
    numbers = sorted({known[word] for words in there.values() for word in words})
    rare = {number: how_many(connection, number, enough=ENOUGH) for number in numbers}
    found: dict[str, Sequence[int]] = {}
    for key, words in there.items():
        rarest = sorted((known[word] for word in words), key=lambda number: rare[number])
        found[key] = _entries(connection, called[key], rarest, client=client)
    kept = pieces_at(connection, [entry for entries in found.values() for entry in entries])
    pieces = {
        # As it is written it may be another name with other signs in it.
        key: tuple(kept[n] for n in sorted(its) if name_key(kept[n].piece.fitting) == key)
        for key, its in found.items()
    }
    return {key: its for key, its in pieces.items() if its}


def free_by_fitting(connection: Connection) -> dict[tuple[str, str], int]:
    """Return how many are free of each entry of the book that lies, or lay, on the shelf.

    One look at every piece: a shelf of fifty thousand takes a fifth of a second.

    Returns
    -------
    dict of (str, str) to int
        By ``name_key`` of the entry and whose the pieces are.
    """
    at = "strpos" if connection.dialect.name == "postgresql" else "instr"
    rows = connection.execute(
        text(
            f"SELECT s.owner, s.free, substr(p.body, {at}(p.body, :mark) + :long, {_LONGEST})"
            " FROM piece AS p JOIN piece_stock AS s ON s.entry = p.entry"
            f" WHERE s.hidden = 0 AND {at}(p.body, :mark) > 0"
        ),
        {"mark": _MARK, "long": len(_MARK) - 1},
    )
    found: Counter[tuple[str, str]] = Counter()
    keys: dict[str, str] = {}
    for owner, free, written in rows:
        name, _ = _DECODER.raw_decode(written)
        key = keys.get(name) or keys.setdefault(name, name_key(name))
        found[key, owner] += free
    return dict(found)


def used_in(connection: Connection, job_id: str) -> dict[str, int]:
    """Return how many of each entry, by its ``name_key``, were used for a job or a drum of it."""
    rows = connection.execute(
        select(movement.c.entry, func.sum(movement.c.count))
        .where(movement.c.kind == "used", movement.c.job != "")
        .where(
            (movement.c.job == job_id) | movement.c.job.startswith(f"{job_id}/", autoescape=True)
        )
        .group_by(movement.c.entry)
    ).all()
    kept = pieces_at(connection, [entry for entry, _ in rows])
    found: Counter[str] = Counter()
    for entry, count in rows:
        found[name_key(kept[entry].piece.fitting)] += int(count)
    return dict(found)


def _entries(
    connection: Connection, name: str, words: Sequence[int], *, client: str
) -> Sequence[int]:
    """Return entries that say all words, the rarest first, and are written as this fitting."""
    # What is written as an escape stands for anything: its capital has another one.
    written = _ODD.sub("%", write_body({"fitting": name})[1:-1]).lower()
    values: dict[str, Any] = {"client": client, "written": f"%{written}%", "most": MOST_PIECES}
    values |= {f"w{place}": number for place, number in enumerate(words)}
    also = "".join(
        " AND EXISTS (SELECT 1 FROM piece_word AS o"
        f" WHERE o.word_id = :w{place} AND o.entry = i.entry)"
        for place in range(1, len(words))
    )
    # As text, for a hundred of them are asked at a time. In SQLite these joins mean: in this order.
    asked = text(
        "SELECT i.entry FROM piece_word AS i CROSS JOIN piece_stock AS s CROSS JOIN piece AS p"
        f" WHERE i.word_id = :w0{also} AND s.entry = i.entry AND s.hidden = 0"
        " AND s.owner IN ('', :client) AND p.entry = i.entry AND lower(p.body) LIKE :written"
        " ORDER BY i.entry DESC LIMIT :most"
    )
    return connection.execute(asked, values).scalars().all()

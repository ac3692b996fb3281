"""The rows by which a piece is searched, reckoned from what is written on it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from sqlalchemy import Connection, Delete, bindparam, delete, func, insert, select

from counterhoop.errors import BadInput
from counterhoop.parts.dimension import Measured, surest
from counterhoop.parts.piece import Piece
from counterhoop.parts.stock import Stock
from counterhoop.store.insert_many import insert_many
from counterhoop.store.shelf.dimension_numbers import NUMBERS
from counterhoop.store.shelf.words import words_of
from counterhoop.store.tables import piece_measure, piece_word, word

PER_UNIT = 10**6
"""Nanometres in a millimetre; micrograms in a gram."""

_MOST = 10**9
_ASKED_AT_ONCE = 500


def whole(amount: float, *, where: str) -> int:
    """Return an amount as the whole number that is compared.

    Raises
    ------
    BadInput
        For what no part measures: a kilometre, a tonne.
    """
    if not amount <= _MOST:
        raise BadInput("no part measures that", where=where, given=amount, wanted=f"under {_MOST}")
    return round(amount * PER_UNIT)


def in_whole(one: Measured) -> tuple[int, int]:
    """Return value and doubt of a reading as whole numbers."""
    where: str = one.dimension
    return whole(one.value, where=where), whole(one.doubt, where=where)


def measure_rows(piece: Piece, *, entry: int) -> list[dict[str, Any]]:
    """Return the best reading of each dimension of a piece, as rows of ``piece_measure``."""
    rows = []
    for best in surest(piece.measured):
        value, doubt = in_whole(best)
        number = NUMBERS[best.dimension]
        rows.append({"entry": entry, "dimension": number, "value_nm": value, "doubt_nm": doubt})
    return rows


def stock_row(piece: Piece, there: Stock, *, entry: int, movements: int) -> dict[str, Any]:
    """Return the row of ``piece_stock``, in sight, after so many movements."""
    return {
        "entry": entry,
        "owner": piece.owner,
        "movements": movements,
        "on_shelf": there.on_shelf,
        "free": there.free,
        "hidden": 0,
    }


def known_words(connection: Connection, words: list[str]) -> dict[str, int]:
    """Return the number of each word that stands on any piece, or stood there."""
    found: dict[str, int] = {}
    for first in range(0, len(words), _ASKED_AT_ONCE):
        asked = words[first : first + _ASKED_AT_ONCE]
        rows = connection.execute(select(word.c.word, word.c.id).where(word.c.word.in_(asked)))
        found.update((row.word, row.id) for row in rows)
    return found


def numbers_of_words(connection: Connection, words: list[str]) -> dict[str, int]:
    """Return the number of each word; words that are new get one.

    Only one at a time may do so: see ``take_the_shelf``.
    """
    found = known_words(connection, words)
    new = [text for text in dict.fromkeys(words) if text not in found]
    if new:
        last = connection.execute(select(func.coalesce(func.max(word.c.id), 0))).scalar_one()
        made = {text: last + place for place, text in enumerate(new, 1)}
        connection.execute(
            insert(word), [{"id": number, "word": text} for text, number in made.items()]
        )
        found.update(made)
    return found


def reckon(connection: Connection, entries: Sequence[tuple[int, Piece]]) -> None:
    """Write the rows by which pieces are found that have none yet."""
    measures = [row for entry, one in entries for row in measure_rows(one, entry=entry)]
    insert_many(connection, piece_measure, measures)
    insert_many(
        connection, piece_word, _word_rows(connection, {at: words_of(one) for at, one in entries})
    )


def reckon_anew(connection: Connection, changes: Sequence[tuple[int, Piece, Piece]]) -> None:
    """Write the rows of pieces anew, each given as its entry, what it said, what it says now."""
    gone: dict[int, list[str]] = {}
    come: dict[int, list[str]] = {}
    for entry, was, one in changes:
        before, now = words_of(was), words_of(one)
        gone[entry] = [text for text in before if text not in now]
        come[entry] = [text for text in now if text not in before]
    its_words = (piece_word.c.word_id == bindparam("word")) & (
        piece_word.c.entry == bindparam("at")
    )
    _delete_many(
        connection, delete(piece_word).where(its_words),
        [{"word": row["word_id"], "at": row["entry"]} for row in _word_rows(connection, gone)],
    )  # fmt: skip
    insert_many(connection, piece_word, _word_rows(connection, come))
    other = [(entry, was, one) for entry, was, one in changes if was.measured != one.measured]
    its_measures = (piece_measure.c.dimension == bindparam("what")) & (
        piece_measure.c.entry == bindparam("at")
    )
    old = [row for entry, was, _ in other for row in measure_rows(was, entry=entry)]
    _delete_many(
        connection, delete(piece_measure).where(its_measures),
        [{"what": row["dimension"], "at": row["entry"]} for row in old],
    )  # fmt: skip
    measures = [row for entry, _, one in other for row in measure_rows(one, entry=entry)]
    insert_many(connection, piece_measure, measures)


def _word_rows(connection: Connection, words: Mapping[int, Sequence[str]]) -> list[dict[str, Any]]:
    known = numbers_of_words(connection, [*dict.fromkeys(w for its in words.values() for w in its)])
    # In the order of the table, so that many go in at once.
    pairs = sorted((known[w], entry) for entry, its in words.items() for w in its)
    return [{"word_id": number, "entry": entry} for number, entry in pairs]


def _delete_many(connection: Connection, which: Delete, rows: list[dict[str, Any]]) -> None:
    if rows:
        connection.execute(which, rows)

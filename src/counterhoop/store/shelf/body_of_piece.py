"""A piece as the text that is kept of it, and back."""

from __future__ import annotations

import datetime as dt
from dataclasses import fields
from functools import lru_cache
from typing import Any, NamedTuple

from counterhoop.errors import BadInput
from counterhoop.parts.dimension import Dimension, Measured
from counterhoop.parts.piece import Piece
from counterhoop.store.body import Json, hash_of, read_body, write_sound
from counterhoop.store.plain_text import LONGEST, plain_text

LONGEST_SAYS = 2000
MOST_READINGS = 100
MOST_COUNT = 10**9
_PLAIN = {one.name: one.default for one in fields(Piece) if one.name not in ("id", "measured")}


def write_piece(piece: Piece) -> str:
    """Return what is kept of a piece: one line of JSON, without what is empty.

    Raises
    ------
    BadInput
        For what no bag's label can hold: signs that cannot be printed, a text without end.
    """
    _need_keepable(piece)
    body: dict[str, Json] = {}
    for name, empty in _PLAIN.items():
        value = getattr(piece, name)
        if value == empty:
            continue
        if isinstance(value, dt.date):
            value = value.isoformat()
        body[name] = list(value) if isinstance(value, tuple) else value
    if piece.measured:
        body["measured"] = [
            {
                "dimension": one.dimension.value,
                "value": one.value,
                "doubt": one.doubt,
                "written": one.written,
            }
            for one in piece.measured
        ]
    return write_sound(body)


def read_piece(text: str, *, piece_id: str) -> Piece:
    """Return the piece that was written.

    Raises
    ------
    ValueError, KeyError, TypeError
        When it is no such text; a `BadInput` is one of them.
    """
    body: Any = read_body(text)
    unknown = body.keys() - _PLAIN.keys() - {"measured"}
    if unknown:
        raise ValueError(f"a piece knows no {', '.join(sorted(unknown))}")
    if "came_on" in body:
        body["came_on"] = dt.date.fromisoformat(body["came_on"])
    body["condition"] = tuple(body.get("condition", ()))
    measured = [
        _reading(one["dimension"], one["value"], one["doubt"], one["written"])
        for one in body.pop("measured", ())
    ]
    return Piece(**{"number": "", **body}, id=piece_id, measured=tuple(measured))


# A shelf says the same few thousand readings again and again.
@lru_cache(maxsize=1 << 16, typed=True)
def _reading(dimension: str, value: float, doubt: float, written: str) -> Measured:
    return Measured(dimension=Dimension(dimension), value=value, doubt=doubt, written=written)


class Written(NamedTuple):
    """A piece, and what is kept of it, written down before."""

    piece: Piece
    body: str


def read_written(text: str, *, piece_id: str) -> Written:
    """Return a piece with the text that `write_piece` made of it: that is not made again."""
    return Written(read_piece(text, piece_id=piece_id), text)


def hash_of_piece(text: str) -> str:
    """Return the hash by which it is seen that a piece still says what was written."""
    return hash_of(text, None)


def _need_keepable(piece: Piece) -> None:
    called = f"piece {piece.number or piece.id}"
    for name, value in (
        ("number", piece.number), ("kind", piece.kind), ("material", piece.material),
        ("plating", piece.plating), ("finish", piece.finish), ("bin", piece.bin),
        ("lot", piece.lot), ("owner", piece.owner), ("currency", piece.currency),
        ("fitting", piece.fitting),
    ):  # fmt: skip
        if value:
            plain_text(value, where=f"{called}: {name}", may_be_empty=True)
    for text in (piece.says, *piece.condition):
        if len(text) > LONGEST_SAYS:
            wanted = f"at most {LONGEST_SAYS} signs"
            raise BadInput("too long", where=called, given=text[:LONGEST], wanted=wanted)
    if len(piece.measured) > MOST_READINGS:
        raise BadInput(
            "more readings than anybody takes of a part",
            where=called,
            given=len(piece.measured),
            wanted=f"at most {MOST_READINGS}",
        )
    if piece.count > MOST_COUNT:
        raise BadInput(
            "more than a shelf holds",
            where=called,
            given=piece.count,
            wanted=f"at most {MOST_COUNT}",
        )

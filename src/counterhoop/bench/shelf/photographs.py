"""Photographs of a piece: put beside it, and found there."""

from __future__ import annotations

from collections.abc import Iterable

from counterhoop.bench.folders.photographs import kept_picture
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.shelf.photographs import (
    Photograph,
    enclose_for_piece,
    photographs_of_piece,
)


def photograph_piece(
    shop: Workshop, piece_id: str, *, name: str, pieces: Iterable[bytes], by: str
) -> str:
    """Put a photograph beside a piece and return its name for programs.

    Raises
    ------
    BadInput
        For a file that is no picture that can be read, or a piece that is not there.
    """
    file = kept_picture(shop, name=name, pieces=pieces)
    with shop.store.writing() as connection:
        return enclose_for_piece(
            connection, piece_id=piece_id, file=file, name_given=name, stamp=shop.stamp(by)
        )


def photographs_with(shop: Workshop, piece_id: str) -> tuple[Photograph, ...]:
    """Return the photographs of a piece, those that are put away too."""
    with shop.store.reading() as connection:
        return photographs_of_piece(connection, piece_id, with_hidden=True)


def piece_photograph(shop: Workshop, piece_id: str, photograph_id: str) -> Photograph:
    """Return one photograph of a piece, hidden or not.

    Raises
    ------
    BadInput
        When there is none of that name.
    """
    for one in photographs_with(shop, piece_id):
        if one.id == photograph_id:
            return one
    raise BadInput("no such photograph of this piece", where="photograph", given=photograph_id)

"""Pieces and their photographs put out of sight, and brought back; none is deleted."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from counterhoop.bench.workshop import Workshop
from counterhoop.store.hide import Hidden, Thing, bring_back, hidden_things, hide
from counterhoop.store.shelf.look_up import Kept, piece_by_id
from counterhoop.store.shelf.put_away import bring_back_piece, hide_piece

MOST_AWAY: Final = 300
"""So many are listed; the others are found by their address."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceAway:
    """A piece that is out of sight, and who put it there."""

    kept: Kept
    hidden: Hidden


def put_piece_away(shop: Workshop, piece_id: str, *, by: str) -> None:
    """Put a piece out of sight; its number stays taken.

    Raises
    ------
    BadInput
        When there is no such piece, or some of it is set aside for a job.
    """
    with shop.store.writing() as connection:
        hide_piece(connection, piece_id, stamp=shop.stamp(by))


def take_piece_out(shop: Workshop, piece_id: str, *, by: str) -> None:
    """Bring a piece back as it was."""
    with shop.store.writing() as connection:
        bring_back_piece(connection, piece_id, stamp=shop.stamp(by))


def pieces_away(shop: Workshop) -> tuple[tuple[PieceAway, ...], int]:
    """Return the pieces that are out of sight, the last put away first, and how many in all."""
    with shop.store.reading() as connection:
        away = hidden_things(connection, thing=Thing.PIECE)
        listed = tuple(
            PieceAway(kept=piece_by_id(connection, one.thing_id), hidden=one)
            for one in away[:MOST_AWAY]
        )
    return listed, len(away)


def put_photograph_away(shop: Workshop, photograph_id: str, *, by: str) -> None:
    """Put a piece's photograph out of sight.

    Raises
    ------
    BadInput
        When there is no such photograph.
    """
    with shop.store.writing() as connection:
        hide(
            connection, thing=Thing.PHOTOGRAPH, thing_id=photograph_id, stamp=shop.stamp(by)
        )  # fmt: skip


def take_photograph_out(shop: Workshop, photograph_id: str, *, by: str) -> None:
    """Bring a piece's photograph back."""
    with shop.store.writing() as connection:
        bring_back(
            connection, thing=Thing.PHOTOGRAPH, thing_id=photograph_id, stamp=shop.stamp(by)
        )  # fmt: skip

"""What a part in hand is, and what becomes of it: on the shelf, or named on its card."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from counterhoop.bench.folders.folder import drawer
from counterhoop.bench.folders.own_book import own_book
from counterhoop.bench.shelf.cards import card_of, write_piece
from counterhoop.bench.shelf.known import candidates_for, left_out
from counterhoop.bench.workshop import Workshop
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Fitting
from counterhoop.parts.dimension import Dimension, Measured
from counterhoop.parts.unknown.candidate import Candidate, Candidates
from counterhoop.parts.unknown.next_measurement import TELLS_NOTHING, NextMeasurement, measurements
from counterhoop.parts.unknown.odds import COULD_ALSO, CandidateOdds, Odds, Seen, odds
from counterhoop.store.shelf.look_up import Kept
from counterhoop.store.shelf.put import PieceConflict

MOST_OFFERED: Final = 3
FIRST: Final = (
    *(Dimension.HOLES_APART, Dimension.BASE_WIDE, Dimension.BASE_HIGH, Dimension.HOLE_COUNT),
    *(Dimension.LENGTH, Dimension.ACROSS, Dimension.PITCH, Dimension.MAJOR),
)
"""What is taken first of a part of which nobody knows the kind. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What a part in hand may be.

    Attributes
    ----------
    odds : Odds
        The answer.
    offered : tuple of NextMeasurement
        What to measure next, the best first; empty where nothing more would tell.
    fitting : Fitting or None
        What the book says of the likeliest; None where that is a piece, or nothing is likely.
    usual : tuple of Dimension
        What is usually measured on a part of this kind, in the order of the list.
    kinds : tuple of str
        What it may be taken for by eye.
    left_out : int
        Pieces of a very large shelf that were not held against it.
    """

    odds: Odds
    offered: tuple[NextMeasurement, ...]
    fitting: Fitting | None
    usual: tuple[Dimension, ...]
    kinds: tuple[str, ...]
    left_out: int

    @property
    def too_alike(self) -> str:
        """Say which ones are left that no measurement parts; empty where one would, or one is."""
        left = [one.candidate.name for one in self.odds.ranked if one.odds >= COULD_ALSO]
        if self.offered or self.odds.nothing_fits or len(left) < 2:
            return ""
        return f"{', '.join(left[:-1])} and {left[-1]} can't be told apart by measuring."

    @property
    def leader(self) -> CandidateOdds | None:
        """The likeliest where it is worth naming; where nothing fits, what it is most like."""
        if self.odds.nothing_fits:
            return self.odds.like[0] if self.odds.like else None
        return self.odds.ranked[0] if self.odds.word != "can't tell" else None


def what_is_it(
    shop: Workshop, measured: Sequence[Measured], *, seen: Seen, without: str = ""
) -> Told:
    """Return what a part may be, and what to measure next.

    Parameters
    ----------
    shop : Workshop
        Whose book and shelf it is held against.
    measured : sequence of Measured
        What was taken on it so far.
    seen : Seen
        What the eye says.
    without : str
        The key of the piece that is asked about.
    """
    candidates = candidates_for(shop, without=without)
    book = own_book(drawer(shop)).book
    return told_of(measured, candidates, seen=seen, book=book, left_out=left_out(shop))


def told_of(
    measured: Sequence[Measured], candidates: Candidates, *, seen: Seen, book: Book,
    left_out: int = 0,
) -> Told:  # fmt: skip
    """Return what a part may be of these candidates, which the entries of the book are among."""
    found = odds(measured, candidates, seen=seen)
    begun = bool(found.measured or seen.kind) and not found.nothing_fits
    offered = measurements(found, candidates) if begun else ()
    return Told(
        odds=found,
        offered=tuple(one for one in offered if one.drop_bits > TELLS_NOTHING)[:MOST_OFFERED],
        fitting=_entry(book, found),
        usual=_usual(seen.kind or _kind_of(found), candidates),
        kinds=tuple(kind for kind in candidates.kinds if kind),
        left_out=left_out,
    )


def it_is(
    shop: Workshop, piece_id: str, *, name: str, measured: Sequence[Measured], based_on: int,
    by: str,
) -> Kept | PieceConflict:  # fmt: skip
    """Write on a piece's card which entry of the book it is, and what was measured on the way.

    Parameters
    ----------
    piece_id : str
        Whose card.
    name : str
        The entry.
    measured : sequence of Measured
        Readings that the card does not have yet are added to it.
    based_on : int
        The ``head`` that the writer saw.
    by : str
        Which bench.

    Raises
    ------
    BadInput
        For an entry that the book does not have, or a piece that the shelf does not have.
    """
    book = own_book(drawer(shop)).book
    entry = book.find(name)
    piece = card_of(shop, piece_id).kept.piece
    changed: dict[str, Any] = {"fitting": entry.name}
    if piece.kind not in {one.kind.value for one in book}:
        # "Casting" was all that could be said of it.
        changed["kind"] = entry.kind.value
    held = {(one.dimension, one.value) for one in piece.measured}
    new = tuple(one for one in measured if (one.dimension, one.value) not in held)
    if new:
        changed["measured"] = piece.measured + new
    return write_piece(shop, piece_id, changed, based_on=based_on, by=by)


def _entry(book: Book, found: Odds) -> Fitting | None:
    if found.nothing_fits or found.word == "can't tell" or found.ranked[0].candidate.piece_id:
        return None
    return book.find(found.ranked[0].candidate.name)


def _kind_of(found: Odds) -> str:
    """Return the kind that it is more likely than not."""
    shares: dict[str, float] = {}
    for one in found.ranked if found.measured else ():
        shares[one.candidate.kind] = shares.get(one.candidate.kind, 0.0) + one.odds
    kind = max(shares, key=shares.__getitem__, default="")
    return kind if shares.get(kind, 0.0) > 0.5 else ""


def _usual(kind: str, candidates: Candidates) -> tuple[Dimension, ...]:
    """Return what at least one in four of a kind states."""
    of_kind: list[Candidate] = [one for one in candidates if one.kind == kind] if kind else []
    usual = tuple(
        what for what in Dimension if 4 * sum(what in one.dims for one in of_kind) >= len(of_kind)
    )
    return usual if of_kind else FIRST

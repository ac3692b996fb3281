"""How a piece, its stock and its movements are said, on a page and in a terminal."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from counterhoop.fittings.book import name_key
from counterhoop.parts.asked import asked
from counterhoop.parts.dimension import Dimension
from counterhoop.parts.movement import Movement
from counterhoop.parts.piece import Piece
from counterhoop.parts.stock import Stock
from counterhoop.store.shelf.look_up import Kept

WHOSE = "It serves only their jobs, and leaves with them or with a release that they signed."


MAIN: Final = (
    *(Dimension.LENGTH, Dimension.PITCH, Dimension.HOLES_APART, Dimension.BASE_HIGH),
    *(Dimension.ACROSS, Dimension.MAJOR, Dimension.TAKES, Dimension.INSIDE),
)
"""By which one tells a piece from the next of its kind."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MovementLine:
    """A movement as the card has it."""

    on: dt.datetime
    says: str
    beside: str
    bench: str


def called(piece: Piece) -> str:
    """Return what one calls a piece.

    Examples
    --------
    >>> called(Piece(id="1", number="0042", kind="lug"))
    'lug'
    >>> called(Piece(id="1", number="0042"))
    'piece 0042'
    """
    first = piece.says.split("\n")[0]
    return first or piece.fitting or piece.kind or f"piece {piece.number}".strip()


def main_says(piece: Piece) -> tuple[str, ...]:
    """Return what tells a piece from others that are called the same: its entry, or two sizes.

    Examples
    --------
    >>> main_says(Piece(id="1", number="1", says="rods", fitting="rod 12-24 x 42 mm"))
    ('rod 12-24 x 42 mm',)
    """
    if piece.fitting and name_key(piece.fitting) not in name_key(called(piece)):
        return (piece.fitting,)
    best = ((what, piece.best(what)) for what in MAIN)
    return tuple(f"{what} {one.written or one}" for what, one in best if one is not None)[:2]


def example_of(pieces: Iterable[Piece]) -> str:
    """Return a line that finds one of these pieces, words and a measurement; empty for none."""
    for piece in pieces:
        for what in MAIN:
            if not piece.kind or (best := piece.best(what)) is None:
                continue
            line = f"{piece.kind}, {what} {best.written or best}"
            if [one.dimension for one in asked(line).measures] == [what]:
                return line
    return ""


def count_says(kept: Kept) -> str:
    """Return how many there are, in a few words.

    Examples
    --------
    >>> from types import SimpleNamespace as Some
    >>> count_says(Some(on_shelf=5, free=3)), count_says(Some(on_shelf=0, free=0))
    ('3 free, 2 set aside', 'none left')
    """
    aside = kept.on_shelf - kept.free
    if not kept.on_shelf:
        return "none left"
    if not aside:
        return f"{kept.free} free"
    return f"{kept.free} free, {aside} set aside" if kept.free else f"all {aside} set aside"


def stock_says(stock: Stock, *, said: Callable[[str], str]) -> str:
    """Say in one line how many there are, and for whom some are set aside.

    Examples
    --------
    >>> stock_says(Stock(on_shelf=5, set_aside={"4f2a": 2}), said=lambda key: "job 214")
    '5 on the shelf, 2 of them set aside for job 214.'
    """
    aside = [f"{count} of them set aside for {said(key)}" for key, count in stock.set_aside.items()]
    if not stock.on_shelf:
        return "None left." if stock.came_in + stock.by_count else "None has come in yet."
    if sum(stock.set_aside.values()) == stock.on_shelf and len(aside) == 1:
        (key,) = stock.set_aside
        it = "set aside" if stock.on_shelf == 1 else "all of them set aside"
        return f"{stock.on_shelf} on the shelf, {it} for {said(key)}."
    return f"{', '.join([f'{stock.on_shelf} on the shelf', *aside])}."


def movement_lines(
    movements: Sequence[Movement], *, said: Callable[[str], str]
) -> list[MovementLine]:
    """Return the movements in words, the last one first."""
    return [
        MovementLine(
            on=one.on, says=_moved(one, said=said), bench=one.bench, beside=_beside(one),
        )
        for one in reversed(movements)
    ]  # fmt: skip


def _moved(one: Movement, *, said: Callable[[str], str]) -> str:
    whom = f" for {said(one.job)}" if one.job else ""
    match one.kind:
        case "counted":
            return f"counted: {one.count} on the shelf"
        case "put back":
            return f"{one.count} put back from {said(one.job)}"
        case "given back":
            return f"{one.count} given back to {one.client}"
        case _:
            return f"{one.count} {one.kind}{whom}"


def _beside(one: Movement) -> str:
    release = f"release: {one.release}" if one.release else ""
    return ". ".join(filter(None, (one.corrects, one.why, release)))

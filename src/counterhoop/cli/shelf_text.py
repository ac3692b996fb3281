"""Pieces of the shelf as the terminal shows them."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import TYPE_CHECKING

from counterhoop.bench.shelf.said import WHOSE, called, count_says, movement_lines, stock_says
from counterhoop.bench.shelf.whose import said
from counterhoop.bench.shelf.written import facts_of
from counterhoop.quantities.day import say_day

if TYPE_CHECKING:
    from counterhoop.bench.shelf.cards import Card
    from counterhoop.bench.workshop import Workshop
    from counterhoop.store.shelf.find import Found


def line_text(found: Found) -> str:
    """Return a piece that was found in one line."""
    piece = found.kept.piece
    fits = [
        f"{one} {best.written or best}"
        for one in found.fits
        if (best := piece.best(one)) is not None
    ]
    where = [f"bin {piece.bin}"] if piece.bin else []
    whose = [f"belongs to {piece.owner}"] if piece.owner else []
    beside = ", ".join((count_says(found.kept), *where, *whose, *fits))
    return f"{piece.number or '-'}  {called(piece)}: {beside}"


def card_text(shop: Workshop, card: Card) -> Iterator[str]:
    """Yield the lines of a piece's card."""

    @cache
    def say(key: str) -> str:
        return said(shop, key)

    piece = card.kept.piece
    yield f"{piece.number}  {called(piece)}"
    yield f"  {stock_says(card.stock, said=say)}"
    if card.kept.hidden:
        yield "  It is put away."
    if piece.bin:
        yield f"  bin: {piece.bin}"
    if piece.owner:
        yield f"  It belongs to {piece.owner}. {WHOSE}"
    if piece.fitting:
        yield f"  entry of the book: {piece.fitting}"
    for label, lines in facts_of(piece):
        yield f"  {label.lower()}: {'; '.join(lines)}"
    for one in movement_lines(card.movements, said=say):
        beside = f" ({one.beside})" if one.beside else ""
        yield f"  {say_day(one.on.astimezone())}  {one.says}{beside}, {one.bench}"

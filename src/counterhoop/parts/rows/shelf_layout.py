"""The columns of a shelf's sheet, and how a row and a piece become each other."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from typing import Any, cast

from counterhoop.parts.dimension import Dimension, Measured
from counterhoop.parts.piece import Piece
from counterhoop.parts.rows.cell_readers import (
    read_count,
    read_day,
    read_facts,
    read_name,
    read_price,
    read_share,
    read_words,
    read_yes_no,
)
from counterhoop.parts.rows.dry_run import Changed
from counterhoop.parts.rows.layout import Field, Layout, Values
from counterhoop.parts.rows.measured_cell import field_of
from counterhoop.quantities.money import PLACES, Money

COUNT = "count"
_ALSO: dict[Dimension, tuple[str, ...]] = {
    Dimension.HOLES_APART: ("hole spacing", "hole centres", "centres", "spacing"),
    Dimension.HOLE_COUNT: ("holes", "number of holes"),
    Dimension.PITCH: ("thread pitch", "threads to the inch", "tpi"),
    Dimension.MAJOR: ("thread diameter", "major diameter"),
    Dimension.ACROSS: ("diameter", "outside diameter"),
    Dimension.INSIDE: ("inside diameter", "bore"),
    Dimension.MASS: ("weight",),
    Dimension.THICK: ("thickness",),
    Dimension.WIDE: ("width",),
    Dimension.HIGH: ("height",),
    Dimension.REACH: ("reach",),
}
_DIMENSIONS = tuple(one.value for one in Dimension)
_ONE_TO_ONE = (
    *("number", "kind", "says", "material", "plating", "finish", "condition", "count", "bin"),
    *("lot", "owner", "fitting"),
)


@cache
def shelf_layout() -> Layout:
    """Return the columns of a shelf: its words first, then a column for each dimension."""
    fields = (
        Field(
            name="number",
            words=("no", "bag", "bag no", "shop number", "part number"),
            read=read_name,
        ),
        Field(name="kind", words=("type", "what"), read=read_name),
        Field(name="says", words=("description", "what it is", "notes"), read=read_words),
        Field(
            name="count",
            words=("how many", "quantity", "qty", "pieces"),
            read=read_count,
            write=lambda count: cast(int, count),
        ),
        Field(name="bin", words=("place", "where", "drawer", "location"), read=read_name),
        Field(name="material", words=("metal",), read=read_name),
        Field(name="plating", words=("plated",), read=read_name),
        Field(name="finish", words=("colour", "color"), read=read_name),
        Field(
            name="condition",
            words=("state", "faults"),
            read=read_facts,
            write=lambda facts: "; ".join(cast("tuple[str, ...]", facts)),
        ),
        Field(name="owner", words=("belongs to", "client"), read=read_name),
        Field(name="lot", words=("came with", "from"), read=read_name),
        Field(
            name="share of lot",
            words=("lot share",),
            read=read_share,
            write=lambda share: f"{100 * cast(float, share):.12g} %",
            same=lambda one, other: abs(cast(float, one) - cast(float, other)) < 1e-9,
        ),
        Field(name="price", words=("worth", "value"), read=read_price, units=tuple(PLACES)),
        Field(
            name="came on",
            words=("date", "day", "bought on", "came in"),
            read=read_day,
            write=lambda day: cast("dt.date", day).isoformat(),
            is_day=True,
        ),
        Field(name="fitting", words=("book entry", "in the book"), read=read_name),
        Field(
            name="matched set",
            words=("set",),
            read=read_yes_no,
            write=lambda yes: "yes" if yes else "no",
        ),
        *(field_of(one, words=_ALSO.get(one, ())) for one in Dimension),
    )
    return Layout(name="piece", fields=fields, key=("number",), need=("kind",))


def piece_of(values: Values, *, id: str) -> Piece:
    """Make the piece of a row.

    Parameters
    ----------
    values : Values
        What a row says, or what a piece said with a row's changes over it.
    id : str
        The store's key for it.

    Raises
    ------
    BadInput
        What the record itself refuses.
    """
    given: dict[str, Any] = {name: values[name] for name in _ONE_TO_ONE if name in values}
    price = values.get("price")
    if isinstance(price, Money):
        given |= {"price_minor": price.minor, "currency": price.currency}
    readings: list[Measured] = []
    for name in _DIMENSIONS:
        if name in values:
            readings += cast("tuple[Measured, ...]", values[name])
    return Piece(
        id=id,
        **given,
        measured=tuple(readings),
        lot_share=cast("float | None", values.get("share of lot")),
        came_on=cast("dt.date | None", values.get("came on")),
        matched_set=bool(values.get("matched set", False)),
    )


def values_of(piece: Piece, *, on_shelf: int | None = None) -> Values:
    """Return what a piece says, by the names of the columns; what it does not say is left out.

    Parameters
    ----------
    piece : Piece
        The piece.
    on_shelf : int, optional
        How many lie there now; how many came when it is not given.
    """
    said: dict[str, object] = {name: getattr(piece, name) for name in _ONE_TO_ONE}
    said["count"] = piece.count if on_shelf is None else on_shelf
    said["share of lot"] = piece.lot_share
    said["came on"] = piece.came_on
    said["matched set"] = piece.matched_set or None
    if piece.price_minor is not None and piece.currency:
        said["price"] = Money(minor=piece.price_minor, currency=piece.currency)
    for one in piece.measured:
        said[one.dimension.value] = (
            *cast("tuple[Measured, ...]", said.get(one.dimension.value, ())),
            one,
        )
    return {
        name: value for name, value in said.items() if value is not None and value not in ("", ())
    }


def piece_after(piece: Piece, changed: Changed) -> Piece:
    """Return a piece with what a row says of it laid over; how many came stays (see `counted`)."""
    said = {name: value for name, value in changed.becomes.items() if name != COUNT}
    made = piece_of({**values_of(piece), **said}, id=piece.id)
    if "price" in said:
        return made
    # A price of which the currency was never written stands in no cell.
    return replace(made, price_minor=piece.price_minor, currency=piece.currency)


def counted(changed: Changed, *, where: str) -> tuple[int, str] | None:
    """Return what was counted and what that puts right, for a movement; None for no new count.

    Examples
    --------
    >>> from counterhoop.parts.rows.dry_run import Change
    >>> change = Change(field="count", was=4, becomes=3)
    >>> counted(Changed(row=7, key="a1", changes=(change,)), where="shelf.xlsx")
    (3, '4 on the shelf, 3 in row 7 of shelf.xlsx')
    """
    for each in changed.changes:
        if each.field == COUNT:
            now = cast(int, each.becomes)
            return now, f"{each.was} on the shelf, {now} in row {changed.row} of {where}"
    return None


def names_in_use(pieces: Iterable[Values]) -> tuple[str, ...]:
    """Return the fields that some piece says something of, in the order of the columns."""
    used = {name for values in pieces for name in values}
    return tuple(each.name for each in shelf_layout().fields if each.name in used)

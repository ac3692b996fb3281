"""The sorts of rows that go in and out: pieces of the shelf, forms of a feature, serial numbers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Final

from counterhoop.bench.evidence.rows import reference_trying, take_reference
from counterhoop.bench.rows.taken import Taken
from counterhoop.bench.rows.try_rows import Tried
from counterhoop.bench.rows.trying import Trying
from counterhoop.bench.rows.waiting import Waiting
from counterhoop.bench.shelf.rows import shelf_trying, take_pieces
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.parts.rows.layout import Layout
from counterhoop.parts.rows.reference_layout import serials_layout, values_layout
from counterhoop.parts.rows.shelf_layout import shelf_layout
from counterhoop.store.store import Connection

Share = Callable[[float], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class RowSort:
    """One sort of rows.

    Attributes
    ----------
    name : str
        For programs.
    one, many, there : str
        What a row is, what rows are, and where they go: "on the shelf".
    layout : callable
        Its columns.
    trying : callable
        What rows are held against.
    take : callable
        Takes what a dry run found.
    """

    name: str
    one: str
    many: str
    there: str
    layout: Callable[[], Layout]
    trying: Callable[[Workshop, Connection, Waiting], Trying]
    take: Callable[[Workshop, Waiting, Tried, str, Share], Taken]


def _shelf_trying(shop: Workshop, connection: Connection, one: Waiting) -> Trying:
    return shelf_trying(shop, connection, where=one.name)


def _shelf_take(shop: Workshop, one: Waiting, tried: Tried, by: str, share: Share) -> Taken:
    return take_pieces(shop, one, tried, by=by, progress=share)


def _reference_trying(sort: str, shop: Workshop, _connection: Connection, _one: Waiting) -> Trying:
    return reference_trying(shop, sort)


def _reference_take(
    sort: str, shop: Workshop, one: Waiting, tried: Tried, by: str, _share: Share
) -> Taken:
    return take_reference(shop, one, tried, sort=sort, by=by)


SORTS: Final = {
    one.name: one
    for one in (
        RowSort(
            name="shelf", one="piece", many="pieces", there="on the shelf", layout=shelf_layout,
            trying=_shelf_trying, take=_shelf_take,
        ),
        RowSort(
            name="forms", one="form of a feature", many="forms of features",
            there="among your dated features", layout=values_layout,
            trying=partial(_reference_trying, "value"), take=partial(_reference_take, "value"),
        ),
        RowSort(
            name="serials", one="serial number", many="serial numbers",
            there="among your dated features", layout=serials_layout,
            trying=partial(_reference_trying, "serial"), take=partial(_reference_take, "serial"),
        ),
    )
}  # fmt: skip


def row_sort(name: str) -> RowSort:
    """Return a sort of rows by its name.

    Raises
    ------
    BadInput
        When there is none.
    """
    if name not in SORTS:
        raise BadInput("no such sort of rows", where="sort", given=name, wanted=", ".join(SORTS))
    return SORTS[name]

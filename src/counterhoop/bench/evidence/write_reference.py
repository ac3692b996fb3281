"""Write the workshop's own dated features: a row, all rows, put away, taken out again."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from counterhoop.bench.evidence.own_reference import (
    AWAY,
    SORTS,
    OwnReference,
    Rows,
    away_of,
    laid_over,
    rows_of,
)
from counterhoop.bench.folders.kinds import REFERENCE
from counterhoop.bench.folders.write_down import Change, write_change
from counterhoop.bench.folders.write_thing import ThingChange, write_thing
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.body import Json
from counterhoop.store.save import Conflict, Saved
from counterhoop.store.stamp import Stamp
from counterhoop.store.store import Connection

Body = dict[str, Any]


def write_rows(shop: Workshop, rows: Rows, *, based_on: int, by: str) -> Saved | Conflict:
    """Write all own rows anew; those that stand there now are in the earlier versions.

    Parameters
    ----------
    rows : mapping of str to sequence of mapping
        By sort ("line", "part", "feature", "value", "serial"), in the words of the file.
    based_on : int
        The revision that the writer saw: ``own_reference(shop).kept.number``.

    Raises
    ------
    BadInput
        As ``laid_over`` has it; nothing is written then.
    """

    def put(_seen: Json, body: Body) -> Body:
        return _with_rows(body, rows)

    def same(seen: Json, newest: Json) -> bool:
        return rows_of(seen) == rows_of(newest)

    return _write(shop, put, same, based_on=based_on, by=by)


def write_rows_in(
    connection: Connection, own: OwnReference, rows: Rows, *, based_on: int, stamp: Stamp
) -> Saved | Conflict:
    """Write all own rows anew inside a block that is writing already.

    Parameters
    ----------
    own : OwnReference
        What the rows were made from: of it what is put away stays.

    Raises
    ------
    BadInput
        As ``laid_over`` has it.
    """
    body = _with_rows(own.kept.table, rows)
    laid_over(rows_of(body))
    change = Change(kind=REFERENCE, value=body, based_on=based_on)
    return write_change(connection, None, change, stamp=stamp)


def write_row(
    shop: Workshop, sort: str, at: int | None, row: Mapping[str, Any], *, based_on: int, by: str
) -> Saved | Conflict:
    """Write one own row; ``at`` is its place among those of its sort, None for one more."""

    def put(seen: Json, body: Body) -> Body:
        listed = list(rows_of(body)[sort])
        if at is None:
            # One that came behind those that the writer saw was sent twice.
            listed += [] if row in listed[len(rows_of(seen)[sort]) :] else [_plain(row)]
        elif at < len(listed):
            listed[at] = _plain(row)
        return {**body, sort: listed}

    return _write(shop, put, _same_up_to(sort, at), based_on=based_on, by=by)


def put_row_away(shop: Workshop, sort: str, at: int, *, based_on: int, by: str) -> Saved | Conflict:
    """Put an own row away; a packaged row of its name serves again.

    Raises
    ------
    BadInput
        While another row names it.
    """

    def put(_seen: Json, body: Body) -> Body:
        listed = rows_of(body)[sort]
        gone = [{"sort": sort, "row": row} for row in listed[at : at + 1]]
        return {**body, sort: listed[:at] + listed[at + 1 :], AWAY: [*away_of(body), *gone]}

    return _write(shop, put, _same_up_to(sort, at), based_on=based_on, by=by)


def take_row_out(shop: Workshop, at: int, *, based_on: int, by: str) -> Saved | Conflict:
    """Take an own row out again that was put away; ``at`` is its place among those."""

    def put(_seen: Json, body: Body) -> Body:
        away = away_of(body)
        back = {sort: list(rows) for sort, rows in rows_of(body).items()}
        for one in away[at : at + 1]:
            back[one["sort"]].append(one["row"])
        return {**body, **back, AWAY: away[:at] + away[at + 1 :]}

    def same(seen: Json, newest: Json) -> bool:
        return away_of(seen)[: at + 1] == away_of(newest)[: at + 1]

    return _write(shop, put, same, based_on=based_on, by=by)


def known_sort(sort: str) -> str:
    """Return a sort of rows that there is.

    Raises
    ------
    BadInput
        For any other word.
    """
    if sort not in SORTS:
        raise BadInput("no such sort of row", where="sort", given=sort, wanted=", ".join(SORTS))
    return sort


def _write(
    shop: Workshop, put: Callable[[Json, Body], Body], same: Callable[[Json, Json], bool], *,
    based_on: int, by: str,
) -> Saved | Conflict:  # fmt: skip
    def checked(seen: Json, base: Json) -> Json:
        body = put(seen, base if isinstance(base, dict) else {})
        laid_over(rows_of(body))
        return body

    change = ThingChange(kind=REFERENCE, drum="", based_on=based_on, same=same, put=checked)
    return write_thing(shop, None, change, by=by)


def _with_rows(body: Body, rows: Rows) -> Body:
    return {**body, **{sort: [_plain(row) for row in rows.get(sort, ())] for sort in SORTS}}


def _same_up_to(sort: str, at: int | None) -> Callable[[Json, Json], bool]:
    """Rows up to one are alike: only then it is still the same one at that place."""

    def same(seen: Json, newest: Json) -> bool:
        if at is None:
            return True
        return rows_of(seen)[sort][: at + 1] == rows_of(newest)[sort][: at + 1]

    return same


def _plain(row: Mapping[str, Any]) -> dict[str, Any]:
    """Return a row as JSON keeps it."""
    return {word: list(value) if isinstance(value, tuple) else value for word, value in row.items()}

"""Rows of the workshop's dated features: what a sheet would change among them, and taking them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Final

from counterhoop.bench.evidence.own_reference import laid_over, own_reference
from counterhoop.bench.evidence.write_reference import write_rows_in
from counterhoop.bench.rows.taken import Taken, record_taken
from counterhoop.bench.rows.try_rows import Tried, lines_to_take
from counterhoop.bench.rows.trying import Line, Trying
from counterhoop.bench.rows.waiting import Waiting
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.parts.rows.dry_run import Changed, New
from counterhoop.parts.rows.layout import Layout, Values
from counterhoop.parts.rows.reference_layout import serials_layout, values_layout
from counterhoop.store.body import Json
from counterhoop.store.save import Conflict

ROW: Final = "r"
"""The one sort of line: a row as it will stand."""
LAYOUTS: Final = {"value": values_layout, "serial": serials_layout}
Row = dict[str, Any]


def reference_values(shop: Workshop, sort: str) -> list[Values]:
    """Return the workshop's own rows of a sort, by the names of the columns."""
    return [_values(row) for row in own_reference(shop).rows[sort]]


def reference_trying(shop: Workshop, sort: str) -> Trying:
    """Return what rows of a sort ("value" or "serial") are held against: the workshop's own."""
    return _ReferenceTrying(shop, sort).trying


class _ReferenceTrying:
    """Lays each row over the others, and in the end all of them at once."""

    def __init__(self, shop: Workshop, sort: str) -> None:
        own = own_reference(shop)
        self._sort, self._layout = sort, LAYOUTS[sort]()
        self._number = own.kept.number
        self._others = {name: rows for name, rows in own.rows.items() if name != sort}
        self._rows = {self._layout.key_of(_values(row)): dict(row) for row in own.rows[sort]}
        self._after = dict(self._rows)

    @property
    def trying(self) -> Trying:
        return Trying(
            kept_of=self._kept_of, check=self._check, lines=self._lines, named=self._named,
            whole=self._whole,
            mark=self._number,
        )  # fmt: skip

    def _kept_of(self, keys: Sequence[str]) -> dict[str, Values]:
        return {key: _values(self._rows[key]) for key in keys if key in self._rows}

    def _check(self, values: Values, before: Values | None) -> Iterator[tuple[str, BadInput]]:
        row = _row({**(before or {}), **values})
        # Whom it follows may stand further down: that is looked at when all rows are known.
        if row.pop("follows", "") and "from" in row:
            yield "from", BadInput("it follows another, and begins when that ends", step="Empty it")
            return
        try:
            laid_over({**self._others, self._sort: [row]}, name="row")
        except BadInput as fault:
            yield _field_in(fault, self._layout), fault

    def _lines(self, trial: New | Changed) -> tuple[Line, ...]:
        said = trial.values if isinstance(trial, New) else trial.becomes
        key = self._layout.key_of(trial.values) if isinstance(trial, New) else trial.key
        row = {**self._rows.get(key, {}), **_row(said)}
        self._after[key] = row
        about: Json = {"row": trial.row, "key": key, "based_on": self._number, "says": row}
        return (Line(sort=ROW, about=about),)

    def _named(self, changed: Changed) -> str:
        return " ".join(str(self._rows[changed.key][name]) for name in self._layout.key)

    def _whole(self) -> None:
        laid_over({**self._others, self._sort: list(self._after.values())}, name="these rows")


def take_reference(shop: Workshop, one: Waiting, tried: Tried, *, sort: str, by: str) -> Taken:
    """Write the rows of a file among the workshop's own; one that is there is written over.

    Raises
    ------
    BadInput
        When they no longer go together with the others.
    CannotDo
        When the dated features were written since these rows were tried.
    """
    stamp = shop.stamp(by)
    taken = Taken(
        id=one.id, sort=one.sort, file=one.name, new=tried.new, changed=tried.changed,
        left=tried.left, refused=tried.refused, at=stamp.when.isoformat(timespec="seconds"), by=by,
    )  # fmt: skip
    layout, own = LAYOUTS[sort](), own_reference(shop)
    rows = {layout.key_of(_values(row)): row for row in own.rows[sort]}
    based_on = own.kept.number
    for line, _ in lines_to_take(one, ROW):
        based_on = int(line["based_on"])
        rows[line["key"]] = line["says"]
    with shop.store.writing() as connection:
        if not record_taken(connection, taken, stamp=stamp):
            return taken
        done = write_rows_in(
            connection, own, {**own.rows, sort: list(rows.values())}, based_on=based_on,
            stamp=stamp,
        )  # fmt: skip
        if isinstance(done, Conflict):
            raise CannotDo(
                "The dated features were written on since these rows were tried, by "
                f"{done.theirs.bench}. Nothing of them was taken. Try them again."
            )
    return taken


def _values(row: Mapping[str, Any]) -> Values:
    """Return a row by the names of the columns; what has no column is left out."""
    return {
        name: tuple(value) if isinstance(value, list) else value
        for name, value in row.items()
        if value not in ("", [], None)
    }


def _row(values: Values) -> Row:
    """Return a row in the words of the file, whole years without a point."""
    row: Row = {}
    for name, value in values.items():
        if isinstance(value, tuple):
            value = list(value)
        elif isinstance(value, float) and value.is_integer():
            value = int(value)
        row[name] = value
    return row


def _field_in(fault: BadInput, layout: Layout) -> str:
    """Return the column that a complaint about a row is about, its last key where it is none."""
    of_another = re.fullmatch(r"no such (\w+) here", fault.what)
    name = of_another[1] if of_another else fault.where.rpartition(".")[2]
    names = [each.name for each in layout.fields]
    return next((each for each in (name, f"{name}s") if each in names), layout.key[-1])

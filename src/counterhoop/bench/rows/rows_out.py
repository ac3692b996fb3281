"""Rows handed out as a sheet, CSV or XLSX, that comes in again as it went."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Final, Literal

from counterhoop.bench.evidence.rows import reference_values
from counterhoop.bench.long_work.results import Paper
from counterhoop.bench.rows.row_sorts import row_sort
from counterhoop.bench.shelf.cards import find_pieces
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.parts.dimension import Dimension
from counterhoop.parts.rows.layout import Values
from counterhoop.parts.rows.row import MOST_ROWS
from counterhoop.parts.rows.shelf_layout import names_in_use, shelf_layout, values_of
from counterhoop.parts.rows.write_sheet import csv_bytes, sheet_rows
from counterhoop.parts.rows.xlsx_bytes import xlsx_bytes
from counterhoop.store.shelf.by_number import dimensions_in_use
from counterhoop.store.shelf.look_up import Kept, all_pieces
from counterhoop.store.shelf.newest import how_many_pieces

FORMS: Final = {
    "csv": "text/csv; charset=utf-8",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}
MOST_FOUND: Final = 20_000
_TOLD_EVERY = 500
_PLAIN: Final = tuple(
    each.name for each in shelf_layout().fields if each.name not in {one.value for one in Dimension}
)
"""Columns that are always there."""
_NAMES = {"shelf": "shelf", "forms": "dated features", "serials": "dated serial numbers"}
_REFERENCE = {"forms": "value", "serials": "serial"}


def rows_out(
    shop: Workshop, sort: str, *, form: str, find: str = "", units: Literal["mm", "in"] = "mm",
    progress: Callable[[float], None] = lambda _share: None,
) -> Paper:  # fmt: skip
    """Return rows as a file.

    Parameters
    ----------
    sort : str
        As ``row_sort`` knows it.
    form : str
        "csv" or "xlsx".
    find : str
        Of the shelf: only what this search finds.
    progress : callable
        Told the share that is done.

    Raises
    ------
    BadInput
        For another form, or a search that cannot be answered.
    """
    layout = row_sort(sort).layout()
    if form not in FORMS:
        raise BadInput("no such form of a sheet", where="form", given=form, wanted="csv or xlsx")
    with _going_out(shop, sort, find=find, units=units) as out:
        told = _counted(out, progress=progress)
        cells = sheet_rows(told, layout, fields=out.fields)
        name = _NAMES[sort]
        content = csv_bytes(cells) if form == "csv" else xlsx_bytes(cells, sheet=name)
    return Paper(name=f"{name}.{form}", media_type=FORMS[form], content=content)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Out:
    """Rows, how many they are, and the columns in which something may stand; empty for all."""

    rows: Iterable[Values]
    many: int
    fields: tuple[str, ...] = ()


@contextmanager
def _going_out(
    shop: Workshop, sort: str, *, find: str, units: Literal["mm", "in"]
) -> Iterator[_Out]:
    if sort in _REFERENCE:
        rows = reference_values(shop, _REFERENCE[sort])
        yield _Out(rows=rows, many=len(rows))
    elif find.strip():
        found = [
            _said(one.kept) for one in find_pieces(shop, find, units=units, limit=MOST_FOUND).found
        ]
        yield _Out(rows=found, many=len(found), fields=names_in_use(found) or _PLAIN)
    else:
        with shop.store.reading() as connection:
            many = how_many_pieces(connection)
            if many > MOST_ROWS:
                raise BadInput(
                    f"{many} pieces are more than one sheet takes", wanted=f"at most {MOST_ROWS}",
                    step="Search for a part of them, a kind or a bin, and hand that out",
                )  # fmt: skip
            taken = dimensions_in_use(connection)
            rows_now = (_said(one) for one in all_pieces(connection))
            fields = (*_PLAIN, *(one.value for one in Dimension if one.value in taken))
            yield _Out(rows=rows_now, many=many, fields=fields)


def _counted(out: _Out, *, progress: Callable[[float], None]) -> Iterator[Values]:
    for number, values in enumerate(out.rows):
        if number % _TOLD_EVERY == 0:
            progress(number / max(1, out.many))
        yield values


def _said(kept: Kept) -> Values:
    return values_of(kept.piece, on_shelf=kept.on_shelf)

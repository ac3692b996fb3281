"""What a sheet would change, row by row, before anything is kept."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from collections.abc import Mapping as AnyMapping
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import islice

from counterhoop.errors import BadInput
from counterhoop.parts.rows.layout import Layout, Values
from counterhoop.parts.rows.mapping import Column, Mapping
from counterhoop.parts.rows.open_sheet import Sheet
from counterhoop.parts.rows.row import MOST_REFUSED, Progress, Refused, Row, Stop, place

Check = Callable[[Values, Values | None], Iterable[tuple[str, BadInput]]]
"""From what a row says and what is kept of it: fields that are refused, and why."""
KeptOf = Callable[[Sequence[str]], AnyMapping[str, Values]]
"""From the keys of some rows to what is kept of those that are kept."""
ROWS_AT_ONCE = 500
"""Looked up together, so that a store is asked once for all of them."""
_REMEMBERED = 1 << 14
"""Texts of each column: a shelf says the same few thousand sizes, prices and days."""

_Read = Callable[[str], object]


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One field that would say something else."""

    field: str
    was: object
    becomes: object


@dataclass(frozen=True, slots=True, kw_only=True)
class New:
    """A row of something that is not kept yet."""

    row: int
    values: Values


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """A row of something that is kept and would change; ``key`` names it."""

    row: int
    key: str
    changes: tuple[Change, ...]

    @property
    def becomes(self) -> Values:
        """What is to be laid over what it says now."""
        return {each.field: each.becomes for each in self.changes}


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """A row that says what is kept already."""

    row: int


@dataclass(frozen=True, slots=True, kw_only=True)
class RefusedRow:
    """A row that is refused as a whole, with a sentence for each of its cells that cannot be."""

    row: int
    cells: tuple[Refused, ...]


Trial = New | Changed | Left | RefusedRow


@dataclass(slots=True, kw_only=True)
class DryRun:
    """What would happen to each row.

    Attributes
    ----------
    new, changed : list
        What would be added and changed.
    left : int
        Rows that say what is kept already.
    refused : list of Refused
        A sentence for each cell that cannot be taken, the first thousand of them.
    refused_cells, refused_rows : int
        How many there are of either.
    says : list of str
        What else is worth knowing.
    """

    new: list[New] = field(default_factory=list)
    changed: list[Changed] = field(default_factory=list)
    left: int = 0
    refused: list[Refused] = field(default_factory=list)
    refused_cells: int = 0
    refused_rows: int = 0
    says: list[str] = field(default_factory=list)

    @property
    def line(self) -> str:
        """The whole in one sentence."""
        return (
            f"{len(self.new)} new, {len(self.changed)} changed, {self.left} left as they are, "
            f"{self.refused_rows} refused."
        )


def dry_run(
    sheet: Sheet,
    mapping: Mapping,
    layout: Layout,
    *,
    kept: Callable[[str], Values | None],
    check: Check | None = None,
    on_progress: Progress | None = None,
    stop: Stop | None = None,
) -> DryRun:
    """Read every row and hold it against what is kept.

    An empty cell leaves what is kept as it is. A row with one refused cell is refused as a whole.

    Parameters
    ----------
    sheet : Sheet
        The file.
    mapping : Mapping
        What its columns hold.
    layout : Layout
        What its rows are.
    kept : callable
        From a row's key (``layout.key_of``) to what is kept of it, or None.
    check : callable, optional
        What a row must hold to beyond its single cells.
    on_progress, stop : callable, optional
        Told the share that was read; asked whether to give up.

    Raises
    ------
    BadInput
        The file cannot be read on, or no column names its rows.
    CannotDo
        ``stop`` said so.
    """
    run = DryRun(says=[*sheet.says, *mapping.says])

    def kept_of(keys: Sequence[str]) -> dict[str, Values]:
        return {key: values for key in keys if (values := kept(key)) is not None}

    for trial in trials(
        sheet, mapping, layout, kept_of=kept_of, check=check, on_progress=on_progress, stop=stop
    ):
        match trial:
            case New():
                run.new.append(trial)
            case Changed():
                run.changed.append(trial)
            case Left():
                run.left += 1
            case RefusedRow():
                run.refused_rows += 1
                run.refused_cells += len(trial.cells)
                run.refused += trial.cells[: MOST_REFUSED - len(run.refused)]
    if run.refused_cells > len(run.refused):
        run.says.append(
            f"{run.refused_cells} cells are refused; the first {len(run.refused)} are listed."
        )
    return run


def trials(
    sheet: Sheet,
    mapping: Mapping,
    layout: Layout,
    *,
    kept_of: KeptOf,
    check: Check | None = None,
    on_progress: Progress | None = None,
    stop: Stop | None = None,
) -> Iterator[Trial]:
    """Yield what would happen to each row; a few are held at a time.

    Parameters
    ----------
    kept_of : callable
        From keys of rows (``layout.key_of``) to what is kept of them.

    Raises
    ------
    BadInput, CannotDo
        As ``dry_run`` does, which has the other parameters too.
    """
    for name in mapping.missing:
        if name in layout.key:
            raise BadInput(
                f'no column is the "{name}", without which no {layout.name} is told from another',
                where=place(sheet.header_row),
                step="Say which column it is.",
            )
    seen: dict[str, int] = {}
    columns = [(each, _reader(each)) for each in mapping.columns]
    width = 1 + max((*(each.at for each in mapping.columns), *mapping.left_out), default=-1)
    coming = sheet.rows(on_progress=on_progress, stop=stop)
    while some := [*islice(coming, ROWS_AT_ONCE)]:
        read = []
        for row in some:
            faults = _Faults(row, mapping)
            values = _values(row, columns, width=width, faults=faults)
            read.append((values, layout.key_of(values), faults))
        kept = kept_of([key for _, key, _ in read])
        for values, key, faults in read:
            yield _trial(values, key, faults, layout, before=kept.get(key), check=check, seen=seen)


def _reader(column: Column) -> _Read:
    """Return what reads the cells of a column; the same text is read once."""
    read, hint = column.field.read, column.hint
    return lru_cache(maxsize=_REMEMBERED)(lambda text: read(text, hint))


def _trial(
    values: Values, key: str, faults: _Faults, layout: Layout, *, before: Values | None,
    check: Check | None, seen: dict[str, int],
) -> Trial:  # fmt: skip
    row = faults.row.number
    if all(name in values for name in layout.key):
        if key in seen:
            fault = BadInput(f"the same {layout.name} as in row {seen[key]}")
            faults.add(layout.key[-1], fault)
        seen.setdefault(key, row)
    _hold_to_need(values, layout, known=before is not None, faults=faults)
    if check is not None and not faults.found:
        for name, fault in check(values, before):
            faults.add(name, fault)
    if faults.found:
        return RefusedRow(row=row, cells=tuple(faults.found))
    if before is None:
        return New(row=row, values=values)
    if changes := _changes(before, values, layout):
        return Changed(row=row, key=key, changes=changes)
    return Left(row=row)


class _Faults:
    """What is wrong with one row, with the places of its cells."""

    def __init__(self, row: Row, mapping: Mapping) -> None:
        self.row, self.mapping = row, mapping
        self.found: list[Refused] = []

    def add(self, name: str, fault: BadInput) -> None:
        at = next((each for each in self.mapping.columns if each.field.name == name), None)
        self.put(-1 if at is None else at.at, "" if at is None else at.header, fault)

    def put(self, column: int, header: str, fault: BadInput) -> None:
        where = place(self.row.number, column if column >= 0 else None, header)
        said = BadInput(
            fault.what, where=where, given=fault.given, wanted=fault.wanted, step=fault.step
        )
        self.found.append(Refused(row=self.row.number, column=column, says=f"{said}"))


def _values(
    row: Row, columns: Sequence[tuple[Column, _Read]], *, width: int, faults: _Faults
) -> dict[str, object]:
    values: dict[str, object] = {}
    for column, read in columns:
        text = row.cells[column.at] if column.at < len(row.cells) else ""
        if column.at in row.faults:
            why = BadInput(
                row.faults[column.at],
                given=text or None,
                step="Write what it should say in its place.",
            )
            faults.put(column.at, column.header, why)
        elif column.at in row.days and not column.field.is_day:
            why = BadInput(
                "the spreadsheet has made a day of what was typed here",
                given=text,
                wanted="the cell formatted as text and typed again",
            )
            faults.put(column.at, column.header, why)
        elif text:
            try:
                values[column.field.name] = read(text)
            except BadInput as fault:
                faults.put(column.at, column.header, fault)
    for at, text in enumerate(row.cells[width:], width):
        if text:
            why = BadInput(
                "no header stands above this cell",
                given=text,
                wanted="a header for each column",
                step="A comma or quote too many in this row moves its cells to the right.",
            )
            faults.put(at, "", why)
            break
    return values


def _hold_to_need(values: Values, layout: Layout, *, known: bool, faults: _Faults) -> None:
    missing = [
        name
        for name in (layout.key if known else (*layout.key, *layout.need))
        if name not in values
    ]
    refused = {each.column for each in faults.found}
    for name in missing:
        at = next((each.at for each in faults.mapping.columns if each.field.name == name), -1)
        if at < 0 or at not in refused:
            faults.add(name, BadInput(f'this is missing: the "{name}" of a {layout.name}'))


def _changes(before: Values, now: Values, layout: Layout) -> tuple[Change, ...]:
    return tuple(
        Change(field=each.name, was=before.get(each.name), becomes=now[each.name])
        for each in layout.fields
        if each.name in now
        and not (each.name in before and each.same(before[each.name], now[each.name]))
    )

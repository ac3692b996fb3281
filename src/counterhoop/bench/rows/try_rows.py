"""A dry run of a file that waits: what it would change lies beside it, row by row."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import asdict, dataclass
from typing import Any

from counterhoop.bench.rows.opened import mapped, sheet_of
from counterhoop.bench.rows.trying import Trying, called, changes_said
from counterhoop.bench.rows.waiting import Waiting
from counterhoop.parts.rows.csv_cell import Cell, csv_cell
from counterhoop.parts.rows.dry_run import Changed, Left, New, RefusedRow, Trial, trials
from counterhoop.parts.rows.layout import Layout
from counterhoop.store.faults import plain_faults
from counterhoop.store.to_disk import move_into_place

MOST_TOLD = 50
_HEAD = ("row", "what happens", "which", "column", "is now", "becomes", "why not")


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One row in words."""

    row: int
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """What a dry run came to.

    Attributes
    ----------
    new, changed, left, refused : int
        Rows of each.
    lines : int
        How many lines taking them writes.
    mark : int
        Of what the rows were held against.
    says : tuple of str
        What else is worth knowing.
    first_new, first_changed, first_refused : tuple of Told
        The first fifty of each; a refused row has a sentence for each of its cells.
    """

    new: int
    changed: int
    left: int
    refused: int
    lines: int
    mark: int
    says: tuple[str, ...]
    first_new: tuple[Told, ...]
    first_changed: tuple[Told, ...]
    first_refused: tuple[Told, ...]

    @property
    def line(self) -> str:
        """The whole in one sentence."""
        return (
            f"{self.new} new, {self.changed} changed, {self.left} left as they are, "
            f"{self.refused} refused."
        )

    @property
    def changes_nothing(self) -> bool:
        """Whether there is nothing to take."""
        return not self.new and not self.changed


def try_rows(
    one: Waiting, layout: Layout, trying: Trying, *, progress: Callable[[float], None]
) -> Tried:
    """Hold every row of a file against what is kept, and write down what would change.

    Parameters
    ----------
    progress : callable
        Told the share that is done; may raise to give up.

    Raises
    ------
    BadInput
        The file cannot be read on, or its rows do not go together.
    CannotDo
        The disk is full.
    """
    with plain_faults():
        sheet = sheet_of(one.file.read_bytes(), name=one.name, reading=one.reading)
        mapping = mapped(
            sheet.header, layout, header_row=sheet.header_row, reading=one.reading,
            chosen=one.chosen, units=one.units,
        )  # fmt: skip
        found = trials(
            sheet, mapping, layout, kept_of=trying.kept_of, check=trying.check,
            on_progress=progress,
        )  # fmt: skip
        with _Written(one, layout, trying) as written:
            for trial in found:
                written.take(trial)
        trying.whole()
        tried = written.told(says=(*sheet.says, *mapping.says))
        part = one.told_file.with_suffix(".part")
        part.write_text(json.dumps(asdict(tried)), "utf-8")
        move_into_place(part, to=one.told_file)
    return tried


def last_try(one: Waiting) -> Tried | None:
    """Return what the last dry run of a file came to; None before it is done."""
    try:
        told: dict[str, Any] = json.loads(one.told_file.read_text("utf-8"))
    except FileNotFoundError:
        return None
    for name in ("first_new", "first_changed", "first_refused"):
        told[name] = tuple(Told(**each) for each in told[name])
    return Tried(**{**told, "says": tuple(told["says"])})


def lines_to_take(one: Waiting, sort: str) -> Iterator[tuple[Any, str]]:
    """Yield each line of one sort that taking a file writes: what is known of it, and its body."""
    with one.rows_file.open(encoding="utf-8") as rows:
        for line in rows:
            if line.startswith(sort):
                about, _, body = line[1:].rstrip("\n").partition("\t")
                yield json.loads(about), body


class _Written:
    """What would change, written down as it is found, so that a long file takes no room."""

    def __init__(self, one: Waiting, layout: Layout, trying: Trying) -> None:
        self._one, self._layout, self._trying = one, layout, trying
        self._open = ExitStack()
        self._count = {New: 0, Changed: 0, Left: 0, RefusedRow: 0}
        self._first: dict[type, list[Told]] = {New: [], Changed: [], RefusedRow: []}
        self._lines = 0

    def __enter__(self) -> _Written:
        rows = self._one.rows_file.open("w", encoding="utf-8")
        self._rows = self._open.enter_context(rows)
        listed = self._one.list_file.open("w", encoding="utf-8-sig", newline="")
        self._list = csv.writer(
            self._open.enter_context(listed), quoting=csv.QUOTE_ALL, lineterminator="\r\n"
        )
        self._list.writerow(_HEAD)
        return self

    def __exit__(self, *_: object) -> None:
        self._open.close()

    def take(self, trial: Trial) -> None:
        """Write down what one row would change."""
        self._count[type(trial)] += 1
        match trial:
            case New():
                # In whole only for those that are shown: writing readings out takes its time.
                if len(self._first[New]) < MOST_TOLD:
                    self._tell(New, trial.row, called(trial.values, self._layout))
                which = " ".join(str(trial.values[name]) for name in self._layout.key)
                self._listed(trial.row, "new", which)
            case Changed():
                self._changed(trial)
            case RefusedRow():
                for cell in trial.cells:
                    self._tell(RefusedRow, cell.row, cell.says)
                    self._listed(cell.row, "refused", "", "", "", "", cell.says)
        if isinstance(trial, New | Changed):
            for line in self._trying.lines(trial):
                self._lines += 1
                self._rows.write(f"{line.sort}{json.dumps(line.about)}\t{line.body}\n")

    def _changed(self, trial: Changed) -> None:
        changes = changes_said(trial, self._layout)
        which = self._trying.named(trial)
        says = "; ".join(f"{name}: {was or 'nothing'} → {now}" for name, was, now in changes)
        self._tell(Changed, trial.row, f"{which}: {says}")
        for name, was, now in changes:
            self._listed(trial.row, "changed", which, name, was, now)

    def _tell(self, sort: type, row: int, says: str) -> None:
        first = self._first[sort]
        # The last row too with all of its sentences.
        if len(first) < MOST_TOLD or first[-1].row == row:
            first.append(Told(row=row, says=says))

    def _listed(self, *cells: Cell) -> None:
        self._list.writerow([csv_cell(cell) for cell in cells])

    def told(self, *, says: tuple[str, ...]) -> Tried:
        """Return what all of it came to."""
        return Tried(
            new=self._count[New], changed=self._count[Changed], left=self._count[Left],
            refused=self._count[RefusedRow], lines=self._lines, mark=self._trying.mark, says=says,
            first_new=tuple(self._first[New]), first_changed=tuple(self._first[Changed]),
            first_refused=tuple(self._first[RefusedRow]),
        )  # fmt: skip

"""Rows of the shelf: what a sheet would change on it, taking them, and the shelf as a sheet."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import islice
from typing import Any

from counterhoop.bench.folders.folder import drawer
from counterhoop.bench.folders.own_book import own_book
from counterhoop.bench.rows.taken import Taken, record_taken
from counterhoop.bench.rows.try_rows import Tried, lines_to_take
from counterhoop.bench.rows.trying import Line, Trying
from counterhoop.bench.rows.waiting import Waiting
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.parts.movement import Movement
from counterhoop.parts.rows.dry_run import Changed, New
from counterhoop.parts.rows.layout import Values
from counterhoop.parts.rows.shelf_check import shelf_check
from counterhoop.parts.rows.shelf_layout import (
    COUNT,
    counted,
    piece_after,
    piece_of,
    shelf_layout,
    values_of,
)
from counterhoop.store.body import Json, new_id
from counterhoop.store.shelf.body_of_piece import read_piece, read_written, write_piece
from counterhoop.store.shelf.by_number import numbers_on_bags, pieces_by_number
from counterhoop.store.shelf.look_up import Kept
from counterhoop.store.shelf.mark import shelf_mark, take_the_shelf
from counterhoop.store.shelf.put_rows import put_rows
from counterhoop.store.stamp import Stamp
from counterhoop.store.store import Connection

NEW, WRITTEN, COUNTED = "nwc"
"""Sorts of lines: a new piece, a piece written anew, a count."""
MOST_MOVED = 8
_AT_ONCE = 500


def shelf_trying(shop: Workshop, connection: Connection, *, where: str) -> Trying:
    """Return what the rows of a shelf are held against: the shelf as it is now, and the book.

    The numbers of all bags are held in memory, the pieces only a few at a time.

    Parameters
    ----------
    connection : Connection
        From ``Store.reading``; used until the last row was tried.
    where : str
        What the file is called, for the record of a count.
    """
    fittings = {one.name for one in own_book(drawer(shop)).book}
    return _ShelfTrying(connection, fittings=fittings, where=where).trying


class _ShelfTrying:
    """Looks rows up on the shelf; knows the pieces of the rows that are tried just now."""

    def __init__(self, connection: Connection, *, fittings: set[str], where: str) -> None:
        self._connection, self._where = connection, where
        self._layout, self._basic = shelf_layout(), shelf_check(fittings)
        self._numbers: dict[str, str] = {}
        self._alike: dict[str, str] = {}
        self._away: set[str] = set()
        for number, away in numbers_on_bags(connection):
            key = self._layout.key_of({"number": number})
            if self._numbers.setdefault(key, number) != number:
                self._alike[key] = number
            if away:
                self._away.add(number)
        self._kept: dict[str, Kept] = {}
        self._body, self._mark = "", mark_of(connection)

    @property
    def trying(self) -> Trying:
        return Trying(
            kept_of=self._kept_of, check=self._check, lines=self._lines,
            named=lambda changed: self._numbers[changed.key], mark=self._mark,
        )  # fmt: skip

    def _kept_of(self, keys: Sequence[str]) -> dict[str, Values]:
        numbers = {self._numbers[key]: key for key in keys if key in self._numbers}
        found = pieces_by_number(self._connection, list(numbers))
        self._kept = {numbers[number]: one for number, one in found.items()}
        return {key: values_of(one.piece, on_shelf=one.on_shelf) for key, one in self._kept.items()}

    def _check(self, values: Values, before: Values | None) -> Iterator[tuple[str, BadInput]]:
        key = self._layout.key_of(values)
        number = self._numbers.get(key, "")
        if key in self._alike:
            yield "number", BadInput(
                f'two pieces on the shelf are called so: "{number}" and "{self._alike[key]}"',
                step="Give one of them another number there",
            )  # fmt: skip
            return
        if number in self._away:
            yield "number", BadInput(
                "this number is on a piece that was put away", given=number,
                step="Bring that piece back first, or use another number",
            )  # fmt: skip
            return
        kept = self._kept.get(key)
        now = values.get(COUNT)
        if kept is not None and isinstance(now, int) and now < kept.on_shelf - kept.free:
            yield COUNT, BadInput(
                f"{kept.on_shelf - kept.free} of them are set aside for jobs", given=now,
                step="Put back what cannot be kept first",
            )  # fmt: skip
        yield from self._basic(values, before)
        try:
            self._body = write_piece(piece_of(values, id="new"))
        except BadInput as fault:
            yield "number", BadInput(fault.what, given=fault.given, wanted=fault.wanted)

    def _lines(self, trial: New | Changed) -> tuple[Line, ...]:
        if isinstance(trial, New):
            about: Json = {"row": trial.row, "number": str(trial.values["number"])}
            return (Line(sort=NEW, about=about, body=self._body),)
        kept = self._kept[trial.key]
        known: dict[str, Json] = {
            "row": trial.row, "id": kept.piece.id, "number": kept.piece.number,
        }  # fmt: skip
        lines: list[Line] = []
        if any(each.field != COUNT for each in trial.changes):
            body = write_piece(piece_after(kept.piece, trial))
            lines.append(Line(sort=WRITTEN, about={**known, "head": kept.head}, body=body))
        if (count := counted(trial, where=self._where)) is not None:
            now, corrects = count
            said: Json = {**known, "was": kept.on_shelf, "count": now, "corrects": corrects}
            lines.append(Line(sort=COUNTED, about=said))
        return tuple(lines)


def take_pieces(
    shop: Workshop, one: Waiting, tried: Tried, *, by: str, progress: Callable[[float], None]
) -> Taken:
    """Put the rows of a file on the shelf: all of them that were not refused, or none.

    Parameters
    ----------
    progress : callable
        Told the share that is done; when it raises, nothing is kept.

    Raises
    ------
    CannotDo
        When something that these rows say was changed on the shelf since they were tried.
    """
    stamp = shop.stamp(by)
    taken = Taken(
        id=one.id, sort=one.sort, file=one.name, new=tried.new, changed=tried.changed,
        left=tried.left, refused=tried.refused, at=stamp.when.isoformat(timespec="seconds"), by=by,
    )  # fmt: skip
    lines = max(1, tried.lines)
    with shop.store.writing() as connection:
        if not record_taken(connection, taken, stamp=stamp):
            return taken
        take_the_shelf(connection)
        # Nobody else can write there from here on, and this was the only turn since: then all is
        # as it was when the rows were tried.
        if mark_of(connection) != tried.mark + 1:
            _need_unmoved(connection, one, progress=progress)
        put_rows(
            connection,
            (read_written(body, piece_id=new_id()) for _, body in lines_to_take(one, NEW)),
            (
                (read_piece(body, piece_id=about["id"]), about["head"])
                for about, body in lines_to_take(one, WRITTEN)
            ),
            (_count(about, stamp=stamp) for about, _ in lines_to_take(one, COUNTED)),
            stamp=stamp,
            progress=lambda done: progress(done / lines),
        )
    return taken


def mark_of(connection: Connection) -> int:
    """Return how many turns were taken at writing on the shelf."""
    (turns,) = shelf_mark(connection)
    return int(turns)


def _count(about: dict[str, Any], *, stamp: Stamp) -> Movement:
    return Movement(
        piece_id=about["id"], kind="counted", count=about["count"], on=stamp.when,
        bench=stamp.bench, corrects=about["corrects"],
    )  # fmt: skip


def _need_unmoved(
    connection: Connection, one: Waiting, *, progress: Callable[[float], None]
) -> None:
    """See that what the rows rest on is as it was when they were tried."""
    moved: list[str] = []
    for sort in (NEW, WRITTEN, COUNTED):
        coming = lines_to_take(one, sort)
        while some := [*islice(coming, _AT_ONCE)]:
            progress(0.0)
            now = pieces_by_number(connection, [about["number"] for about, _ in some])
            for about, _ in some:
                if why := _moved(sort, about, now.get(about["number"])):
                    moved.append(f"row {about['row']}: {about['number']} {why}")
    if moved:
        more = f", and {len(moved) - MOST_MOVED} more" if len(moved) > MOST_MOVED else ""
        raise CannotDo(
            f"The shelf has changed since these rows were tried: {'; '.join(moved[:MOST_MOVED])}"
            f"{more}. Nothing was put on it. Try them again."
        )


def _moved(sort: str, line: dict[str, Any], now: Kept | None) -> str:
    if sort == NEW:
        return "is on the shelf by now" if now is not None else ""
    if now is None or now.piece.id != line["id"]:
        return "has another number by now"
    if sort == WRITTEN and now.head != line["head"]:
        return f"was written on by {now.bench}"
    if sort == COUNTED and now.on_shelf != line["was"]:
        return f"has {now.on_shelf} on the shelf by now"
    return ""

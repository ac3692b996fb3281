"""What is asked about a part in hand, as it stands in the address of the page and in its forms."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any
from urllib.parse import urlencode

from counterhoop.bench.shelf.piece_form import Line, line_of, read_line, typed_in, typed_of
from counterhoop.errors import BadInput
from counterhoop.parts.asked_numbers import tool_of
from counterhoop.parts.dimension import Dimension, Measured
from counterhoop.parts.of_thread import of_thread
from counterhoop.parts.piece import Piece
from counterhoop.parts.unknown.odds import Seen
from counterhoop.web.look.mine import Units

ADDRESS = "/shelf/unknown"
Pairs = list[tuple[str, str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartAsked:
    """What one says of a part.

    Attributes
    ----------
    lines : tuple of Line
        What was measured; one without a reading is about to be.
    kind, material, finish : str
        What the eye says.
    piece : str
        The key of the piece on the shelf that it is; empty for a part that lies on no shelf yet.
    write : int
        The line that is being changed; -1 for none.
    """

    lines: tuple[Line, ...] = ()
    kind: str = ""
    material: str = ""
    finish: str = ""
    piece: str = ""
    write: int = -1

    @property
    def seen(self) -> Seen:
        """What the eye says."""
        return Seen(kind=self.kind, material=self.material, finish=self.finish)

    @property
    def pairs(self) -> Pairs:
        """The fields of a form that would ask the same."""
        said = ("piece", "kind", "material", "finish")
        found = [(name, value) for name in said if (value := getattr(self, name))]
        for n, line in enumerate(self.lines):
            named = (("what", line.what), ("written", line.written), ("with", line.taken_with))
            found += [(f"measured.{n}.{name}", value) for name, value in named if value]
        return found + ([("write", f"{self.write}")] if self.write >= 0 else [])

    @property
    def address(self) -> str:
        """Where the page shows just this."""
        pairs = self.pairs
        return f"{ADDRESS}?{urlencode(pairs)}" if pairs else ADDRESS

    def only(self, places: Iterable[int]) -> PartAsked:
        """Return it with these lines only."""
        kept = set(places)
        lines = tuple(line for n, line in enumerate(self.lines) if n in kept)
        return replace(self, lines=lines, write=-1)

    def changing(self, n: int) -> PartAsked:
        """Return it with one line being written anew."""
        return replace(self, write=n)

    def with_line(self, what: Dimension) -> PartAsked:
        """Return it with one more line about to be measured, in place of any other such line."""
        taken = self.only(n for n, line in enumerate(self.lines) if line.written)
        return replace(taken, lines=(*taken.lines, Line(what=what.value)))


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadPart:
    """What was read of it.

    Attributes
    ----------
    taken : dict of int to Measured
        By the place of the line.
    faults : dict of int to BadInput
        Why a line cannot be read.
    """

    taken: dict[int, Measured]
    faults: dict[int, BadInput]


def part_in(given: Mapping[str, Any]) -> PartAsked:
    """Return what the address or a form says."""
    typed = typed_in(given)
    texts = {name: typed.texts.get(name, "") for name in ("kind", "material", "finish")}
    write, piece = given.get("write", ""), given.get("piece", "")
    at = int(write) if isinstance(write, str) and write.isdecimal() and len(write) < 4 else -1
    return PartAsked(
        lines=typed.lines, piece=piece if isinstance(piece, str) else "",
        write=at if at < len(typed.lines) else -1, **texts,
    )  # fmt: skip


def part_on_card(piece: Piece) -> PartAsked:
    """Return what a piece's card says; what its readings were taken with is known."""
    return PartAsked(
        lines=tuple(
            replace(line, taken_with=line.taken_with or _usual_tool(one.dimension))
            for line, one in zip(typed_of(piece).lines, piece.measured, strict=True)
        ),
        kind=piece.kind, material=piece.material,
        finish=piece.finish, piece=piece.id,
    )  # fmt: skip


def read_part(part: PartAsked, *, units: Units) -> ReadPart:
    """Read the lines that are written; the one that is being changed is left for later."""
    taken, faults = {}, {}
    for n, line in enumerate(part.lines):
        if not line.written or n == part.write:
            continue
        try:
            taken[n] = _read(line, units=units)
        except BadInput as fault:
            faults[n] = fault
    return ReadPart(taken=taken, faults=faults)


def written_out(part: PartAsked, *, units: Units) -> PartAsked:
    """Return it so that it says the same to whoever reads it later.

    Each reading gets the unit that it was typed in and, where that is not the usual one, the
    instrument; a thread's name stands for what it measures across, and its pitch beside it.
    """
    part = _threads_measured(part)
    lines = list(part.lines)
    for n, one in read_part(part, units=units).taken.items():
        if thread_in(lines[n]):
            continue
        typed, line = lines[n], line_of(one)
        with_it = line.taken_with or typed.taken_with
        if "(" in typed.written:
            with_it = with_it or _usual_tool(one.dimension)
        lines[n] = replace(line, taken_with=with_it)
    return replace(part, lines=tuple(lines))


def _read(line: Line, *, units: Units) -> Measured:
    """Read a line; where it does not say what a length was taken with, its figures tell."""
    if its := thread_in(line):
        return next(one for one in its if one.dimension == line.what)
    one = read_line(line, units=units)
    if line.taken_with or "(" in line.written or not (usual := _usual_tool(one.dimension)):
        return one
    tool = tool_of(one.written)
    return one if tool == usual else read_line(replace(line, taken_with=tool), units=units)


def _usual_tool(what: Dimension) -> str:
    """Return what a length is usually taken with; nothing for what is no length."""
    tool = what.about.instrument
    return tool if tool in ("caliper", "rule") else ""


def thread_in(line: Line) -> tuple[Measured, ...]:
    """Return what the thread measures that a line names: its pitch, then across."""
    threaded = line.what in (Dimension.PITCH, Dimension.MAJOR)
    return of_thread(line.written) if threaded else ()


def on_a_card(line: Line) -> Line:
    """Return a line as a card has it: sizes only."""
    its = [one for one in thread_in(line) if one.dimension == line.what]
    return line_of(its[0]) if its else line


def _threads_measured(part: PartAsked) -> PartAsked:
    """Return it with the name of a thread across, and its pitch beside it."""
    lines, more = list(part.lines), []
    for n, line in enumerate(part.lines):
        if n != part.write and (its := thread_in(line)):
            both = [Line(what=one.dimension.value, written=one.written) for one in its]
            (lines[n],) = (one for one in both if one.what == line.what)
            more += [one for one in both if one.what != line.what]
    said = {line.what for line in lines}
    return replace(part, lines=(*lines, *(line for line in more if line.what not in said)))

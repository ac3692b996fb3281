"""What is asked about a part in hand, as it stands in the address of the page and in its forms."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any
from urllib.parse import urlencode

from counterhoop.bench.shelf.piece_form import Line, read_line, typed_in, typed_of
from counterhoop.errors import BadInput
from counterhoop.parts.dimension import Dimension, Measured
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
    """Return what a piece's card says."""
    return PartAsked(
        lines=typed_of(piece).lines, kind=piece.kind, material=piece.material,
        finish=piece.finish, piece=piece.id,
    )  # fmt: skip


def read_part(part: PartAsked, *, units: Units) -> ReadPart:
    """Read the lines that are written; the one that is being changed is left for later."""
    taken, faults = {}, {}
    for n, line in enumerate(part.lines):
        if not line.written or n == part.write:
            continue
        try:
            taken[n] = read_line(line, units=units)
        except BadInput as fault:
            faults[n] = fault
    return ReadPart(taken=taken, faults=faults)

"""Pieces of work by their id, and what came of them as long as there is room."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from counterhoop.bench.long_work.answers import Answer, Done, Working
from counterhoop.bench.long_work.asked import Asked

WAITS = "waits its turn"


PIECE_BYTES = 1000
OBJECTS_PER_BYTE = 5
"""What a plan takes in memory beside its pickled bytes (measured on the demonstration: 4.5)."""


@dataclass(slots=True, eq=False)
class Piece:
    """One piece of work, from being asked for to its answer.

    Attributes
    ----------
    answer : Answer
        How far it is, or what came of it.
    stopping : bool
        A person stopped it while it was under way.
    packed : bytes
        The value pickled, where other work rests on it.
    weight : int
        What it takes in memory, about.
    listeners : list of callable
        Called whenever ``answer`` changed.
    """

    asked: Asked[Any]
    id: str
    answer: Answer[Any]
    weight: int
    stopping: bool = False
    packed: bytes = b""
    listeners: list[Callable[[], None]] = field(default_factory=list)

    @classmethod
    def waiting(cls, asked: Asked[Any]) -> Piece:
        """Return a piece that has not begun."""
        first = Working(id=asked.id, says=WAITS, share=0.0)
        return cls(asked, asked.id, first, weight=PIECE_BYTES + len(asked.source.tables_json))

    @property
    def ended(self) -> bool:
        """Whether there is an answer."""
        return not isinstance(self.answer, Working)

    def done(self, value: Any, *, packed: bytes) -> None:
        """Take what came of it."""
        self.weight += len(packed)
        if self.asked.bears:
            self.packed = packed
            self.weight += len(packed) * OBJECTS_PER_BYTE
        self.now(Done(id=self.id, value=value))

    def now(self, answer: Answer[Any]) -> None:
        """Take a new answer and tell whoever listens."""
        self.answer = answer
        for listener in self.listeners:
            listener()


class Kept:
    """Pieces by id; of those that ended, as many of the latest used as weigh no more than allowed.

    The one that was kept last stays in any case, so that whoever asked for it can fetch it.
    """

    def __init__(self, *, most_bytes: int) -> None:
        self._most = most_bytes
        self._pieces: dict[str, Piece] = {}

    @property
    def weight(self) -> int:
        """What all pieces that ended weigh."""
        return sum(piece.weight for piece in self._pieces.values() if piece.ended)

    def find(self, id_: str) -> Piece | None:
        """Return a piece, which is the latest used from now on."""
        piece = self._pieces.pop(id_, None)
        if piece is not None:
            self._pieces[id_] = piece
        return piece

    def known(self, asked: Asked[Any]) -> bytes | None:
        """Return the pickled outcome that work rests on, where it is kept."""
        found = self.find(asked.rests_on.id) if asked.rests_on else None
        return (found.packed or None) if found else None

    def put(self, piece: Piece) -> None:
        """Keep a piece, in place of an earlier one of its id."""
        self._pieces.pop(piece.id, None)
        self._pieces[piece.id] = piece
        self.make_room(piece)

    def make_room(self, but: Piece) -> None:
        """Let go what was used longest ago, except this one."""
        weight = self.weight
        for piece in [p for p in self._pieces.values() if p.ended and p is not but]:
            if weight <= self._most:
                return
            weight -= piece.weight
            del self._pieces[piece.id]

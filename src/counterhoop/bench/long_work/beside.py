"""Long work done beside the pages: a process for each line of work, what came of it kept here."""

from __future__ import annotations

import asyncio
import contextlib
import threading
from collections.abc import AsyncIterator, Iterator
from typing import Any, TypeVar, cast

from counterhoop.bench.long_work.answers import Answer, Failed, Working, failed
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.kept import Kept, Piece
from counterhoop.bench.long_work.line import Limits, Line
from counterhoop.bench.long_work.works import Works
from counterhoop.errors import CannotDo

T = TypeVar("T")
MOST_BYTES = 96_000_000
"""For everything that came of work: some forty plans of a kit, or all papers of ten kits."""
TASKS = "counterhoop.bench.long_work.tasks"
SOLVER = "ortools.sat.python.cp_model"
HEAVY = {
    "plans": (TASKS, "scipy.optimize", "scipy.special", "shapely", SOLVER),
    "wraps": (TASKS, "shapely", SOLVER),
    "papers": (TASKS, "shapely", "typst"),
    "sets": (TASKS, "shapely", "typst"),
    "parts": ("counterhoop.bench.long_work.parts_tasks", "shapely"),
    "schedule": ("counterhoop.bench.long_work.schedule_tasks", "scipy.special", SOLVER),
    "sounds": ("counterhoop.bench.long_work.sounds", "scipy.signal", "shapely"),
}
"""What the process of each line loads at its start; the pages load none of the large ones."""


class WorksBeside(Works):
    """Long work in processes beside the pages, one for each line of work.

    Parameters
    ----------
    limits : Limits
        When a process is let go.
    most_bytes : int
        For what is kept.
    """

    def __init__(self, *, limits: Limits | None = None, most_bytes: int = MOST_BYTES) -> None:
        self._changed = threading.Condition(threading.RLock())
        self._kept = Kept(most_bytes=most_bytes)
        self._limits = limits or Limits()
        self._lines: dict[str, Line] = {}
        self._closed = False

    def ask(self, asked: Asked[T]) -> Answer[T]:
        """Start a piece of work, or return how far it is."""
        with self._changed:
            found = self._kept.find(asked.id)
            if found is not None and not _begins_anew(found.answer):
                return cast(Answer[T], found.answer)
            return self._put(asked)

    def wait(self, id_: str, seconds: float) -> Answer[Any]:
        """Return how far work is, after it ended or the time is up."""
        with self._changed:
            piece = self._kept.find(id_)
            if piece is None:
                return failed(id_, "unknown")
            self._changed.wait_for(lambda: piece.ended, timeout=seconds)
            return piece.answer

    def stop(self, id_: str) -> Answer[Any]:
        """Stop work for good; returns what it came to, for it may have been quicker."""
        with self._changed:
            piece = self._kept.find(id_)
            if piece is None:
                return failed(id_, "unknown")
            self.line(piece.asked.line).stop(piece)
            return piece.answer

    def again(self, id_: str) -> Answer[Any]:
        """Start failed work once more."""
        with self._changed:
            piece = self._kept.find(id_)
            if piece is None:
                return failed(id_, "unknown")
            if isinstance(piece.answer, Failed) and piece.answer.why != "refused":
                return self._put(piece.asked)
            return piece.answer

    async def events(self, id_: str) -> AsyncIterator[tuple[str, float]]:
        """Yield what is being done and the share of the whole, until there is an answer."""
        with self._changed:
            piece = self._kept.find(id_)
        if piece is None:
            return
        changed = asyncio.Event()
        with self._listening(piece, changed):
            while isinstance(answer := piece.answer, Working):
                changed.clear()
                yield answer.says, answer.share
                await changed.wait()

    def warm(self) -> None:
        """Make ready to plan, so that the first to ask does not wait for it."""
        self.line("plans").warm()

    def close(self) -> None:
        """Stop everything and end all processes."""
        with self._changed:
            self._closed = True
            lines = tuple(self._lines.values())
        for line in lines:
            line.close()

    def line(self, name: str) -> Line:
        """Return the line of that name."""
        with self._changed:
            if name not in self._lines:
                self._lines[name] = Line(
                    name,
                    changed=self._changed,
                    heavy=HEAVY.get(name, ()),
                    limits=self._limits,
                    kept=self._kept,
                )
            return self._lines[name]

    def _put(self, asked: Asked[Any]) -> Answer[Any]:
        if self._closed:
            raise CannotDo("The workshop is closed.")
        piece = Piece.waiting(asked)
        self._kept.put(piece)
        self.line(asked.line).put(piece)
        return piece.answer

    @contextlib.contextmanager
    def _listening(self, piece: Piece, changed: asyncio.Event) -> Iterator[None]:
        loop = asyncio.get_running_loop()

        def tell() -> None:
            # A page that went away may have closed its loop.
            with contextlib.suppress(RuntimeError):
                loop.call_soon_threadsafe(changed.set)

        with self._changed:
            piece.listeners.append(tell)
        try:
            yield
        finally:
            with self._changed:
                piece.listeners.remove(tell)


def _begins_anew(answer: Answer[Any]) -> bool:
    return isinstance(answer, Failed) and answer.why in ("replaced", "unknown")

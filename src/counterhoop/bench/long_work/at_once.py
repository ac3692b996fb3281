"""Long work done at once, where it is asked for: for commands and tests."""

from __future__ import annotations

import threading
from collections.abc import AsyncIterator
from typing import Any, TypeVar, cast

from counterhoop.bench.long_work.answers import Answer, Done, Failed, failed
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.works import Works
from counterhoop.bench.plan_job import Progress
from counterhoop.errors import CounterhoopError

T = TypeVar("T")
MOST_KEPT = 100


class WorksAtOnce(Works):
    """Does each piece of work while it is asked for; the last hundred answers are kept.

    A mistake of the program is raised as it is and not turned into an answer.

    Parameters
    ----------
    progress : callable
        Called with a sentence and the share done, 0 to 1.
    """

    def __init__(self, *, progress: Progress = lambda _says, _share: None) -> None:
        self._progress = progress
        self._lock = threading.RLock()
        self._answers: dict[str, Answer[Any]] = {}

    def ask(self, asked: Asked[T]) -> Answer[T]:
        """Do a piece of work, or return what came of it."""
        with self._lock:
            found = self._answers.pop(asked.id, None) or self._done(asked)
            self._answers[asked.id] = found
            while len(self._answers) > MOST_KEPT:
                del self._answers[next(iter(self._answers))]
            return cast(Answer[T], found)

    def wait(self, id_: str, seconds: float) -> Answer[Any]:
        """Return what came of the work."""
        with self._lock:
            return self._answers.get(id_) or failed(id_, "unknown")

    def stop(self, id_: str) -> Answer[Any]:
        """Return what came of the work: it was quicker."""
        return self.state(id_)

    def again(self, id_: str) -> Answer[Any]:
        """Return what came of the work: it would come out the same."""
        return self.state(id_)

    async def events(self, id_: str) -> AsyncIterator[tuple[str, float]]:
        """Yield nothing: whatever was asked for has its answer."""
        nothing: tuple[tuple[str, float], ...] = ()
        for event in nothing:
            yield event

    def _done(self, asked: Asked[Any]) -> Answer[Any]:
        id_ = asked.id
        try:
            value = asked.task(
                asked.source, *asked.arguments, planned=None, progress=self._progress
            )
        except CounterhoopError as fault:
            return Failed(id=id_, says=str(fault), why="refused", fault=fault)
        return Done(id=id_, value=value)

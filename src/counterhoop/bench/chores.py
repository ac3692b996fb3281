"""Chores of the workshop, one at a time, beside the pages: watched, stopped, told in words."""

from __future__ import annotations

import datetime as dt
import logging
import threading
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TypeAlias

from counterhoop.bench.long_work.at_work import where_it_lies
from counterhoop.errors import CannotDo, CounterhoopError

Share: TypeAlias = Callable[[float], None]
CLOSING_S = 30.0
LOG = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What came of a chore.

    Attributes
    ----------
    says : tuple of str
        Sentences, the most telling first.
    sound : bool
        Whether all is well.
    """

    says: tuple[str, ...]
    sound: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Chore:
    """The last chore: under way, or what came of it.

    Attributes
    ----------
    says : str
        What is being done.
    share : float
        Of the whole, 0 to 1.
    by : str
        The bench that began it.
    ended : datetime or None
        When it was over; None while it is under way.
    outcome : Outcome or None
        What came of it.
    """

    says: str
    by: str
    share: float = 0.0
    ended: dt.datetime | None = None
    outcome: Outcome | None = None


class Stopped(CannotDo):
    """A person stopped a chore."""


class Chores:
    """Does one chore at a time, in a thread that has the open store.

    It is no process of its own because the store is open here and its copy is made from the open
    one; nearly all of its time goes by in reading files and hashing, which lets the pages run.
    """

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._last: Chore | None = None
        self._thread: threading.Thread | None = None
        self._stop = threading.Event()

    def state(self) -> Chore | None:
        """Return the last chore; None when there was none since the start."""
        with self._lock:
            return self._last

    def start(
        self,
        says: str,
        work: Callable[[Share], Outcome],
        *,
        now: Callable[[], dt.datetime],
        by: str,
    ) -> None:
        """Begin a chore.

        Parameters
        ----------
        says : str
            What is being done, as a sentence without its stop.
        work : callable
            Is given what to tell its share of the whole; that raises when the chore is stopped.

        Raises
        ------
        CannotDo
            While another one is under way.
        """
        with self._lock:
            if self._last is not None and self._last.ended is None:
                raise CannotDo(f"One thing after another: {self._last.says[:1].lower()}"
                               f"{self._last.says[1:]} just now.")  # fmt: skip
            self._stop.clear()
            self._last = Chore(says=says, by=by)
            self._thread = threading.Thread(
                target=self._run, args=(work, now), name="chore", daemon=True
            )
            self._thread.start()

    def stop(self) -> None:
        """Ask the chore to end; it does so before its next file."""
        self._stop.set()

    def wait(self, seconds: float) -> Chore | None:
        """Return the chore after it ended or the time is up."""
        thread = self._thread
        if thread is not None:
            thread.join(seconds)
        return self.state()

    def close(self) -> None:
        """Stop what is under way and wait for it."""
        self.stop()
        self.wait(CLOSING_S)

    def _run(self, work: Callable[[Share], Outcome], now: Callable[[], dt.datetime]) -> None:
        try:
            outcome = work(self._told)
        except CounterhoopError as fault:
            outcome = Outcome(says=(str(fault),), sound=isinstance(fault, Stopped))
        except Exception as fault:
            # The thread has nobody to raise it to.
            LOG.error("A chore broke off. %s", where_it_lies(fault))
            outcome = Outcome(says=("This broke off, by a mistake of the program.",), sound=False)
        self._ended(outcome, now)

    def _ended(self, outcome: Outcome, now: Callable[[], dt.datetime]) -> None:
        with self._lock:
            if self._last is not None:
                self._last = replace(self._last, share=1.0, ended=now(), outcome=outcome)

    def _told(self, share: float) -> None:
        if self._stop.is_set():
            raise Stopped("Stopped before it was done. Nothing was left behind.")
        with self._lock:
            if self._last is not None:
                self._last = replace(self._last, share=share)

"""One line of work: what waits, what is under way, and the process that does it."""

from __future__ import annotations

import logging
import pickle
import threading
from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from counterhoop.bench.long_work.answers import Failed, Working, failed
from counterhoop.bench.long_work.at_work import Ended, where_it_lies
from counterhoop.bench.long_work.kept import Kept, Piece
from counterhoop.bench.long_work.worker import Gone, Worker

LOG = logging.getLogger("counterhoop.long_work")
TRIES = 2
"""An idle process may have been ended from outside; work that had not begun gets another."""
READY = "gets ready"


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """When a process is let go.

    Attributes
    ----------
    idle_s : float
        It has had nothing to do for so long.
    most_held_bytes : int
        It holds more memory than this after a piece of work.
    most_pieces : int
        It has done so many: a bound where the system does not say what a process holds.
    """

    idle_s: float = 300.0
    most_held_bytes: int = 300_000_000
    most_pieces: int = 200


class Line:
    """Does one piece of work after another in a process that is started when the first comes.

    Parameters
    ----------
    changed : Condition
        Held whenever a piece is read or changed, and notified after it; shared with whoever waits.
    heavy : sequence of str
        Modules that the process loads at its start.
    kept : Kept
        Where what came of earlier work is found.
    """

    def __init__(
        self, name: str, *, changed: threading.Condition, heavy: Sequence[str], limits: Limits,
        kept: Kept,
    ) -> None:  # fmt: skip
        self._name = name
        self._changed = changed
        self._heavy = heavy
        self._limits = limits
        self._kept = kept
        self._waiting: deque[Piece] = deque()
        self._under_way: Piece | None = None
        self._thread: threading.Thread | None = None
        self._worker: Worker | None = None
        self._done = 0
        self._closed = False

    @property
    def pid(self) -> int:
        """Number of the process that works just now; 0 when there is none."""
        with self._changed:
            return self._worker.pid if self._worker else 0

    def put(self, piece: Piece) -> None:
        """Have a piece done after those that wait, in place of older work of its folder."""
        with self._changed:
            subject = piece.asked.subject
            older = [p for p in self._waiting if subject and p.asked.subject == subject]
            for other in older:
                self._waiting.remove(other)
                other.now(failed(other.id, "replaced"))
            self._waiting.append(piece)
            self._attend()
            self._changed.notify_all()

    def warm(self) -> None:
        """Start the process."""
        with self._changed:
            self._attend()

    def stop(self, piece: Piece) -> None:
        """Stop a piece, whether it waits or is under way; back when it has ended."""
        with self._changed:
            if piece in self._waiting:
                self._waiting.remove(piece)
                piece.now(failed(piece.id, "stopped"))
                self._changed.notify_all()
            elif piece is self._under_way:
                piece.stopping = True
                if self._worker is not None:
                    self._worker.kill()
                self._changed.wait_for(lambda: piece.ended)

    def close(self) -> None:
        """End the process and everything that waits for it."""
        with self._changed:
            self._closed = True
            for piece in [*self._waiting, *([self._under_way] if self._under_way else [])]:
                self.stop(piece)
            thread = self._thread
            self._changed.notify_all()
        if thread is not None:
            thread.join()

    def _attend(self) -> None:
        if self._thread is None and not self._closed:
            self._thread = threading.Thread(target=self._run, name=self._name, daemon=True)
            self._thread.start()

    def _run(self) -> None:
        self._start()
        while (piece := self._next()) is not None:
            try:
                outcome = self._outcome(piece)
                # A plan takes some 20 ms to unpack: nobody who looks how far it is waits for that.
                value = _unpacked(outcome)
            except Exception as fault:
                outcome, value = ("fault", where_it_lies(fault), 0), None
            self._record(piece, outcome, value)
            if piece.stopping or isinstance(outcome, Gone) or self._spent(outcome[2]):
                self._let_go()
                self._start()

    def _next(self) -> Piece | None:
        """Return what is to be done now; nothing after idle minutes or at the end of all work."""
        with self._changed:
            self._changed.wait_for(
                lambda: self._waiting or self._closed, timeout=self._limits.idle_s
            )
            if self._waiting and not self._closed:
                self._under_way = self._waiting.popleft()
                return self._under_way
            worker, self._worker, self._thread = self._worker, None, None
        if worker is not None:
            worker.close()
        return None

    def _outcome(self, piece: Piece) -> Ended | Gone:
        asked = piece.asked

        def told(says: str, share: float) -> None:
            with self._changed:
                piece.now(Working(id=piece.id, says=says, share=share))
                self._changed.notify_all()

        told(READY, 0.0)
        gone = Gone(begun=False)
        for _ in range(TRIES):
            with self._changed:
                worker = self._worker
                if piece.stopping or worker is None:
                    break
                known = self._kept.known(asked)
            packed = pickle.dumps((asked.task, asked.source, asked.arguments, known), protocol=5)
            try:
                return worker.do(packed, told=told)
            except Gone as end:
                gone = end
            if gone.begun or piece.stopping:
                break
            self._let_go()
            self._start()
        return gone

    def _record(self, piece: Piece, outcome: Ended | Gone, value: Any) -> None:
        with self._changed:
            self._under_way = None
            match outcome:
                case Gone():
                    piece.now(failed(piece.id, "stopped" if piece.stopping else "died"))
                case ("done", packed, _):
                    piece.done(value, packed=packed)
                case ("refused", fault, _):
                    piece.now(Failed(id=piece.id, says=str(fault), why="refused", fault=fault))
                case (_, where, _):
                    LOG.error("%s met %s", piece.asked.task.__qualname__, where)
                    piece.now(failed(piece.id, "fault"))
            self._kept.make_room(piece)
            self._changed.notify_all()

    def _spent(self, held_bytes: int) -> bool:
        self._done += 1
        limits = self._limits
        return held_bytes > limits.most_held_bytes or self._done >= limits.most_pieces

    def _start(self) -> None:
        if self._closed:
            return
        try:
            worker = Worker(name=self._name, heavy=self._heavy)
        except OSError as fault:
            LOG.error("no process for %s: %s", self._name, fault)
            return
        with self._changed:
            self._worker, self._done = worker, 0

    def _let_go(self) -> None:
        with self._changed:
            worker, self._worker = self._worker, None
        if worker is not None:
            worker.close()


def _unpacked(outcome: Ended | Gone) -> Any:
    if isinstance(outcome, Gone) or outcome[0] != "done":
        return None
    return pickle.loads(outcome[1])

"""What the process beside the pages does: take a piece of work, say how far it is, hand it back."""

from __future__ import annotations

import importlib
import pickle
import signal
import sys
import traceback
from collections.abc import Sequence
from multiprocessing.connection import Connection
from typing import Any, Literal

from counterhoop.errors import CannotDo, CounterhoopError

Begun = tuple[Literal["begun"]]
Told = tuple[Literal["told"], str, float]
Ended = tuple[Literal["done", "refused", "fault"], Any, int]
"""How it ended; the pickled value, the fault raised on purpose, or where a mistake lies; bytes of
memory that the process holds now."""


def at_work(connection: Connection, heavy: Sequence[str]) -> None:
    """Work until the other end of the connection is gone.

    Parameters
    ----------
    connection : Connection
        Pickled pieces come in by it, and go out.
    heavy : sequence of str
        Modules to load before the first piece comes.
    """
    # Ctrl+C in the terminal goes to the whole program, which then ends its processes itself.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    for name in heavy:
        importlib.import_module(name)
    try:
        while True:
            piece = connection.recv_bytes()
            connection.send(("begun",))
            connection.send(_ended(piece, connection))
    except (EOFError, OSError, MemoryError, _Unread):
        # Nobody reads any more, or memory is used up, which is not got back by going on.
        return


class _Unread(BaseException):
    """Nobody reads how far the work is, so that it need not be done."""


def _ended(piece: bytes, connection: Connection) -> Ended:
    told: list[tuple[str, float]] = []

    def progress(says: str, share: float) -> None:
        if told[-1:] != [(says, share)]:
            told[:] = [(says, share)]
            try:
                connection.send(("told", says, share))
            except OSError:
                raise _Unread from None

    try:
        task, source, arguments, planned = pickle.loads(piece)
        value = task(source, *arguments, planned=planned, progress=progress)
        return ("done", pickle.dumps(value, protocol=5), held_bytes())
    except CounterhoopError as fault:
        return ("refused", _carried(fault), held_bytes())
    except MemoryError:
        raise
    except Exception as fault:
        return ("fault", where_it_lies(fault), held_bytes())


def _carried(fault: CounterhoopError) -> CounterhoopError:
    """Return the fault as it comes out at the other end; in plain words where it cannot."""
    try:
        again: CounterhoopError = pickle.loads(pickle.dumps(fault))
    except Exception:
        return CannotDo(str(fault))
    return again


def where_it_lies(fault: Exception) -> str:
    """Return the kind of a mistake and its lines in the program, without what a client wrote."""
    lines = "".join(traceback.format_tb(fault.__traceback__))
    return f"{type(fault).__name__}\n{lines}"


def held_bytes() -> int:
    """Return how much memory this process holds; 0 where the system does not say."""
    try:
        import resource

        if sys.platform == "darwin":
            # The most that it ever held, in bytes.
            return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        with open("/proc/self/statm", "rb") as pages:
            return int(pages.read().split()[1]) * resource.getpagesize()
    except (ImportError, OSError):
        return 0

"""A process that works beside the pages, as seen from the pages."""

from __future__ import annotations

import multiprocessing
from collections.abc import Callable, Sequence

from counterhoop.bench.long_work.at_work import Ended, at_work

PATIENCE_S = 2.0
"""What an idle process may take to end by itself."""


class Gone(Exception):
    """The process ended; ``begun`` says whether the work had begun by then."""

    def __init__(self, *, begun: bool) -> None:
        super().__init__()
        self.begun = begun


class Worker:
    """One process and the connection to it.

    It is spawned and not forked: it has none of the threads, files and locks of the pages.
    """

    def __init__(self, *, name: str, heavy: Sequence[str]) -> None:
        spawn = multiprocessing.get_context("spawn")
        self._connection, other = spawn.Pipe()
        self._process = spawn.Process(
            target=at_work, args=(other, tuple(heavy)), name=f"counterhoop {name}", daemon=True
        )
        self._process.start()
        other.close()

    @property
    def pid(self) -> int:
        """The process's number in the system."""
        return self._process.pid or 0

    def do(self, piece: bytes, *, told: Callable[[str, float], None]) -> Ended:
        """Have one piece done.

        Parameters
        ----------
        piece : bytes
            Pickled: task, source, arguments, what is known already.
        told : callable
            Called with what is being done and the share of the whole.

        Raises
        ------
        Gone
            When the process ended before the work did.
        """
        begun = False
        try:
            self._connection.send_bytes(piece)
            while True:
                message = self._connection.recv()
                match message:
                    case ("begun",):
                        begun = True
                    case ("told", says, share):
                        told(says, share)
                    case _:
                        ended: Ended = message
                        return ended
        except (EOFError, OSError):
            raise Gone(begun=begun) from None

    def kill(self) -> None:
        """End the process at once, whatever it does."""
        self._process.kill()

    def close(self) -> None:
        """Let an idle process end; one that does not is ended."""
        self._connection.close()
        self._process.join(PATIENCE_S)
        if self._process.is_alive():
            self._process.kill()
            self._process.join()
        self._process.close()

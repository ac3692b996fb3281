"""Say what is going on when it takes more than a second."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

SILENT_S = 1.0


@contextmanager
def watched(*, quiet: bool = False) -> Iterator[Callable[[str, float], None]]:
    """Give a progress function that writes to standard error, from the second second on.

    On a terminal the line is rewritten in place; into a file each step is a line of its own.
    What was said last is not said again.
    """
    began = time.monotonic()
    live = sys.stderr.isatty()
    shown = ""

    def progress(says: str, share: float) -> None:
        nonlocal shown
        if quiet or time.monotonic() - began < SILENT_S:
            return
        line = f"{round(100 * share):3d} %  {says}"
        if line == shown:
            return
        print(f"\r\033[2K{line}" if live else line, end="" if live else "\n", file=sys.stderr)
        sys.stderr.flush()
        shown = line

    try:
        yield progress
    finally:
        if shown and live:
            print("\r\033[2K", end="", file=sys.stderr, flush=True)

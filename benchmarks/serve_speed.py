"""How soon the first page is there after the start, on a machine that ran the program before."""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from _served import BEGIN, served, warm_environment
from _timing import Table, timed

TIMES = 7


def until_first_page(data: Path) -> float:
    """Return the seconds from the word to the whole first page; stopping is not counted."""
    began = time.perf_counter()
    with served(data) as server:
        assert server.visitor().get("/").status == 200
        return time.perf_counter() - began


def word(*words: str) -> Callable[[], object]:
    """Return one short command."""
    command = [sys.executable, "-c", BEGIN, *words]
    environment = warm_environment()
    return lambda: subprocess.run(command, check=True, capture_output=True, env=environment)


def main() -> None:
    """Print the table."""
    table = Table("From the word to the answer, everything compiled and in memory")
    with tempfile.TemporaryDirectory() as folder:
        # The first start compiles and makes the store; a person waits for that once.
        until_first_page(Path(folder))
        seconds = [until_first_page(Path(folder)) for _ in range(TIMES)]
        table.row("counterhoop serve, first page whole", seconds, limit_s=2.0)
        ask = word("--help")
        ask()
        table.row("counterhoop --help", timed(ask, times=TIMES), limit_s=0.5)
    table.close()


if __name__ == "__main__":
    main()

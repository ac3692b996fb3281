"""Tasks for the tests: each leaves a mark in a folder, and goes on when it is let.

No test waits for a clock: a task waits for a file, and a test for what a task wrote.
"""

from __future__ import annotations

import os
import signal
import sys
import time
from collections.abc import Callable
from pathlib import Path

from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.source import JobSource
from counterhoop.errors import BadInput

Progress = Callable[[str, float], None]
PATIENCE_S = 120.0
HELD: list[bytearray] = []


def asked(task, *arguments, name="a", folder="", line="trial", bears=False, rests_on=None):
    source = JobSource(tables_json=name.encode(), folder=folder)
    return Asked(
        line=line, task=task, source=source, arguments=arguments, bears=bears, rests_on=rests_on
    )


def until_so(so: Callable[[], object]) -> None:
    """Wait until it is so; a test that waits in vain fails."""
    deadline = time.monotonic() + PATIENCE_S
    while not so():
        assert time.monotonic() < deadline, "it never came to be so"
        time.sleep(0.005)


def until(path: Path) -> str:
    """Wait until a file is there, and return what is in it."""
    until_so(path.exists)
    return path.read_text()


def marks(folder: str) -> list[str]:
    path = Path(folder) / "marks"
    return path.read_text().split() if path.exists() else []


def mark(source: JobSource, folder: str, *, planned: bytes | None, progress: Progress) -> int:
    """Leave a mark with the source's text, and hand back the process's number."""
    with (Path(folder) / "marks").open("a") as file:
        file.write(f"{source.tables_json.decode()}\n")
    return os.getpid()


def gated(source: JobSource, folder: str, *, planned: bytes | None, progress: Progress) -> int:
    """Say that half is done, then wait to be let on."""
    mark(source, folder, planned=planned, progress=progress)
    progress("first half", 0.5)
    name = source.tables_json.decode()
    making = Path(folder) / f"{name}.making"
    making.write_text(str(os.getpid()))
    making.rename(Path(folder) / f"{name}.begun")
    until(Path(folder) / f"{name}.go")
    progress("second half", 0.75)
    return os.getpid()


def let_on(folder: Path, name: str = "a") -> None:
    (folder / f"{name}.go").touch()


def large(source: JobSource, size: int, *, planned: bytes | None, progress: Progress) -> bytes:
    return bytes(size)


def known(source: JobSource, *, planned: bytes | None, progress: Progress) -> bytes | None:
    """Hand back what the process was told of the work that this one rests on."""
    return planned


def hoards(source: JobSource, size: int, *, planned: bytes | None, progress: Progress) -> int:
    """Take memory and never give it back."""
    HELD.append(bytearray(os.urandom(1) * size))
    return os.getpid()


def dies(source: JobSource, folder: str, *, planned: bytes | None, progress: Progress) -> int:
    """End without a word, as when memory runs out; once only."""
    mark(source, folder, planned=planned, progress=progress)
    if len(marks(folder)) == 1:
        os.kill(os.getpid(), signal.SIGKILL)
    return os.getpid()


def out_of_memory(source: JobSource, *, planned: bytes | None, progress: Progress) -> int:
    raise MemoryError


def errs(source: JobSource, written: str, *, planned: bytes | None, progress: Progress) -> int:
    raise KeyError(written)


def refuses(source: JobSource, *, planned: bytes | None, progress: Progress) -> int:
    raise BadInput("no unit", where="depth", given="200", wanted="a length")


def loaded(source: JobSource, *, planned: bytes | None, progress: Progress) -> list[str]:
    return sorted(sys.modules)

"""One piece of long work as it is asked for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from counterhoop.bench.long_work.source import JobSource, digest

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked(Generic[T]):
    """What is to be done.

    Attributes
    ----------
    line : str
        Work of one line is done one after another, in one process.
    task : callable
        A function of a module; it goes to the process by its name.
    arguments : tuple
        What it is given after the source: text and figures whose ``repr`` tells them apart.
    rests_on : Asked or None
        Work whose outcome this one can use when it is kept already.
    bears : bool
        Other work rests on this one.
    """

    line: str
    task: Callable[..., T]
    source: JobSource
    arguments: tuple[Any, ...] = ()
    rests_on: Asked[Any] | None = None
    bears: bool = False

    @property
    def id(self) -> str:
        """The same for the same work, 32 hex digits."""
        return digest(self._what, self.source.key.encode())[:32]

    @property
    def subject(self) -> str:
        """The same for newer work of the same folder; empty where no folder is named."""
        folder = self.source.folder
        return digest(self._what, folder.encode()) if folder else ""

    @property
    def _what(self) -> bytes:
        return f"{self.task.__module__}.{self.task.__qualname__}{self.arguments!r}".encode()

"""What a job is planned from: its tables and the workshop's own books, as bytes and text."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True, kw_only=True)
class JobSource:
    """Everything a plan rests on.

    Attributes
    ----------
    tables_json : bytes
        The survey's tables as JSON, in the order in which they were written: stock and wraps go
        by it.
    books : tuple of (str, str)
        Own fittings books, each by its name and its text; a later one lies over an earlier one.
    name : str
        What the survey is called in complaints.
    folder : str
        The folder that it is of. Newer work of a folder takes the place of what still waits.
    """

    tables_json: bytes
    books: tuple[tuple[str, str], ...] = ()
    name: str = ""
    folder: str = field(default="", compare=False)

    @property
    def key(self) -> str:
        """SHA-256 of what is planned: the same content has the same key.

        Examples
        --------
        >>> one = JobSource(tables_json=b"{}", folder="12")
        >>> one.key == JobSource(tables_json=b"{}").key
        True
        >>> one.key == JobSource(tables_json=b"{ }").key
        False
        """
        parts = [self.tables_json, self.name.encode()]
        parts += [part.encode() for book in self.books for part in book]
        return digest(*parts)


def digest(*parts: bytes) -> str:
    """Return the SHA-256 of parts that cannot run into each other, in hex digits."""
    found = hashlib.sha256()
    for part in parts:
        found.update(len(part).to_bytes(8, "big") + part)
    return found.hexdigest()

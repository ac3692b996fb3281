"""Bytes that are read or written like a file, without a file."""

from __future__ import annotations


class Held:
    """Bytes that can be read like a file.

    Examples
    --------
    >>> held = Held(b"lug 3")
    >>> held.read(3), held.tell(), held.read()
    (b'lug', 3, b' 3')
    """

    def __init__(self, data: bytes) -> None:
        self._data = data
        self._at = 0

    def read(self, count: int | None = -1) -> bytes:
        """Return the next bytes, all that are left when no count is given."""
        end = len(self._data) if count is None or count < 0 else self._at + count
        part = self._data[self._at : end]
        self._at += len(part)
        return part

    def seek(self, offset: int, whence: int = 0) -> int:
        """Go to a place, counted from the start, from here or from the end."""
        self._at = max(0, offset + (0, self._at, len(self._data))[whence])
        return self._at

    def tell(self) -> int:
        """Return the place."""
        return self._at

    def seekable(self) -> bool:
        """Any place can be gone to."""
        return True


class Gathered:
    """What was written to it, in order."""

    def __init__(self) -> None:
        self._parts: list[bytes] = []

    def write(self, part: bytes) -> int:
        """Keep the next bytes."""
        self._parts.append(bytes(part))
        return len(part)

    def flush(self) -> None:
        """Nothing waits."""

    def all(self) -> bytes:
        """Return everything."""
        return b"".join(self._parts)

"""A ZIP file that is sent while it is made: a folder of photographs is larger than the memory."""

from __future__ import annotations

import zipfile
from collections.abc import Iterable, Iterator

from counterhoop.bench.long_work.zipped import PLAIN_FILE, UNIX, WRITTEN


class _Sent:
    """A file that can only be written on: what was written is taken out and forgotten."""

    def __init__(self) -> None:
        self.held: list[bytes] = []

    def write(self, data: bytes, /) -> int:
        self.held.append(bytes(data))
        return len(data)

    def flush(self) -> None:
        return

    def close(self) -> None:
        return

    def taken(self) -> bytes:
        out, self.held = b"".join(self.held), []
        return out


def zip_in_pieces(files: Iterable[tuple[str, Iterable[bytes]]]) -> Iterator[bytes]:
    """Yield a ZIP file of files by their names, each given in pieces.

    Pictures and papers are packed already: everything is stored as it is.

    Examples
    --------
    >>> import io
    >>> made = b"".join(zip_in_pieces([("a/b.txt", [b"12", b"3"])]))
    >>> zipfile.ZipFile(io.BytesIO(made)).read("a/b.txt")
    b'123'
    """
    out = _Sent()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as archive:
        for name, pieces in files:
            entry = zipfile.ZipInfo(name, date_time=WRITTEN)
            entry.create_system = UNIX
            entry.external_attr = PLAIN_FILE
            with archive.open(entry, "w", force_zip64=True) as opened:
                for piece in pieces:
                    opened.write(piece)
                    yield out.taken()
    yield out.taken()

"""Take the position out of a PNG: its pieces carry check sums, which must stay right."""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator

from counterhoop.store.enclosures.tiff_position import blank_position
from counterhoop.store.enclosures.written_position import blank_written

_KEYS = (b"XML:com.adobe.xmp\x00", b"Raw profile type ")


def blank_png(data: bytearray) -> bool:
    """Blank every position in a PNG; tell whether there were any."""
    blanked = False
    # One by one: a planted file holds millions of them. Their lengths stay, so nothing shifts.
    for at, size, kind in _chunks(data):
        first, last = at + 8, at + 8 + size
        content = data[first:last]
        if kind == b"eXIf":
            told = blank_position(content, 0)
        elif kind == b"iTXt" and content.startswith(_KEYS[0]) and content[18:19] == b"\x00":
            told = blank_written(content)
        elif kind in (b"iTXt", b"zTXt", b"tEXt") and content.startswith(_KEYS):
            # Packed text cannot be blanked in place: a comment of the same length replaces it.
            content = bytearray(b"Comment\x00".ljust(size))
            kind = b"tEXt"
            told = True
        else:
            continue
        # Also where nothing told a place: the maker's own notes have been blanked.
        data[at + 4 : first] = kind
        data[first:last] = content
        data[last : last + 4] = struct.pack(">I", zlib.crc32(kind + content))
        blanked = told or blanked
    return blanked


def _chunks(data: bytearray) -> Iterator[tuple[int, int, bytes]]:
    at = 8
    while at + 12 <= len(data):
        size = struct.unpack(">I", data[at : at + 4])[0]
        if at + 12 + size > len(data):
            return
        yield at, size, bytes(data[at + 4 : at + 8])
        at += 12 + size

"""Take the position out of the block in which cameras write it, without moving a byte.

The block is a TIFF structure (TIFF 6.0, section 2; Exif 2.3, sections 4.6.2, 4.6.3 and 4.6.6; from
memory): directories of 12-byte entries, one of which points to the directory of positions.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator

_CAMERA, _POSITIONS, _MAKERS = 0x8769, 0x8825, 0x927C
_BYTES_OF_TYPE = {1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 6: 1, 7: 1, 8: 2, 9: 4, 10: 8, 11: 4, 12: 8}
# A directory may not be empty: its version (tag 0, four bytes) is left alone in it.
_VERSION = bytes((2, 3, 0, 0))
# More than any camera writes; without limits a planted block would take hours.
_MOST_DIRECTORIES = 16
_MOST_ENTRIES = 500
_LONGEST_VALUE, _LONGEST_NOTES = 1 << 16, 1 << 20


def is_tiff(data: bytearray, start: int) -> bool:
    """Tell whether a TIFF structure begins here."""
    return bytes(data[start : start + 4]) in (b"II*\x00", b"MM\x00*")


def blank_position(data: bytearray, start: int) -> bool:
    """Blank the positions of the structure that begins at ``start``; tell whether there were any.

    The maker's own notes are blanked too, unread. Lengths and places of everything else stay as
    they were, so pictures that count bytes from the start of the file are untouched.
    """
    if not is_tiff(data, start):
        return False
    order = "<" if data[start : start + 2] == b"II" else ">"
    blanked = False
    for tag, directory in _inner(data, start, order):
        if tag == _POSITIONS:
            blanked = _blank_directory(data, start, directory, order) or blanked
        else:
            _blank_makers_notes(data, start, directory, order)
    return blanked


def _inner(data: bytearray, start: int, order: str) -> list[tuple[int, int]]:
    """Return the directories of positions and of the camera's notes, each once."""
    found: dict[tuple[int, int], None] = {}
    seen: set[int] = set()
    here = _number(data, start + 4, order, "I")
    while here and here not in seen and len(seen) < _MOST_DIRECTORIES:
        seen.add(here)
        for tag, at in _entries(data, start + here, order):
            if tag in (_CAMERA, _POSITIONS):
                found[tag, start + _number(data, at + 8, order, "I")] = None
        entries = _number(data, start + here, order, "H")
        here = _number(data, start + here + 2 + 12 * entries, order, "I")
    return list(found)[: 2 * _MOST_DIRECTORIES]


def _entries(data: bytearray, directory: int, order: str) -> Iterator[tuple[int, int]]:
    """Yield the tag and the place of each entry that lies in the file."""
    for entry in range(min(_number(data, directory, order, "H"), _MOST_ENTRIES)):
        at = directory + 2 + 12 * entry
        if at + 12 > len(data):
            return
        yield _number(data, at, order, "H"), at


def _blank_makers_notes(data: bytearray, start: int, directory: int, order: str) -> None:
    for tag, at in _entries(data, directory, order):
        size = _number(data, at + 4, order, "I")
        if tag == _MAKERS and size > 4:
            _blank(data, start + _number(data, at + 8, order, "I"), min(size, _LONGEST_NOTES))
            return


def _blank_directory(data: bytearray, start: int, at: int, order: str) -> bool:
    entries = _number(data, at, order, "H")
    end = at + 2 + 12 * entries
    if not 0 < entries <= _MOST_ENTRIES or end > len(data):
        return False
    for entry in range(at + 2, end, 12):
        kind, count = _number(data, entry + 2, order, "H"), _number(data, entry + 4, order, "I")
        size = _BYTES_OF_TYPE.get(kind, 1) * count
        if size > 4:
            value = start + _number(data, entry + 8, order, "I")
            _blank(data, value, min(size, _LONGEST_VALUE))
    first = struct.pack(f"{order}HHI", 0, 1, 4) + _VERSION
    already = entries == 1 and bytes(data[at + 2 : end - 4]) == first[:8]
    _blank(data, at, end - at)
    data[at : at + 14] = struct.pack(f"{order}H", 1) + first
    _blank(data, at + 14, 4)
    return not already


def _blank(data: bytearray, at: int, size: int) -> None:
    last = min(at + size, len(data))
    if at < last:
        data[at:last] = bytes(last - at)


def _number(data: bytearray, at: int, order: str, kind: str) -> int:
    size = struct.calcsize(kind)
    found = bytes(data[at : at + size])
    return int(struct.unpack(order + kind, found)[0]) if len(found) == size else 0

"""Read a QR code off a printed page: ISO/IEC 18004 in small, versions 1 to 4, bytes, no repairs.

Written from the standard (from memory) and apart from what draws the codes.
"""

from __future__ import annotations

from typing import Any

import numpy as np

Grid = np.ndarray[Any, np.dtype[np.bool_]]

BLOCKS = {
    (1, "L"): (1, 19), (1, "M"): (1, 16), (1, "Q"): (1, 13), (1, "H"): (1, 9),
    (2, "L"): (1, 34), (2, "M"): (1, 28), (2, "Q"): (1, 22), (2, "H"): (1, 16),
    (3, "L"): (1, 55), (3, "M"): (1, 44), (3, "Q"): (2, 17), (3, "H"): (2, 13),
    (4, "L"): (1, 80), (4, "M"): (2, 32), (4, "Q"): (2, 24), (4, "H"): (4, 9),
}  # fmt: skip
"""Blocks and the data bytes of each: table 9."""
LEVELS = {0b01: "L", 0b00: "M", 0b11: "Q", 0b10: "H"}
MASKS = (
    lambda i, j: (i + j) % 2,
    lambda i, j: i % 2,
    lambda i, j: j % 3,
    lambda i, j: (i + j) % 3,
    lambda i, j: (i // 2 + j // 3) % 2,
    lambda i, j: i * j % 2 + i * j % 3,
    lambda i, j: (i * j % 2 + i * j % 3) % 2,
    lambda i, j: ((i + j) % 2 + i * j % 3) % 2,
)


def modules_of(ink: Grid) -> Grid:
    """Sample the modules of one code, alone and upright in a picture; True is black.

    The finder pattern's upper side is seven modules long.
    """
    rows, columns = np.flatnonzero(ink.any(axis=1)), np.flatnonzero(ink.any(axis=0))
    cut = ink[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
    first_row = cut[max(1, len(cut) // 200)]
    module = np.flatnonzero(~first_row)[0] / 7.0
    across = round(cut.shape[1] / module)
    middles = [int((n + 0.5) * cut.shape[0] / across) for n in range(across)]
    sideways = [int((n + 0.5) * cut.shape[1] / across) for n in range(across)]
    return np.asarray(cut[np.ix_(middles, sideways)], dtype=np.bool_)


def read_modules(code: Grid) -> str:
    """Return the text of a code."""
    size = len(code)
    version = (size - 17) // 4
    bits = [int(code[8, j]) for j in (0, 1, 2, 3, 4)]
    value = int("".join(map(str, bits)), 2) ^ 0b10101
    level, mask = LEVELS[value >> 3], MASKS[value & 7]
    stream = [
        int(code[i, j]) ^ (mask(i, j) == 0) for i, j in _way(size) if not _is_pattern(i, j, size)
    ]
    words = [int("".join(map(str, stream[n : n + 8])), 2) for n in range(0, len(stream) - 7, 8)]
    blocks, each = BLOCKS[version, level]
    data = [words[block + blocks * n] for block in range(blocks) for n in range(each)]
    said = "".join(f"{word:08b}" for word in data)
    assert said[:4] == "0100", "not in bytes"
    length = int(said[4:12], 2)
    return bytes(int(said[12 + 8 * n : 20 + 8 * n], 2) for n in range(length)).decode()


def _way(size: int) -> list[tuple[int, int]]:
    """Two columns at a time from the right, up and down; the timing column is left out."""
    found, upward = [], True
    right = size - 1
    while right > 0:
        right -= right == 6
        rows = range(size - 1, -1, -1) if upward else range(size)
        found += [(i, j) for i in rows for j in (right, right - 1)]
        right, upward = right - 2, not upward
    return found


def _is_pattern(i: int, j: int, size: int) -> bool:
    finder = (i < 9 and (j < 9 or j > size - 9)) or (i > size - 9 and j < 9)
    aligned = size > 21 and abs(i - (size - 7)) <= 2 and abs(j - (size - 7)) <= 2
    return finder or aligned or 6 in (i, j)

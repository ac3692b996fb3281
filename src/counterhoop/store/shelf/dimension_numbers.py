"""The number by which each dimension is kept: a search compares it a hundred thousand times.

A number is never given to another dimension: stores and their backups are full of them.
"""

from __future__ import annotations

from typing import Final

from counterhoop.parts.dimension import Dimension

NUMBERS: Final[dict[Dimension, int]] = {
    Dimension.HOLES_APART: 1,
    Dimension.HOLES_APART_2: 2,
    Dimension.HOLE_COUNT: 3,
    Dimension.HOLE: 4,
    Dimension.SHELL_HOLE: 5,
    Dimension.SCREW: 6,
    Dimension.BASE_WIDE: 7,
    Dimension.BASE_HIGH: 8,
    Dimension.REACH: 9,
    Dimension.PITCH: 10,
    Dimension.MAJOR: 11,
    Dimension.LENGTH: 12,
    Dimension.THREAD_LENGTH: 13,
    Dimension.SHANK: 14,
    Dimension.ACROSS: 15,
    Dimension.WIDE: 16,
    Dimension.HIGH: 17,
    Dimension.TAKES: 18,
    Dimension.EARS: 19,
    Dimension.EAR_CIRCLE: 20,
    Dimension.INSIDE: 21,
    Dimension.THICK: 22,
    Dimension.ROD_LINE: 23,
    Dimension.MOUTHS_APART: 24,
    Dimension.ROD_DEPTH: 25,
    Dimension.MASS: 26,
}
DIMENSIONS: Final[dict[int, Dimension]] = {number: one for one, number in NUMBERS.items()}

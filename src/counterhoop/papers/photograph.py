"""A photograph on a paper: the JPEG goes into the document byte for byte, with words beside it."""

from __future__ import annotations

from base64 import b64encode
from dataclasses import dataclass

from counterhoop.errors import BadInput

HAS_SIZE = frozenset({*range(0xC0, 0xD0)} - {0xC4, 0xC8, 0xCC})
"""Markers of a JPEG after which its size stands (ITU-T T.81, table B.1, from memory)."""
STANDS_ALONE = frozenset({0x01, *range(0xD0, 0xD9)})
"""Markers that nothing belongs to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Photograph:
    """A small upright JPEG.

    Attributes
    ----------
    jpeg : bytes
        As the store makes it to be shown: a phone's note on which way is up is not read here.
    shows : str
        What is to be seen, for who does not see it.
    """

    jpeg: bytes
    shows: str


def jpeg_size(jpeg: bytes) -> tuple[int, int]:
    """Return width and height in pixels (ITU-T T.81, B.2.2).

    Raises
    ------
    BadInput
        For what is no JPEG.
    """
    at = 2
    while jpeg[:2] == b"\xff\xd8" and at + 9 <= len(jpeg) and jpeg[at] == 0xFF:
        marker = jpeg[at + 1]
        if marker in HAS_SIZE:
            high, wide = (int.from_bytes(jpeg[at + n : at + n + 2]) for n in (5, 7))
            return wide, high
        if marker == 0xFF:
            at += 1
        elif marker in STANDS_ALONE:
            at += 2
        else:
            at += 2 + int.from_bytes(jpeg[at + 2 : at + 4])
    raise BadInput("not a photograph that can be printed", wanted="a JPEG", step="send it again")


def photograph_svg(photograph: Photograph) -> str:
    """Return a drawing that is the photograph: what a template takes as a picture."""
    wide, high = jpeg_size(photograph.jpeg)
    held = b64encode(photograph.jpeg).decode("ascii")
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}" height="{high}">'
        f'<image width="{wide}" height="{high}" href="data:image/jpeg;base64,{held}"/></svg>'
    )

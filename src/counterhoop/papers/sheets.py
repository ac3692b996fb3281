"""Paper that an ordinary printer takes."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.errors import BadInput

MARGIN_MM = 12.0
"""Left free all round: what ordinary printers cannot reach (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperSize:
    """A sheet by its two sides; a roll has no sides of its own."""

    name: str
    short_mm: float
    long_mm: float


SIZES = {
    "A4": PaperSize(name="A4", short_mm=210.0, long_mm=297.0),  # ISO 216
    "A3": PaperSize(name="A3", short_mm=297.0, long_mm=420.0),  # ISO 216
    "Letter": PaperSize(name="Letter", short_mm=215.9, long_mm=279.4),  # 8.5 x 11 in
}
ROLL = "roll"


def sheet_of(name: str) -> PaperSize:
    """Return the sheet of that name, upper and lower case alike.

    Examples
    --------
    >>> sheet_of("a4").long_mm
    297.0
    """
    for size in SIZES.values():
        if size.name.casefold() == name.strip().casefold():
            return size
    raise BadInput(
        "no such paper", where="paper", given=name, wanted="A4, A3, Letter or roll (one strip)"
    )

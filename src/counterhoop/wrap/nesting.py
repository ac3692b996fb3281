"""What is laid out on which sheet: pieces, sheets, where each piece goes, what is left."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from counterhoop.errors import BadInput

UNITS_A_MM = 10
"""Layouts are worked out in tenths: pieces are rounded up to one, sheets down."""


class Runs(StrEnum):
    """How a piece's length may lie on the sheet, for the sake of the pattern."""

    ALONG = "along the sheet"
    ACROSS = "across the sheet"
    EITHER = "either way"


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One piece of wrap to be cut."""

    name: str
    length_mm: float
    width_mm: float
    runs: Runs = Runs.ALONG

    def __post_init__(self) -> None:
        _need_size(self.name, self.length_mm, self.width_mm)

    @property
    def ways_mm(self) -> tuple[tuple[float, float], ...]:
        """Extents along and across a sheet that it may take there, the unturned first."""
        along, across = (self.length_mm, self.width_mm), (self.width_mm, self.length_mm)
        return {
            Runs.ALONG: (along,),
            Runs.ACROSS: (across,),
            Runs.EITHER: (along, across),
        }[self.runs]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet or offcut; the pattern runs along its length."""

    name: str
    length_mm: float
    width_mm: float

    def __post_init__(self) -> None:
        _need_size(self.name, self.length_mm, self.width_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A rectangle on a sheet, from the sheet's corner: its extent along and across the sheet.

    ``sheet`` is the place of the sheet in ``NestingPlan.sheets``.
    """

    name: str
    sheet: int
    from_end_mm: float
    from_side_mm: float
    along_mm: float
    across_mm: float
    turned: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class NestingPlan:
    """Where every piece is cut.

    Attributes
    ----------
    sheets : tuple of Sheet
        The sheets cut into: offcuts from stock first, then new sheets.
    new_sheets, offcuts_used : int
        How many of each.
    placed : tuple of Placed
        One for each piece, in the order they were given.
    left : tuple of Placed
        Offcuts worth keeping, largest first; they do not overlap. The first is the largest
        single rectangle that the layout leaves.
    kerf_mm : float
        Width lost at a cut.
    least_new_sheets : int
        No layout at all takes fewer new sheets.
    most_left_mm2 : float
        With these sheets no layout leaves a larger single rectangle.
    proven : bool
        Nothing better exists: not in sheets, and not in the largest rectangle left.
    """

    sheets: tuple[Sheet, ...]
    new_sheets: int
    offcuts_used: int
    placed: tuple[Placed, ...]
    left: tuple[Placed, ...]
    kerf_mm: float
    least_new_sheets: int
    most_left_mm2: float
    proven: bool

    @property
    def largest_left_mm2(self) -> float:
        """Area of the largest rectangle left; 0 when nothing is."""
        return self.left[0].along_mm * self.left[0].across_mm if self.left else 0.0

    @property
    def says(self) -> str:
        """How good the layout is, as one would say it."""
        if self.proven:
            return "No layout takes fewer sheets or leaves a larger offcut."
        if self.new_sheets > self.least_new_sheets:
            return (
                f"The best layout found takes {self.new_sheets} new sheets; "
                f"fewer than {self.least_new_sheets} is impossible, nothing between is ruled out."
            )
        short = 1 - self.largest_left_mm2 / self.most_left_mm2 if self.most_left_mm2 > 0 else 0.0
        if round(100 * short) == 0:
            return (
                "No layout takes fewer new sheets. That it uses the fewest offcuts from stock "
                "and leaves the largest offcut is not proven."
            )
        return (
            "No layout takes fewer new sheets. Another one might leave a largest offcut up to "
            f"{100 * short / (1 - short):.0f} % larger."
            if short < 1
            else "No layout takes fewer new sheets. Another one might leave an offcut."
        )


def _need_size(name: str, length_mm: float, width_mm: float) -> None:
    for value, which in ((length_mm, "length"), (width_mm, "width")):
        if not (math.isfinite(value) and 0.1 <= value <= 20_000):
            raise BadInput(
                "not a size that can be cut",
                where=f"{name}.{which}",
                given=value,
                wanted="0.1 mm to 20 m",
            )

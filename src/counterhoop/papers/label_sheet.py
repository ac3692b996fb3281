"""Sheets of labels: plain paper that is cut, or gummed sheets as the shop measures them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.papers.facts import sheet_for
from counterhoop.papers.sheets import MARGIN_MM, PaperSize

LEAST_WIDE_MM, LEAST_HIGH_MM = 60.0, 32.0
"""Smaller ones hold no code that a phone opens and no line to be read over a bag."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelSheet:
    """One sheet of labels, in millimetres from its upper left corner.

    Attributes
    ----------
    paper : PaperSize
        Upright.
    across, down : int
        Columns and rows.
    wide_mm, high_mm : float
        One label.
    left_mm, top_mm : float
        Corner of the first.
    step_across_mm, step_down_mm : float
        From the left side of one to that of the next, and from top to top.
    cut : bool
        Plain paper: lines to cut along are drawn.

    Raises
    ------
    BadInput
        When labels are too small, lie on each other or reach over the sheet.
    """

    paper: PaperSize
    across: int
    down: int
    wide_mm: float
    high_mm: float
    left_mm: float
    top_mm: float
    step_across_mm: float
    step_down_mm: float
    cut: bool = False

    def __post_init__(self) -> None:
        right = self.left_mm + (self.across - 1) * self.step_across_mm + self.wide_mm
        bottom = self.top_mm + (self.down - 1) * self.step_down_mm + self.high_mm
        for wrong, what, given in (
            (min(self.across, self.down) < 1, "no labels on it", f"{self.across} x {self.down}"),
            (self.wide_mm < LEAST_WIDE_MM, "labels too narrow", self.wide_mm),
            (self.high_mm < LEAST_HIGH_MM, "labels too low", self.high_mm),
            (self.step_across_mm < self.wide_mm, "labels lie on each other", self.step_across_mm),
            (self.step_down_mm < self.high_mm, "labels lie on each other", self.step_down_mm),
            (min(self.left_mm, self.top_mm) < 0.0, "they begin off the sheet", self.left_mm),
            (right > self.paper.short_mm + 0.5, "they reach over the side", right),
            (bottom > self.paper.long_mm + 0.5, "they reach over the foot", bottom),
        ):
            if wrong:
                raise BadInput(
                    what, where="label sheet", given=given,
                    wanted=f"at least {LEAST_WIDE_MM:.0f} x {LEAST_HIGH_MM:.0f} mm each, side by"
                    f" side on {self.paper.name}",
                )  # fmt: skip

    @property
    def count(self) -> int:
        """Labels on one sheet."""
        return self.across * self.down

    def corners(self, count: int, *, used: int = 0) -> Iterator[tuple[int, float, float]]:
        """Yield sheet, left and top of so many labels, row by row, the used ones left out.

        Raises
        ------
        BadInput
            When more are said to be used than a sheet has.

        Examples
        --------
        >>> [(n, left) for n, left, _ in plain_sheet("A4").corners(2, used=11)]
        [(0, 105.0), (1, 12.0)]
        """
        if not 0 <= used < self.count:
            raise BadInput(
                "no label is left on that sheet", where="used", given=used,
                wanted=f"0 to {self.count - 1}",
            )  # fmt: skip
        for place in range(used, used + count):
            sheet, on_it = divmod(place, self.count)
            row, column = divmod(on_it, self.across)
            yield (
                sheet,
                self.left_mm + column * self.step_across_mm,
                self.top_mm + row * self.step_down_mm,
            )


def plain_sheet(paper: str = "A4") -> LabelSheet:
    """Return plain paper with twelve labels to cut, two across.

    Examples
    --------
    >>> sheet = plain_sheet("Letter")
    >>> round(sheet.wide_mm, 2), round(sheet.high_mm, 2)
    (95.95, 42.57)
    """
    size = sheet_for(paper)
    wide, high = (size.short_mm - 2 * MARGIN_MM) / 2, (size.long_mm - 2 * MARGIN_MM) / 6
    return LabelSheet(
        paper=size, across=2, down=6, wide_mm=wide, high_mm=high, left_mm=MARGIN_MM,
        top_mm=MARGIN_MM, step_across_mm=wide, step_down_mm=high, cut=True,
    )  # fmt: skip

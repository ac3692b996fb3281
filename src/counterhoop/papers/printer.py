"""What a printer does to lengths, measured once on a check sheet, and how it is put right."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, TypeAlias

from counterhoop.errors import BadInput

Side: TypeAlias = Literal["short", "long"]

SHORT_BAR_MM = 180.0
LONG_BAR_MM = 250.0
MOST_OFF = 0.02
"""A printer further off than this has scaled the page on purpose: common practice, no source."""
THICKEST_PAPER_MM = 1.0
AGAIN = 'Print the check sheet again at "actual size", 100 %, and measure it again.'


@dataclass(frozen=True, slots=True, kw_only=True)
class PrinterCorrection:
    """Factors for the sheet's sides (whichever way the drawing lies) and the paper's thickness.

    Attributes
    ----------
    short_factor, long_factor : float
        What a length along the sheet's short and long side is multiplied with before printing.
    paper_mm : float
        Thickness of the paper: wrapped round the shell its middle lies half of it further out.

    Examples
    --------
    >>> round(from_check_sheet(short_read_mm=179.1, long_read_mm=250.0).short_factor, 5)
    1.00503
    """

    short_factor: float = 1.0
    long_factor: float = 1.0
    paper_mm: float = 0.0

    def __post_init__(self) -> None:
        for side, factor in (("short", self.short_factor), ("long", self.long_factor)):
            if not math.isfinite(factor) or abs(factor - 1.0) > MOST_OFF + 1e-12:
                raise BadInput(
                    "the printer is more than 2 % off",
                    where=f"{side} side",
                    given=factor,
                    wanted="a factor between 0.98 and 1.02",
                    step=AGAIN,
                )
        if not math.isfinite(self.paper_mm) or not 0.0 <= self.paper_mm <= THICKEST_PAPER_MM:
            raise BadInput(
                "paper of that thickness does not go round a shell",
                where="paper",
                given=self.paper_mm,
                wanted="0 to 1 mm (common paper is 0.1 mm)",
            )

    def factor(self, side: Side) -> float:
        """What a length along that side of the sheet is multiplied with."""
        return self.short_factor if side == "short" else self.long_factor

    @property
    def says(self) -> str:
        """What the check sheet read, for the papers that are drawn for it; empty when true.

        Examples
        --------
        >>> from_check_sheet(short_read_mm=179.5, long_read_mm=249.2).says
        'drawn for a printer that draws 180 as 179.5 and 250 as 249.2'
        """
        if self.short_factor == self.long_factor == 1.0:
            return ""
        short, long = SHORT_BAR_MM / self.short_factor, LONG_BAR_MM / self.long_factor
        return (
            f"drawn for a printer that draws {SHORT_BAR_MM:.0f} as {_plain(short)}"
            f" and {LONG_BAR_MM:.0f} as {_plain(long)}"
        )

    def along_scale(self, *, radius_mm: float, side: Side) -> float:
        """Printed for one millimetre along a skin of that radius: the paper term and the printer.

        The neutral line of a paper of thickness p lies p/2 outside the skin, so along a shell
        of radius R it is longer by (R + p/2)/R.
        """
        return (radius_mm + self.paper_mm / 2.0) / radius_mm * self.factor(side)

    def closing_mm(self, *, radius_mm: float) -> float:
        """Once round, as a rule shows it on the paper laid flat: 2 pi (R + p/2)."""
        return 2.0 * math.pi * (radius_mm + self.paper_mm / 2.0)


def from_check_sheet(
    *, short_read_mm: float, long_read_mm: float, paper_mm: float = 0.0
) -> PrinterCorrection:
    """Make the correction from what was measured on the two bars of a check sheet.

    Parameters
    ----------
    short_read_mm, long_read_mm : float
        The bars that ought to be 180 mm on the short side and 250 mm on the long one.
    paper_mm : float
        Thickness of the paper.

    Raises
    ------
    BadInput
        When a bar is more than 2 % off.
    """
    factors = []
    for side, read, bar in (
        ("short", short_read_mm, SHORT_BAR_MM),
        ("long", long_read_mm, LONG_BAR_MM),
    ):
        if not math.isfinite(read) or read <= 0 or abs(bar / read - 1.0) > MOST_OFF:
            raise BadInput(
                "more than 2 % off",
                where=f"the bar along the {side} side",
                given=f"{read:.1f} mm",
                wanted=f"{bar:.0f} mm, give or take {bar * MOST_OFF:.1f}",
                step=AGAIN,
            )
        factors.append(bar / read)
    return PrinterCorrection(short_factor=factors[0], long_factor=factors[1], paper_mm=paper_mm)


def _plain(read_mm: float) -> str:
    """A reading to a hundredth, without zeros at its end."""
    return f"{read_mm:.2f}".rstrip("0").rstrip(".")

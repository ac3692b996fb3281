"""What templates are printed on, as a person says it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from counterhoop.errors import BadInput
from counterhoop.papers.printer import PrinterCorrection, from_check_sheet
from counterhoop.papers.sheets import ROLL, sheet_of
from counterhoop.quantities.length import parse_length

USUAL_PAPER_MM = 0.1
"""Thickness of common office paper (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Printing:
    """What templates are printed on, and what the printer does to lengths.

    Attributes
    ----------
    paper : str
        "A4", "A3", "Letter" or "roll".
    correction : PrinterCorrection
        Factors of the printer and the thickness of the paper.
    """

    paper: str = "A4"
    correction: PrinterCorrection = field(
        default_factory=lambda: PrinterCorrection(paper_mm=USUAL_PAPER_MM)
    )

    @classmethod
    def read(cls, *, paper: str = "A4", measured: str = "", thickness: str = "") -> Printing:
        """Read what a person typed.

        Parameters
        ----------
        paper : str
            Name of a paper, upper and lower case alike.
        measured : str
            Both bars of the check sheet, short side first ("179.6 mm, 249.5 mm"); empty for a
            printer that nobody has measured.
        thickness : str
            Of the paper ("0.1 mm").

        Raises
        ------
        BadInput
            For a paper that is not known, a reading without a unit, a bar more than 2 % off.

        Examples
        --------
        >>> Printing.read(paper="letter", measured="179.6 mm, 249.5 mm").paper
        'Letter'
        """
        name = ROLL if paper.strip().casefold() == ROLL else sheet_of(paper).name
        thick = USUAL_PAPER_MM
        if thickness.strip():
            thick = parse_length(thickness, where="thickness").mm
        if not measured.strip():
            return cls(paper=name, correction=PrinterCorrection(paper_mm=thick))
        short, long = _two(measured)
        return cls(
            paper=name,
            correction=from_check_sheet(
                short_read_mm=parse_length(short, where="printer, short side").mm,
                long_read_mm=parse_length(long, where="printer, long side").mm,
                paper_mm=thick,
            ),
        )


def _two(measured: str) -> tuple[str, str]:
    for between in (r"\s*;\s*", r"\s*,\s+", r"\s*,\s*"):
        parts = re.split(between, measured.strip())
        if len(parts) == 2 and all(parts):
            return parts[0], parts[1]
    raise BadInput(
        "two readings are wanted, the short side's bar first",
        where="printer",
        given=measured,
        wanted='for example "179.6 mm, 249.5 mm"',
    )

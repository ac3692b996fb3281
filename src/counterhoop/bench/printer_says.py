"""What a printer's correction is, and what it means once round a shell, in words."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from counterhoop.bench.folders.folder import Kept
from counterhoop.bench.folders.history import Version, versions
from counterhoop.bench.printing import Printing
from counterhoop.bench.workshop import Workshop
from counterhoop.papers.printer import LONG_BAR_MM, SHORT_BAR_MM
from counterhoop.quantities.print_length import TAPE_MM, print_length

ROUND_MM = math.pi * 22 * 25.4
"""Once round a bare 22 in shell, the largest that a template is often made for."""
RULE_DOUBT_MM = TAPE_MM / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class PrinterSays:
    """A correction in words.

    Attributes
    ----------
    face : str
        What the printer does, the short answer.
    means : tuple of str
        What would come of it once round a 22 in shell, side by side of the sheet.
    paper : str
        What the paper's thickness adds.
    doubt : str
        How far the reading itself can be trusted.
    factors : tuple of (str, str)
        What lengths are multiplied with.
    """

    face: str
    means: tuple[str, ...]
    paper: str
    doubt: str
    factors: tuple[tuple[str, str], ...]


def printer_says(printing: Printing, *, units: Literal["mm", "in"]) -> PrinterSays:
    """Return what a correction comes to.

    Examples
    --------
    >>> says = printer_says(Printing.read(measured="179.5 mm, 250 mm"), units="mm")
    >>> says.face
    'Your printer draws too short along the short side; templates are drawn longer by as much.'
    >>> says.means[0]
    'Along the short side 5 mm (3/16 in) too short'
    """
    right = printing.correction
    sides = (("short", right.short_factor, SHORT_BAR_MM), ("long", right.long_factor, LONG_BAR_MM))
    off = {side: ROUND_MM / factor - ROUND_MM for side, factor, _ in sides}
    doubt = RULE_DOUBT_MM / SHORT_BAR_MM * ROUND_MM
    return PrinterSays(
        face=_face(off),
        means=tuple(f"Along the {side} side {_off(off[side], units)}" for side in off),
        paper=(
            "Wrapped round, the middle of the paper lies half its thickness further out than the"
            f" shell: {_length(math.pi * right.paper_mm, units)} more once round, at any size."
        ),
        doubt=(
            f"A bar read {_length(RULE_DOUBT_MM, units)} wrong is {_length(doubt, units)} once"
            " round a 22 in shell. Read it with a caliper, or on a steel rule with a lens, at the"
            " middle of both end lines."
        ),
        factors=tuple(
            (f"Lengths along the {side} side", f"{bar:.0f} / {bar / factor:.2f} = {factor:.5f}")
            for side, factor, bar in sides
        ),
    )


def measured_first(shop: Workshop, kept: Kept) -> Version | None:
    """Return the version in which the readings that hold now were written down."""
    if not kept.document_id or not kept.table.get("measured"):
        return None
    first = None
    for one in versions(shop, kept.document_id):
        body = one.body if isinstance(one.body, dict) else {}
        if body.get("measured") != kept.table["measured"]:
            break
        first = one
    return first


def _face(off: dict[str, float]) -> str:
    ways = {side: "too short" if mm < 0 else "too long" for side, mm in off.items() if mm}
    if not ways:
        return "Your printer is true: templates are drawn as they are."
    if len(ways) == 2 and len(set(ways.values())) == 1:
        way = next(iter(ways.values()))
        other = "longer" if way == "too short" else "shorter"
        return f"Your printer draws {way} both ways; templates are drawn {other} by as much."
    if len(ways) == 2:
        said = ", ".join(f"{way} along the {side} side" for side, way in ways.items())
        return f"Your printer draws {said}; templates are drawn the other way by as much."
    ((side, way),) = ways.items()
    other = "longer" if way == "too short" else "shorter"
    return (
        f"Your printer draws {way} along the {side} side; templates are drawn {other} by as much."
    )


def _off(mm: float, units: Literal["mm", "in"]) -> str:
    if abs(mm) < RULE_DOUBT_MM:
        return "no more than a hair's breadth off"
    return f"{_length(abs(mm), units)} too {'short' if mm < 0 else 'long'}"


def _length(mm: float, units: Literal["mm", "in"]) -> str:
    fine = mm < 2.0
    if fine:
        return f"{mm:.2g} mm"
    return print_length(mm, units=units, resolution_mm=TAPE_MM)

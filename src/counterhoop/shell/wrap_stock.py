"""Wrap that the workshop has or buys, and how it is put on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

GLUES = ("contact", "white PVA", "yellow PVA", "epoxy")
"""Glues whose times are known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcut:
    """A piece left from earlier work; the pattern runs along its length."""

    name: str
    length_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WrapStock:
    """One sort of wrap.

    Attributes
    ----------
    name : str
        As finish plans call it.
    thickness_mm : float
        With its adhesive.
    length_mm, width_mm : float
        Of a new sheet; the pattern runs along its length.
    runs : {"along", "across", "either"}
        How a piece's length may lie on the sheet.
    sheets : int or None
        New sheets at hand; None when more can be bought.
    offcuts : tuple of Offcut
        What is kept from earlier work.
    kerf_mm : float
        Lost at a cut; 0 for a knife.
    overlap_mm : float
        Wrap over wrap at the seam; 0 for a butt seam.
    edge_clear_mm : float
        Bare wood kept at each edge, under the head's collar.
    price_minor : int or None
        Of one new sheet.
    glue : str
        Name in the table of glues.
    brush_min_per_m2, lay_min : float
        This person's pace: brushing a square metre, laying one sheet.
    """

    name: str
    thickness_mm: float
    length_mm: float
    width_mm: float
    runs: Literal["along", "across", "either"] = "along"
    sheets: int | None = None
    offcuts: tuple[Offcut, ...] = ()
    kerf_mm: float = 0.0
    overlap_mm: float = 25.0
    edge_clear_mm: float = 12.0
    price_minor: int | None = None
    glue: str = "contact"
    brush_min_per_m2: float = 20.0
    lay_min: float = 10.0

"""What is said of the new wraps of a job: one plan for each sort of wrap."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.shell.wrap_stock import WrapStock
from counterhoop.wrap.cut_size import CutSize
from counterhoop.wrap.glue import Gluing
from counterhoop.wrap.nesting import NestingPlan
from counterhoop.wrap.obvious_order import ObviousOrder


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceToCut:
    """One piece as it is marked out with a rule.

    Attributes
    ----------
    drum : str
        Whose it is.
    part : {"whole", "long piece", "patch"}
        Which piece of that drum's wrap.
    length_mm, width_mm : float
        To the half millimetre: the length up, the width down.
    glue : Gluing
        What gluing it on takes, all over.
    """

    drum: str
    part: str
    length_mm: float
    width_mm: float
    glue: Gluing

    @property
    def name(self) -> str:
        """What is written on its back."""
        return self.drum if self.part == "whole" else f"{self.drum}, {self.part}"


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamAdvice:
    """One place where the seam may go, or where both may.

    Attributes
    ----------
    along_deg : tuple of float
        Middle of each overlap from the datum.
    along_mm : tuple of float
        The same on the bare skin.
    from_mm : tuple of float
        Where the under end of each piece lies on the bare skin; the upper end comes to lie an
        overlap further along.
    says : str
        Under which lug, between which lugs, how much shows.
    """

    along_deg: tuple[float, ...]
    along_mm: tuple[float, ...]
    from_mm: tuple[float, ...]
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumWrap:
    """The wrap of one drum.

    Attributes
    ----------
    bare_girth_mm : float
        Once round the bare wood, the mean of what was read; places along are on it.
    cut : CutSize
        Exact sizes, and the diameters afterwards.
    clear_mm : (float, float)
        Bare wood left at the batter and at the resonant edge.
    seams : tuple of SeamAdvice
        The best first; empty when there is no good place.
    says : tuple of str
        What is to be said of seam and sheet, a sentence each.
    temperature_c : float
        That the times of the glue are for.
    fits : tuple of str
        A sentence for each head: whether it goes over the new wrap.
    """

    drum: str
    bare_girth_mm: float
    cut: CutSize
    clear_mm: tuple[float, float]
    pieces: tuple[PieceToCut, ...]
    seams: tuple[SeamAdvice, ...]
    says: tuple[str, ...]
    temperature_c: float
    fits: tuple[str, ...]
    old_wrap: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class WrapPlan:
    """All drums that get one sort of wrap.

    Attributes
    ----------
    nesting : NestingPlan
        Where each piece is cut; ``placed`` stands in the order of ``pieces``.
    obvious : ObviousOrder
        What cutting piece by piece, in the order of the job, would take.
    would_do : tuple of (str, tuple of str)
        Each offcut of the stock, and which pieces it would take by itself.
    """

    stock: WrapStock
    drums: tuple[DrumWrap, ...]
    nesting: NestingPlan
    obvious: ObviousOrder
    would_do: tuple[tuple[str, tuple[str, ...]], ...]

    @property
    def pieces(self) -> tuple[PieceToCut, ...]:
        """Every piece, drum by drum."""
        return tuple(piece for drum in self.drums for piece in drum.pieces)

    @property
    def sheet_names(self) -> tuple[str, ...]:
        """What each sheet that is cut into is called: an offcut's own name, or "new sheet 1"."""
        stock = self.nesting.offcuts_used
        names = [sheet.name for sheet in self.nesting.sheets[:stock]]
        return (*names, *(f"new sheet {n}" for n in range(1, self.nesting.new_sheets + 1)))

    @property
    def saved_sheets(self) -> int:
        """New sheets saved against cutting piece by piece."""
        return self.obvious.new_sheets - self.nesting.new_sheets

    @property
    def saved_minor(self) -> int | None:
        """Money saved so; None where a sheet has no price."""
        price = self.stock.price_minor
        return None if price is None else self.saved_sheets * price

    @property
    def cost_minor(self) -> int | None:
        """What the new sheets come to; None where a sheet has no price."""
        price = self.stock.price_minor
        return None if price is None else self.nesting.new_sheets * price

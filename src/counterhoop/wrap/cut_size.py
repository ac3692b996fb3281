"""How long and how wide to cut the wrap of one shell, and what it does to the diameter."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.errors import BadInput

OVERLAP_MM = 25.0
"""Wrap over wrap at the seam: common practice, no source."""
LEAST_PATCH_MM = 100.0
"""The shortest patch that still lies down round a shell: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutSize:
    """What to cut for one shell, and how thick the shell then is.

    Attributes
    ----------
    lengths_mm : tuple of float
        One length when a sheet is long enough; else the main piece and the patch.
    width_mm : float
        Width of every piece.
    overlap_mm : float
        Overlap at each seam where the shell is thickest.
    loosest_overlap_mm : float
        Overlap where it is thinnest: what is over there goes into the first seam.
    patch_arc_mm : float
        From the middle of one seam to the middle of the other, on the middle of the wrap's
        thickness; 0 for one piece.
    diameter_mm : float
        Across the wrapped shell away from the seam, at its thickest.
    across_overlap_mm : float
        The same across the overlap.
    """

    lengths_mm: tuple[float, ...]
    width_mm: float
    overlap_mm: float
    loosest_overlap_mm: float
    patch_arc_mm: float
    diameter_mm: float
    across_overlap_mm: float


def cut_size(
    bare_girths_mm: Sequence[float],
    *,
    depths_mm: Sequence[float],
    thickness_mm: float,
    batter_clear_mm: float,
    resonant_clear_mm: float,
    overlap_mm: float = OVERLAP_MM,
    sheet_length_mm: float = math.inf,
    lugs: int = 0,
    least_patch_mm: float = LEAST_PATCH_MM,
) -> CutSize:
    """Work out the pieces for one shell.

    The middle of a bent sheet keeps its length, so that one turn takes ``girth + pi t``, which
    is ``pi (OD + t)``. The diameter grows by ``2 t``, and by ``3 t`` across the overlap: two
    layers on one side, one on the other.

    Parameters
    ----------
    bare_girths_mm : sequence of float
        Circumferences of the bare wood, as many as were taped; the longest decides.
    depths_mm : sequence of float
        Depths round the rim after truing; the shortest decides.
    thickness_mm : float
        Thickness of the wrap with its adhesive.
    batter_clear_mm, resonant_clear_mm : float
        Wood kept clear of wrap at each edge.
    overlap_mm : float
        Overlap wanted at each seam; 0 for a butt seam.
    sheet_length_mm : float
        The longest piece that can be had.
    lugs : int
        When above zero, both seams of a two-piece wrap lie on lines of lugs that stand evenly
        round the shell: the patch spans the fewest whole spacings.
    least_patch_mm : float
        A patch is made no shorter than this.

    Returns
    -------
    CutSize

    Raises
    ------
    BadInput
        A size that is not one, no wood left between the edges, or a shell that two pieces of
        this sheet cannot go round.

    Notes
    -----
    Plain geometry; the climb of the upper layer onto the lower adds less than 0.1 mm for wrap
    under 1 mm and is left out. Not for wrap thicker than a fiftieth of the shell's diameter.

    Examples
    --------
    >>> one = cut_size([1115.0], depths_mm=[203.0, 202.5], thickness_mm=0.5,
    ...                batter_clear_mm=12.0, resonant_clear_mm=12.0)
    >>> [round(length, 1) for length in one.lengths_mm], one.width_mm
    ([1141.6], 178.5)
    """
    _need(bare_girths_mm, where="circumference", example="1115 mm")
    _need(depths_mm, where="depth", example="203 mm")
    _need([thickness_mm], where="wrap thickness", example="0.5 mm")
    for value, where in (
        (batter_clear_mm, "clear of the batter edge"),
        (resonant_clear_mm, "clear of the resonant edge"),
        (overlap_mm, "overlap"),
        (least_patch_mm, "shortest patch"),
    ):
        if not (math.isfinite(value) and value >= 0):
            raise BadInput("not a length", where=where, given=value, wanted="zero or more, in mm")
    girth, least = max(bare_girths_mm), min(bare_girths_mm)
    if thickness_mm * 50 * math.pi > least:
        raise BadInput(
            "too thick to be wrap on this shell",
            where="wrap thickness",
            given=thickness_mm,
            wanted=f"under {least / math.pi / 50:.1f} mm",
        )
    width = min(depths_mm) - batter_clear_mm - resonant_clear_mm
    if width <= 0:
        raise BadInput(
            "nothing is left between the edges",
            where="depth",
            given=min(depths_mm),
            wanted=f"more than {batter_clear_mm + resonant_clear_mm:g} mm",
        )
    turn = girth + math.pi * thickness_mm
    if turn + overlap_mm <= sheet_length_mm:
        lengths: tuple[float, ...] = (turn + overlap_mm,)
        arc = 0.0
    else:
        arc = _patch_arc_mm(
            turn,
            overlap_mm=overlap_mm,
            sheet_length_mm=sheet_length_mm,
            lugs=lugs,
            least_patch_mm=least_patch_mm,
        )
        lengths = (turn - arc + overlap_mm, arc + overlap_mm)
    diameter = girth / math.pi + 2 * thickness_mm
    return CutSize(
        lengths_mm=lengths,
        width_mm=width,
        overlap_mm=overlap_mm,
        loosest_overlap_mm=overlap_mm + girth - least,
        patch_arc_mm=arc,
        diameter_mm=diameter,
        across_overlap_mm=diameter + (thickness_mm if overlap_mm > 0 else 0.0),
    )


def _need(values: Sequence[float], *, where: str, example: str) -> None:
    if not values:
        raise BadInput("no reading", where=where, wanted=example)
    for value in values:
        if not (math.isfinite(value) and value > 0):
            raise BadInput("not a size", where=where, given=value, wanted=example)


def _patch_arc_mm(
    turn: float, *, overlap_mm: float, sheet_length_mm: float, lugs: int, least_patch_mm: float
) -> float:
    """Return the shortest patch, seam to seam, that lets the main piece come off the sheet."""
    arc = max(turn + overlap_mm - sheet_length_mm, least_patch_mm - overlap_mm)
    if lugs > 0:
        spacing = turn / lugs
        arc = spacing * max(1, math.ceil(arc / spacing - 1e-9))
    if arc <= 0 or max(arc, turn - arc) + overlap_mm > sheet_length_mm + 1e-9 or arc >= turn:
        raise BadInput(
            f"two pieces of this sheet do not go round ({turn + 2 * overlap_mm:.0f} mm with both "
            "overlaps)",
            where="sheet length",
            given=sheet_length_mm,
            wanted=f"{turn / 2 + overlap_mm:.0f} mm or more",
            step="Take a longer sheet, or lay the pieces the other way of the pattern.",
        )
    return arc

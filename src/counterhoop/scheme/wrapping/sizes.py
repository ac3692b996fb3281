"""Cut sizes of one drum's wrap from its own girths, its depth after truing and the sheet."""

from __future__ import annotations

import math

from counterhoop.development.flat import End
from counterhoop.development.surface import Skin
from counterhoop.development.tape import bare_girth_mm
from counterhoop.errors import BadInput
from counterhoop.quantities.print_length import TAPE_MM
from counterhoop.scheme.layout import Layout
from counterhoop.shell.drum import Drum
from counterhoop.shell.wrap_stock import WrapStock
from counterhoop.wrap.cut_size import CutSize, cut_size

RUNS_MM = 1.0
"""Lugs stand evenly when none is further than this off an even spacing: a tape's two readings."""


def cut_size_of(layout: Layout, stock: WrapStock) -> CutSize:
    """Return the cut size of one drum's wrap.

    Both seams of a wrap in two pieces lie on lines of lugs where the lugs stand evenly and a
    patch between two lines comes off the sheet; else the patch is as short as it can be.

    Raises
    ------
    BadInput
        No wood left between the edges, or a shell that two pieces of this sheet do not go round.
    """
    batter, resonant = clear_of_edges_mm(layout, stock)
    depth = shortest_depth_mm(layout)
    longest = _longest_piece_mm(stock, width_mm=marked_down_mm(depth - batter - resonant))

    def with_lugs(lugs: int) -> CutSize:
        return cut_size(
            bare_girths_mm(layout.drum),
            depths_mm=[depth],
            thickness_mm=stock.thickness_mm,
            batter_clear_mm=batter,
            resonant_clear_mm=resonant,
            overlap_mm=stock.overlap_mm,
            sheet_length_mm=marked_down_mm(longest),
            lugs=lugs,
        )

    try:
        return with_lugs(even_lugs(layout))
    except BadInput:
        return with_lugs(0)


def bare_girths_mm(drum: Drum) -> tuple[float, ...]:
    """Return every circumference that was read, on the bare wood."""
    girth = drum.circumference
    read = [mm for _, mm in girth.readings_mm] or [girth.mean_mm]
    thick = 0.0 if girth.skin is Skin.BARE else drum.finish.thickness_mm
    return tuple(bare_girth_mm(mm, thickness_mm=thick) for mm in read)


def shortest_depth_mm(layout: Layout) -> float:
    """Return the least depth round the rim after truing: edges that slant swing about a mean."""
    flat = layout.flat
    return flat.depth_mm - math.hypot(flat.depth_cos_mm, flat.depth_sin_mm)


def clear_of_edges_mm(layout: Layout, stock: WrapStock) -> tuple[float, float]:
    """Return the bare wood left at each edge.

    An open end that never wears a head keeps the wrap to its very edge where the old one had it.
    """

    def clear(end: End) -> float:
        headed = bool(layout.lugs(end)) or any(h.head == end for h in layout.hoops)
        to_edge = layout.drum.edge(end).wrap_to_edge and not headed
        return 0.0 if to_edge else stock.edge_clear_mm

    return clear("batter"), clear("resonant")


def even_lugs(layout: Layout) -> int:
    """Return how many lines of lugs stand evenly round the shell; 0 when none do."""
    surface = layout.flat.surface
    for head in ("batter", "resonant"):
        angles = [lug.place.along_deg for lug in layout.lugs(head)]
        if not angles:
            continue
        spacing = 360.0 / len(angles)
        off = [
            abs(surface.apart_mm(angles[0] + n * spacing, along)) for n, along in enumerate(angles)
        ]
        if max(off) <= RUNS_MM:
            return len(angles)
    return 0


def _longest_piece_mm(stock: WrapStock, *, width_mm: float) -> float:
    """Return the longest piece of a width that comes off a sheet, the pattern's way respected."""
    sheets = [(o.length_mm, o.width_mm) for o in stock.offcuts]
    if stock.sheets is None or stock.sheets > 0:
        sheets = [(stock.length_mm, stock.width_mm)]
    found = [length for length, across in sheets if stock.runs != "across" and width_mm <= across]
    found += [across for length, across in sheets if stock.runs != "along" and width_mm <= length]
    if not found:
        raise BadInput(
            "no sheet is wide enough for this shell",
            where=f"wraps.{stock.name}",
            given=f"{stock.length_mm:g} x {stock.width_mm:g} mm, laid {stock.runs}",
            wanted=f"{width_mm:g} mm from rim to rim",
        )
    return max(found)


def marked_up_mm(value_mm: float) -> float:
    """Return a length up to the next mark of a rule.

    Examples
    --------
    >>> marked_up_mm(1141.52), marked_down_mm(178.9)
    (1142.0, 178.5)
    """
    return math.ceil(round(value_mm / TAPE_MM, 6)) * TAPE_MM


def marked_down_mm(value_mm: float) -> float:
    """Return a length down to the last mark of a rule."""
    return math.floor(round(value_mm / TAPE_MM, 6)) * TAPE_MM

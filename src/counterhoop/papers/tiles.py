"""Cut a full-size drawing into sheets that overlap, joined where no hole is cut."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.papers.printer import PrinterCorrection, Side
from counterhoop.papers.sheets import MARGIN_MM, ROLL, sheet_of

OVERLAP_MM = 10.0
STRIP_LEFT_MM = 9.0  # the check bar down the sheet
STRIP_TOP_MM = 17.0  # what sheet it is
STRIP_BOTTOM_MM = 9.0  # the check bar across
JOINT_STEP_MM = 5.0  # joints lie on whole fives, where that can be
JOINT_GIVES_MM = 45.0  # how far a joint gives way to spare a hole


@dataclass(frozen=True, slots=True, kw_only=True)
class Tile:
    """One sheet's window on the drawing, in millimetres of the shell.

    Attributes
    ----------
    left_mm, top_mm, right_mm, bottom_mm : float
        What the sheet shows, overlap included.
    joint_right_mm, joint_bottom_mm : float
        Where the next sheet's left and top edges come to lie; on the last sheet of a line the
        closing line or the end of the window.
    """

    number: int
    column: int
    row: int
    left_mm: float
    top_mm: float
    right_mm: float
    bottom_mm: float
    joint_right_mm: float
    joint_bottom_mm: float
    first_column: bool
    last_column: bool
    first_row: bool
    last_row: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Tiling:
    """All sheets of a template and what is printed for one millimetre of the shell.

    ``start_mm`` is the first sheet's left edge from the datum: 0, or less where a hole lies there;
    the strip closes once round from it.
    """

    paper: str
    page_wide_mm: float
    page_high_mm: float
    across_side: Side
    along_scale: float
    down_scale: float
    across_factor: float
    down_factor: float
    columns: int
    rows: int
    start_mm: float
    closing_mm: float
    tiles: tuple[Tile, ...]

    def on_sheet(self, tile: Tile, x_mm: float, y_mm: float) -> tuple[float, float]:
        """Where a place of the shell is sent on its page, from the page's upper left corner."""
        left = MARGIN_MM + STRIP_LEFT_MM * self.across_factor
        top = MARGIN_MM + STRIP_TOP_MM * self.down_factor
        return (
            left + (x_mm - tile.left_mm) * self.along_scale,
            top + (y_mm - tile.top_mm) * self.down_scale,
        )


def tile_shell(
    *, around_mm: float, depth_mm: float, beyond_mm: float, paper: str = "A4",
    correction: PrinterCorrection | None = None,
    spare_along: Sequence[tuple[float, float]] = (), spare_down: Sequence[tuple[float, float]] = (),
) -> Tiling:  # fmt: skip
    """Cover a shell with sheets, upright or across, whichever needs fewer.

    Parameters
    ----------
    around_mm, depth_mm : float
        The shell laid flat.
    beyond_mm : float
        What is shown outside each edge (the scales).
    paper : str
        "A4", "A3", "Letter" or "roll" (one strip).
    correction : PrinterCorrection
        Of the printer and the paper's thickness; none for a true printer and no thickness.
    spare_along, spare_down : sequence of (from, to)
        Stretches that no joint should cut (marks of holes).
    """
    right = correction or PrinterCorrection()
    radius = around_mm / (2.0 * math.pi)
    start = first_edge(around_mm, spare=spare_along)
    if paper.strip().casefold() == ROLL:
        return _strip(around_mm, depth_mm, beyond_mm, right, radius, start)
    sheet = sheet_of(paper)
    ways = []
    for across in ("long", "short"):
        wide, high = sheet.long_mm, sheet.short_mm
        if across == "short":
            wide, high = high, wide
        side: Side = "long" if across == "long" else "short"
        other: Side = "short" if across == "long" else "long"
        fx, fy = right.factor(side), right.factor(other)
        sx = right.along_scale(radius_mm=radius, side=side)
        room_x = (wide - 2 * MARGIN_MM - STRIP_LEFT_MM * fx) / sx
        room_y = (high - 2 * MARGIN_MM - (STRIP_TOP_MM + STRIP_BOTTOM_MM) * fy) / fy
        end = start + around_mm + OVERLAP_MM
        xs = joints(start, end, room=room_x, spare=spare_along)
        ys = joints(-beyond_mm, depth_mm + beyond_mm, room=room_y, spare=spare_down)
        tiling = Tiling(
            paper=sheet.name, page_wide_mm=wide, page_high_mm=high, across_side=side,
            along_scale=sx, down_scale=fy, across_factor=fx, down_factor=fy,
            columns=len(xs) - 1, rows=len(ys) - 1,
            start_mm=start, closing_mm=right.closing_mm(radius_mm=radius),
            tiles=_windows(xs, ys, around_mm=around_mm),
        )  # fmt: skip
        ways.append(tiling)
    return min(ways, key=lambda t: (len(t.tiles), t.rows))


def first_edge(around_mm: float, *, spare: Sequence[tuple[float, float]] = ()) -> float:
    """Where the strip begins and closes: on the datum, or before it where that would cut a hole.

    Examples
    --------
    >>> first_edge(800.0), first_edge(800.0, spare=[(-3.0, 4.0)])
    (0.0, -5.0)
    """
    tries = [-JOINT_STEP_MM * i for i in range(int(around_mm / 3 / JOINT_STEP_MM))]
    for start in tries:
        around = (start - around_mm, start, start + around_mm)
        if not any(a < x < b for a, b in spare for x in around):
            return start + 0.0
    return 0.0


def joints(
    start: float, end: float, *, room: float, spare: Sequence[tuple[float, float]] = ()
) -> tuple[float, ...]:
    """Edges of sheets from ``start`` to ``end``: as few as ``room`` and the overlap allow.

    Joints lie evenly, on whole fives where they can, and give way rather than cut a hole.

    Examples
    --------
    >>> joints(0.0, 500.0, room=270.0)
    (0.0, 250.0, 500.0)
    >>> joints(0.0, 500.0, room=270.0, spare=[(245.0, 255.0)])
    (0.0, 245.0, 500.0)
    """
    most = room - OVERLAP_MM
    count = max(1, math.ceil((end - start - OVERLAP_MM) / most - 1e-9))
    edges = [start]
    for left in range(count - 1, 0, -1):
        wanted = edges[-1] + (end - edges[-1]) / (left + 1)
        least = max(end - OVERLAP_MM - left * most, edges[-1] + OVERLAP_MM)
        edges.append(_joint(wanted, least=least, most=edges[-1] + most, spare=spare))
    return (*edges, end)


def _joint(
    wanted: float, *, least: float, most: float, spare: Sequence[tuple[float, float]]
) -> float:
    """The place for a joint nearest to where it is wanted, on a five, on a millimetre, or there."""
    near_five = round(wanted / JOINT_STEP_MM) * JOINT_STEP_MM
    span = range(int(JOINT_GIVES_MM) + 1)
    tries = [near_five + d * JOINT_STEP_MM * sign for d in span for sign in (-1, 1)]
    tries += [round(wanted) + d * sign for d in span for sign in (-1.0, 1.0)]
    allowed = [x for x in tries if least <= x <= most and abs(x - wanted) <= JOINT_GIVES_MM]
    for x in allowed:
        if not any(a < x < b for a, b in spare):
            return x
    return allowed[0] if allowed else min(max(wanted, least), most)


def _windows(xs: tuple[float, ...], ys: tuple[float, ...], *, around_mm: float) -> tuple[Tile, ...]:
    tiles = []
    columns, rows = len(xs) - 1, len(ys) - 1
    for row in range(rows):
        for column in range(columns):
            last_column, last_row = column == columns - 1, row == rows - 1
            tiles.append(
                Tile(
                    number=row * columns + column + 1,
                    column=column,
                    row=row,
                    left_mm=xs[column],
                    top_mm=ys[row],
                    right_mm=xs[column + 1] + (0.0 if last_column else OVERLAP_MM),
                    bottom_mm=ys[row + 1] + (0.0 if last_row else OVERLAP_MM),
                    joint_right_mm=xs[0] + around_mm if last_column else xs[column + 1],
                    joint_bottom_mm=ys[row + 1],
                    first_column=column == 0,
                    last_column=last_column,
                    first_row=row == 0,
                    last_row=last_row,
                )
            )
    return tuple(tiles)


def _strip(
    around_mm: float,
    depth_mm: float,
    beyond_mm: float,
    right: PrinterCorrection,
    radius: float,
    start: float,
) -> Tiling:
    """One strip on a roll: the roll's width is the page's short or long side, as it falls."""
    high_model, wide_model = depth_mm + 2 * beyond_mm, around_mm + OVERLAP_MM
    side: Side = "long"
    other: Side = "short"
    fx, fy = right.factor(side), right.factor(other)
    sx = right.along_scale(radius_mm=radius, side=side)
    wide = wide_model * sx + 2 * MARGIN_MM + STRIP_LEFT_MM * fx
    high = (high_model + STRIP_TOP_MM + STRIP_BOTTOM_MM) * fy + 2 * MARGIN_MM
    xs, ys = (start, start + wide_model), (-beyond_mm, depth_mm + beyond_mm)
    return Tiling(
        paper=ROLL, page_wide_mm=math.ceil(wide), page_high_mm=math.ceil(high), across_side=side,
        along_scale=sx, down_scale=fy, across_factor=fx, down_factor=fy, columns=1, rows=1,
        start_mm=start, closing_mm=right.closing_mm(radius_mm=radius),
        tiles=_windows(xs, ys, around_mm=around_mm),
    )  # fmt: skip

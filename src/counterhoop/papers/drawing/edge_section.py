"""The section of a bearing edge, enlarged, with the figures that a card and a caliper can check."""

from __future__ import annotations

from typing import Literal

from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.lettering import CAP_SHARE
from counterhoop.papers.drawing.records import Drawing, Layer, Line, Path, Pen, Stroke, Text
from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.survey.edge_profile import EdgeProfile
from counterhoop.survey.edge_profile_contact import Contact

Anchor = Literal["start", "middle", "end"]
SCALE = 4.0
TEXT_MM = 3.5  # on paper
BELOW_MM = 5.0  # shown under the deeper cut, in mm of the drum
CLEAR_MM = 1.6  # from the wood to a dimension line, in mm of the drum
ARM_MM = 0.5
WOOD = Pen(weight="outline")
DIMENSION = Pen(weight="fine")
FILM = Pen(weight="dimension", dash="chain")
FILM_OFF_MM = 0.22


def draw_section(
    profile: EdgeProfile, *, says: str, title: str, ring_mm: float = 0.0,
    contact: Contact | None = None, film_below_mm: float = 10.0,
) -> Drawing:  # fmt: skip
    """Draw the section four times as large, the outside at the left and the edge up.

    Parameters
    ----------
    profile : EdgeProfile
    says, title : str
        The drawing in words, and its name.
    ring_mm : float
        Thickness of the ring inside; 0 for none.
    contact : Contact, optional
        Where the film lies: it is drawn as a chain line.
    film_below_mm : float
        How far below the apex the film leaves the collar.
    """
    low = max(profile.inside_mm, profile.outside_mm) + BELOW_MM
    wall = profile.wall_mm
    strokes: list[Stroke] = [_wood(profile, low)]
    if ring_mm > 0.0:
        x = wall - ring_mm
        strokes.append(_line(x, _top_at(profile, x), x, low, Pen(weight="fine", dash="dashed")))
    if profile.ply_mm is not None:
        x = profile.ply_mm
        strokes.append(_line(x, _top_at(profile, x), x, low, Pen(weight="fine", dash="dotted")))
    if contact is not None:
        strokes += _film(profile, contact, low=low, below_mm=film_below_mm)
    strokes += _figures(profile)
    boxes = [extent_box(stroke) for stroke in strokes]
    left, top = min(b[0] for b in boxes) - 0.5, min(b[1] for b in boxes) - 0.5
    right, bottom = max(b[2] for b in boxes) + 0.5, max(b[3] for b in boxes) + 0.3
    return Drawing(
        left_mm=left, top_mm=top, width_mm=right - left, height_mm=bottom - top,
        strokes=tuple(strokes), title=title, says=says, scale=SCALE,
    )  # fmt: skip


def _wood(profile: EdgeProfile, low: float) -> Path:
    """The section down to where the drawing breaks off."""
    return Path(
        layer=Layer.OUTLINE,
        points=((0.0, low), *profile.points, (profile.wall_mm, low)),
        bulges=(0.0, *profile.bulges, 0.0, 0.0),
        pen=WOOD, hatched=True, ident="section", title="section of the edge",
    )  # fmt: skip


def _top_at(profile: EdgeProfile, x: float) -> float:
    """How far down the wood begins, along straight chords: near enough to begin a line inside."""
    for (x1, y1), (x2, y2) in zip(profile.points, profile.points[1:], strict=False):
        if x1 <= x <= x2 and x2 > x1:
            return max(0.0, y1 + (y2 - y1) * (x - x1) / (x2 - x1))
    return 0.0


def _film(profile: EdgeProfile, contact: Contact, *, low: float, below_mm: float) -> list[Stroke]:
    """The film from the collar to the wood and from the apex inward, a hair off the wood."""
    x0, off = -contact.collar_off_mm, FILM_OFF_MM
    meets = (contact.from_outside_mm, contact.from_down_mm)
    share = min(1.0, (low - meets[1]) / max(below_mm - meets[1], 1e-9))
    start = (meets[0] + (x0 - meets[0]) * share, meets[1] + (below_mm - meets[1]) * share)
    return [
        _line(start[0] - off, start[1], meets[0] - off, meets[1] - off, FILM),
        _line(profile.apex_mm, -off, profile.wall_mm + 3.0, -off, FILM),
    ]


def _figures(profile: EdgeProfile) -> list[Stroke]:
    """Apex above, depth of the cuts at the sides; each on a line of its own clear of the wood."""
    size = TEXT_MM / SCALE
    apex, wall = profile.apex_mm, profile.wall_mm
    strokes: list[Stroke] = []
    high = -CLEAR_MM
    if apex > 0.0:
        strokes += _span(0.0, high, apex, high)
        strokes.append(_text(apex / 2.0, high - 0.4, _tenth(apex), size, "middle"))
    strokes += _span(0.0, high - 2.2, wall, high - 2.2)
    strokes.append(_text(wall / 2.0, high - 2.6, f"{_tenth(wall)} wall", size, "middle"))
    middle = CAP_SHARE * size / 2.0
    right = wall + CLEAR_MM
    strokes += _span(right, 0.0, right, profile.inside_mm)
    slope = "round" if profile.inner_deg is None else f"{profile.inner_deg:g}°"
    y = profile.inside_mm / 2.0 + middle
    strokes.append(_text(right + 0.6, y, f"{_tenth(profile.inside_mm)}, {slope}", size, "start"))
    if profile.outside_mm > 0.0:
        left = -CLEAR_MM - 1.4
        strokes += _span(left, 0.0, left, profile.outside_mm)
        y = profile.outside_mm / 2.0 + middle
        strokes.append(_text(left - 0.6, y, _tenth(profile.outside_mm), size, "end"))
    return strokes


def _span(x1: float, y1: float, x2: float, y2: float) -> list[Stroke]:
    """A dimension line with a stroke across each end."""
    across = (ARM_MM, 0.0) if x1 == x2 else (0.0, ARM_MM)
    ends = [
        _line(x - across[0], y - across[1], x + across[0], y + across[1], DIMENSION)
        for x, y in ((x1, y1), (x2, y2))
    ]
    return [_line(x1, y1, x2, y2, DIMENSION), *ends]


def _line(x1: float, y1: float, x2: float, y2: float, pen: Pen) -> Line:
    return Line(layer=Layer.OUTLINE, x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, pen=pen)


def _text(x: float, y: float, text: str, size: float, anchor: Anchor) -> Text:
    return Text(layer=Layer.NOTE, x_mm=x, y_mm=y, text=text, size_mm=size, anchor=anchor)


def _tenth(value_mm: float) -> str:
    return print_mm(value_mm, resolution_mm=CALIPER_MM, with_unit=False)

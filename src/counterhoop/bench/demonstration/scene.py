"""Pictures of an invented drum, drawn from its survey: they stand in for photographs and say so.

Each shows a drum from one of the places that a camera looks from, as it came or as it goes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from typing import TYPE_CHECKING, Final

import numpy as np
from numpy.typing import NDArray

from counterhoop.bench.folders.views import view_says
from counterhoop.development.outline import Outline
from counterhoop.development.shape import HoleShape, Rectangle
from counterhoop.fittings.entry import Kind
from counterhoop.scheme.verdict import HolePlan, Verdict

if TYPE_CHECKING:
    from PIL import Image, ImageDraw, ImageFont

    from counterhoop.development.place import Place
    from counterhoop.scheme.layout import Layout

Colour = tuple[int, int, int]
Point = tuple[float, float]

WIDE_PX, HIGH_PX, FOOT_PX = 800, 640, 76
DRAWN: Final = "Drawn by the program: no drum was photographed."
COLOURS: Final[dict[str, Colour]] = {
    "red": (150, 34, 30), "walnut": (112, 74, 48), "gold": (176, 138, 62),
    "mahogany": (128, 62, 40), "": (150, 104, 66),
}  # fmt: skip
"""By a word in what is said of a finish."""
WOOD: Final[Colour] = (196, 160, 112)
CHROME: Final[Colour] = (206, 210, 214)
BRASS: Final[Colour] = (196, 164, 84)
BENCH: Final[Colour] = (226, 222, 214)
HOLE: Final[Colour] = (30, 24, 20)
LIGHT: Final[Colour] = (250, 246, 232)
DULL: Final = 0.78
"""How bright metal is that nobody has cleaned yet."""
FURTHEST_DEG: Final = 88.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What a picture shows.

    Attributes
    ----------
    layout : Layout
        The drum as it was found, or as its scheme leaves it.
    view : str
        One of ``folders.views``.
    after : bool
        Whether the work is done.
    """

    layout: Layout
    view: str
    after: bool = False


def picture(scene: Scene) -> bytes:
    """Return a scene as a JPEG."""
    from PIL import ImageDraw

    inside = scene.view.startswith("inside")
    shown = _rim(scene) if scene.view.endswith("edge") else _side(scene, inside=inside)
    _foot(scene, ImageDraw.Draw(shown))
    out = BytesIO()
    shown.save(out, "JPEG", quality=82)
    return out.getvalue()


def _side(scene: Scene, *, inside: bool) -> Image.Image:
    """Draw the shell as it stands before the camera, or its far wall seen from within."""
    from PIL import Image, ImageDraw

    layout = scene.layout
    radius_mm = layout.flat.surface.circumference_mm / math.tau - (
        layout.flat.wall_mm if inside else 0.0
    )
    depth_mm = layout.flat.depth_mm
    room_px = HIGH_PX - FOOT_PX
    scale = min(0.8 * WIDE_PX / (2.0 * radius_mm), 0.74 * room_px / depth_mm)
    cylinder = _Cylinder(
        turn_deg=float(scene.view.split()[-1]), radius_px=radius_mm * scale, scale=scale,
        left_px=WIDE_PX / 2.0, top_px=(room_px - depth_mm * scale) / 2.0, inside=inside,
    )  # fmt: skip
    colour = WOOD if inside else _colour(layout)
    shown = Image.fromarray(_shell(cylinder, colour, depth_px=depth_mm * scale))
    draw = ImageDraw.Draw(shown)
    if inside:
        _inside(draw, scene, cylinder)
    else:
        _outside(draw, scene, cylinder)
    return shown


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cylinder:
    """Where a place on the shell lies in the picture."""

    turn_deg: float
    radius_px: float
    scale: float
    left_px: float
    top_px: float
    inside: bool

    def seen(self, place: Place, outline: Outline) -> list[Point]:
        """Return the corners of an outline; none where it is round the other side."""
        middle = (place.along_deg - self.turn_deg + 180.0) % 360.0 - 180.0
        if abs(middle) > 1.5 * FURTHEST_DEG:
            return []
        corners = []
        for right_mm, down_mm in outline.points:
            deg = place.along_deg + math.degrees(right_mm * self.scale / self.radius_px)
            off = (deg - self.turn_deg + 180.0) % 360.0 - 180.0
            if abs(off) > FURTHEST_DEG:
                return []
            # From inside, what lies further along lies to the left.
            side = -1.0 if self.inside else 1.0
            x = self.left_px + side * self.radius_px * math.sin(math.radians(off))
            corners.append((x, self.top_px + (place.down_mm + down_mm) * self.scale))
        return corners

    def band(self, from_mm: float, to_mm: float) -> tuple[float, float, float, float]:
        """Return a band right across the shell, between two heights."""
        return (
            self.left_px - self.radius_px, self.top_px + from_mm * self.scale,
            self.left_px + self.radius_px, self.top_px + to_mm * self.scale,
        )  # fmt: skip


def _shell(cylinder: _Cylinder, colour: Colour, *, depth_px: float) -> NDArray[np.uint8]:
    """Return the bench with a round shell on it, lit from the left; grain runs along."""
    made = np.full((HIGH_PX, WIDE_PX, 3), BENCH, dtype=np.uint8)
    top, reach = round(cylinder.top_px), int(cylinder.radius_px)
    left = round(cylinder.left_px) - reach
    rows = np.arange(top, top + round(depth_px), dtype=np.float32)[:, None]
    columns = np.arange(left, left + 2 * reach, dtype=np.float32)[None, :]
    across = (columns - cylinder.left_px) / cylinder.radius_px
    round_ = np.sqrt(np.clip(1.0 - across**2, 0.0, 1.0))
    lit = 0.42 + 0.5 * round_ + 0.16 * (across if cylinder.inside else -across)
    grain = np.sin(rows / 3.1 + 2.0 * np.sin(columns / 97.0)) * np.sin(rows / 11.0)
    shade = lit * (1.0 + 0.035 * grain)
    box = made[top : top + rows.shape[0], left : left + columns.shape[1]]
    for place, part in enumerate(colour):
        box[:, :, place] = np.clip(shade * part, 0.0, 255.0)
    return made


def _outside(draw: ImageDraw.ImageDraw, scene: Scene, cylinder: _Cylinder) -> None:
    layout = scene.layout
    for mark in layout.marks:
        _fill(draw, cylinder.seen(mark.place, mark.outline), _lighter(_colour(layout), 1.25))
    for hole in layout.holes:
        for place, outline, plugged in _holes(hole, after=scene.after):
            wood = _lighter(_colour(layout), 0.9)
            _fill(draw, cylinder.seen(place, outline), wood if plugged else HOLE)
    metal = _metal(scene)
    for one in layout.standing if scene.after else layout.fittings:
        if one.outline is None:
            continue
        badge = one.fitting.kind in (Kind.BADGE, Kind.VENT)
        _fill(draw, cylinder.seen(one.place, one.outline), BRASS if badge else metal, edge=True)
    depth_mm = layout.flat.depth_mm
    for from_mm, to_mm in ((-9.0, 12.0), (depth_mm - 12.0, depth_mm + 9.0)):
        box = cylinder.band(from_mm, to_mm)
        draw.rounded_rectangle(box, radius=5, fill=metal, outline=_lighter(metal, 0.55), width=2)
        middle = (box[1] + box[3]) / 2.0
        draw.line((box[0] + 6, middle, box[2] - 6, middle), fill=_lighter(metal, 1.15), width=3)


def _inside(draw: ImageDraw.ImageDraw, scene: Scene, cylinder: _Cylinder) -> None:
    layout = scene.layout
    depth_mm = layout.flat.depth_mm
    for ring in layout.flat.rings:
        from_mm = 0.0 if ring.end == "batter" else depth_mm - ring.wide_mm
        box = cylinder.band(from_mm, from_mm + ring.wide_mm)
        draw.rectangle(box, outline=_lighter(WOOD, 0.6), width=2)
    covered = {n for one in layout.standing for n in one.holes}
    for hole in layout.holes:
        for place, outline, plugged in _holes(hole, after=scene.after):
            under = hole.number in covered or hole.covered
            colour = _lighter(WOOD, 0.8) if plugged else HOLE if under else LIGHT
            _fill(draw, cylinder.seen(place, outline), colour, edge=True)
    off = (180.0 - cylinder.turn_deg) % 360.0 - 180.0
    if abs(off) < FURTHEST_DEG:
        x = cylinder.left_px - cylinder.radius_px * math.sin(math.radians(off))
        top = cylinder.top_px + 26.0 * cylinder.scale
        draw.line((x, top, x, top + 16), fill=(60, 60, 60), width=3)


def _rim(scene: Scene) -> Image.Image:
    """Draw an edge as one looks down on it, the lugs round it."""
    from PIL import Image, ImageDraw

    layout, room_px = scene.layout, HIGH_PX - FOOT_PX
    shown = Image.new("RGB", (WIDE_PX, HIGH_PX), BENCH)
    draw = ImageDraw.Draw(shown)
    end = scene.view.split()[0]
    radius_mm = layout.flat.surface.circumference_mm / math.tau
    scale = 0.43 * room_px / radius_mm
    middle = (WIDE_PX / 2.0, room_px / 2.0)
    thick = [ring.thick_mm for ring in layout.flat.rings if ring.end == end]
    wall_mm = layout.flat.wall_mm + max(thick, default=0.0)
    # Looked down on from the batter side, along runs anticlockwise; from the other side, clockwise.
    way = -1.0 if end == "batter" else 1.0
    for one in layout.standing:
        if one.fitting.kind in (Kind.LUG, Kind.LONG_LUG) and one.row in (end, "both"):
            turn = math.radians(way * one.place.along_deg + 90.0)
            at = radius_mm * scale + 12.0
            x, y = middle[0] + at * math.cos(turn), middle[1] + at * math.sin(turn)
            draw.ellipse((x - 15, y - 15, x + 15, y + 15), fill=_metal(scene), outline=HOLE)
    for step, colour in enumerate((_colour(layout), WOOD, BENCH)):
        reach = scale * (radius_mm - (0.0, 1.0, wall_mm)[step])
        box = (middle[0] - reach, middle[1] - reach, middle[0] + reach, middle[1] + reach)
        draw.ellipse(box, fill=colour, outline=HOLE, width=2)
        if step == 1 and not scene.after:
            # Grey where old heads have worn on it, bright where it is cut anew.
            draw.ellipse(box, outline=_lighter(WOOD, 0.65), width=6)
    if end == "resonant":
        for bed in layout.drum.beds:
            half = math.degrees(bed.wide_mm / 2.0 / radius_mm)
            turn = way * bed.along_deg + 90.0
            reach = scale * radius_mm
            box = (middle[0] - reach, middle[1] - reach, middle[0] + reach, middle[1] + reach)
            draw.arc(box, turn - half, turn + half, fill=_lighter(WOOD, 0.55), width=9)
    return shown


def _foot(scene: Scene, draw: ImageDraw.ImageDraw) -> None:
    """Write below what is to be seen, and that it is drawn."""
    draw.rectangle((0, HIGH_PX - FOOT_PX, WIDE_PX, HIGH_PX), fill=(255, 255, 255))
    name = scene.layout.drum.key
    when = "as it goes" if scene.after else "as it came"
    lines = (f"{name[:1].upper()}{name[1:]}, {view_says(scene.view)}, {when}", DRAWN)
    for row, (text, bold) in enumerate(zip(lines, (True, False), strict=True)):
        draw.text((24, HIGH_PX - FOOT_PX + 10 + 30 * row), text, fill=HOLE, font=_font(bold=bold))


@cache
def _font(*, bold: bool) -> ImageFont.FreeTypeFont:
    from importlib.resources import files

    from PIL import ImageFont

    name = "Inter-SemiBold.ttf" if bold else "Inter-Regular.ttf"
    held = files("counterhoop.papers").joinpath("fonts", name).read_bytes()
    return ImageFont.truetype(BytesIO(held), 22)


def _holes(hole: HolePlan, *, after: bool) -> Iterator[tuple[Place, Outline, bool]]:
    """Yield what of a hole is to be seen: where, its outline, and whether a plug fills it."""
    plugged = hole.verdict is Verdict.PLUGGED_ALREADY
    if hole.old is not None:
        closed = hole.verdict in (Verdict.PLUG, Verdict.PLUG_AND_DRILL)
        yield hole.place, _mouth(hole.old), plugged or (after and closed)
    if after and hole.new is not None and hole.verdict is not Verdict.KEEP:
        yield hole.new_place or hole.place, _mouth(hole.new), False


@cache
def _mouth(shape: HoleShape) -> Outline:
    """Return what the eye sees of a hole; two dozen corners are round enough for it."""
    half, high = (size_mm / 2.0 for size_mm in shape.size_mm)
    if isinstance(shape, Rectangle):
        return Outline(((-half, -high), (half, -high), (half, high), (-half, high)))
    turns = [math.tau * number / 24.0 for number in range(24)]
    return Outline(tuple((half * math.cos(turn), high * math.sin(turn)) for turn in turns))


def _fill(
    draw: ImageDraw.ImageDraw, corners: Iterable[Point], colour: Colour, *, edge: bool = False
) -> None:
    found = list(corners)
    if len(found) > 2:
        draw.polygon(found, fill=colour, outline=_lighter(colour, 0.5) if edge else None, width=2)


def _metal(scene: Scene) -> Colour:
    return CHROME if scene.after else _lighter(CHROME, DULL)


def _colour(layout: Layout) -> Colour:
    said = f"{layout.drum.says} {layout.drum.finish.says}".casefold()
    return next(colour for word, colour in COLOURS.items() if word in said)


def _lighter(colour: Colour, by: float) -> Colour:
    red, green, blue = (min(255, round(by * one)) for one in colour)
    return red, green, blue

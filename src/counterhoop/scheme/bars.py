"""Where the base of a new fitting may not stand: outlines in the plane of its pose."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from counterhoop.development.minkowski import barred
from counterhoop.development.outline import Outline, disc, rounded
from counterhoop.development.place import Place
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.scheme.clearances import clearance
from counterhoop.scheme.draft import Draft, is_vent
from counterhoop.scheme.layout import FittingPlan
from counterhoop.scheme.level import Level
from counterhoop.shell.shop_rules import ShopRules

if TYPE_CHECKING:
    from shapely import LinearRing

Corners: TypeAlias = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A region of poses (along and down of the fitting's reference point) that is not allowed."""

    corners: Corners
    of: str
    holes: tuple[Corners, ...] = ()


def bars_for(
    fitting: Fitting, *, turned_deg: float, draft: Draft, rules: ShopRules, level: Level
) -> tuple[Bar, ...]:
    """Return the poses at which a fitting's base would foul what stands on the shell.

    Poses are along and the height that ``level`` counts.

    Obstacles are the bases of standing fittings, the vent, and the wrap's seam where the old
    wrap stays (a base lies wholly on it or clear of it).
    """
    if fitting.base is None:
        return ()
    base = fitting.base.turned(turned_deg)
    bars = list(_fittings(base, fitting.kind, draft.standing, draft, rules))
    bars += _vents(base, draft, rules)
    bars += _seam(base, draft, rules)
    return tuple(_levelled(bar, level) for bar in bars)


def _levelled(bar: Bar, level: Level) -> Bar:
    """A bar in the heights of a row that follows a slanting edge.

    Corners are moved and the sides between them left straight: over the 60 mm of a large base
    that is 0.02 mm for each millimetre of swing on a 300 mm shell.
    """
    if level.swing_mm(0.0) == level.swing_mm(90.0) == 0.0:
        return bar
    surface = level.flat.surface

    def moved(corners: Corners) -> Corners:
        return tuple((x, y - level.swing_mm(surface.along_deg(x))) for x, y in corners)

    return Bar(corners=moved(bar.corners), of=bar.of, holes=tuple(map(moved, bar.holes)))


def _fittings(
    base: Outline, kind: Kind, standing: Sequence[FittingPlan], draft: Draft, rules: ShopRules
) -> Iterator[Bar]:
    for other in standing:
        if other.outline is None:
            continue
        clear = clearance(kind, other.fitting.kind, rules=rules)
        yield from _bar(base, other.outline, other.place, clear.mm, draft, of=other.label)


def _vents(base: Outline, draft: Draft, rules: ShopRules) -> Iterator[Bar]:
    stand = {n for f in draft.standing for n in f.holes}
    for hole in draft.ground.holes:
        if is_vent(hole) and hole.number not in stand:
            outline = disc(hole.shape.around_mm)
            yield from _bar(base, outline, hole.place, rules.lug_badge_mm, draft, of="vent")


def _seam(base: Outline, draft: Draft, rules: ShopRules) -> Iterator[Bar]:
    """Two strips, left and right of the poses that lie wholly on the overlap."""
    seam = draft.ground.drum.seam
    if seam is None or draft.ground.finish.kind != "stays":
        return
    surface = draft.ground.flat.surface
    left, _, right, _ = base.bounds_mm
    start = surface.along_mm(seam.from_deg)
    end = start + surface.along_mm((seam.to_deg - seam.from_deg) % 360.0)
    clear = rules.seam_clear_mm
    low, high = start - clear - right, end + clear - left
    on_low, on_high = start - left, end - right
    strips = [(low, on_low), (on_high, high)] if on_low <= on_high else [(low, high)]
    depth = draft.ground.flat.depth_mm
    for a, b in strips:
        middle = (a + b) / 2
        strip = rounded(b - a, 4 * depth).moved(middle, depth / 2)
        yield Bar(corners=strip.points, of="wrap seam")


def _bar(
    base: Outline, obstacle: Outline, place: Place, clear_mm: float, draft: Draft, *, of: str
) -> Iterator[Bar]:
    x, y = draft.ground.flat.surface.along_mm(place.along_deg), place.down_mm
    region = barred(base, obstacle, clear_mm=clear_mm)
    for part in getattr(region, "geoms", (region,)):
        holes = tuple(_ring(ring, x, y) for ring in part.interiors)
        yield Bar(corners=_ring(part.exterior, x, y), holes=holes, of=of)


def _ring(ring: LinearRing, x_mm: float, y_mm: float) -> Corners:
    return tuple((px + x_mm, py + y_mm) for px, py in ring.coords[:-1])

"""Where a pose may lie: the window, what stands in the way, and where nothing may be drilled."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.scheme.reuse.wanted import Polygon


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """Poses that are looked at: turn and down from least to most, ends included.

    Either may have no width. A window wider than once round (for a row: than one spacing) is cut
    to that width about the ideal, because it holds the same poses again.
    """

    turn_min_mm: float
    turn_max_mm: float
    down_min_mm: float
    down_max_mm: float

    def __post_init__(self) -> None:
        for low, high in (("turn_min_mm", "turn_max_mm"), ("down_min_mm", "down_max_mm")):
            a, b = getattr(self, low), getattr(self, high)
            if not (math.isfinite(a) and math.isfinite(b) and a <= b):
                raise BadInput(
                    "the window ends before it begins",
                    where=f"{low}, {high}",
                    given=(a, b),
                    wanted="the lesser first",
                )


@dataclass(frozen=True, slots=True, kw_only=True)
class Barred:
    """An open region in which a fitting's reference point may not stand.

    The reference point of fitting ``i`` is at (turn + its along in the group, down): the region is
    given once, where it lies on the shell, and laid out here for each fitting and round the
    datum. Its boundary is allowed. A region that spans the datum is given in one piece (along may
    run below 0 or past the girth): two regions that only touch leave the line between them free.

    Attributes
    ----------
    points : tuple of (float, float)
        Corners (along_mm, down_mm); the outline does not cross itself.
    holes : tuple of polygons
        Free places inside it.
    lug : int or None
        The only fitting that it concerns; None for every one.
    """

    points: Polygon
    holes: tuple[Polygon, ...] = ()
    lug: int | None = None

    def __post_init__(self) -> None:
        for ring in (self.points, *self.holes):
            if len(ring) < 3 or not all(math.isfinite(v) for point in ring for v in point):
                raise BadInput(
                    "a barred region is no polygon",
                    where="points",
                    given=ring,
                    wanted="three corners or more, in millimetres",
                )


@dataclass(frozen=True, slots=True, kw_only=True)
class BarredDrill:
    """An open disc on the shell in which a wanted hole's centre may not be drilled afresh.

    A hole that stays there is the usual reason: ``radius_mm`` is the web wanted and half of both
    diameters. A wanted hole whose centre falls inside must be served by an old hole, or the pose
    is barred. ``lug`` and ``hole`` (its index in the fitting) pick the wanted holes that it
    concerns; None for every one.
    """

    along_mm: float
    down_mm: float
    radius_mm: float
    lug: int | None = None
    hole: int | None = None

    def __post_init__(self) -> None:
        if not all(math.isfinite(v) for v in (self.along_mm, self.down_mm, self.radius_mm)):
            raise BadInput(
                "a barred disc is not a place",
                where="along_mm, down_mm, radius_mm",
                given=(self.along_mm, self.down_mm, self.radius_mm),
                wanted="millimetres",
            )

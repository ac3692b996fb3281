"""The shell laid flat rolled up again, and which way round a mark reads from outside."""

from __future__ import annotations

import math
from collections.abc import Sequence

from counterhoop.development.place import Place
from counterhoop.development.surface import Surface
from counterhoop.errors import BadInput

Point3 = tuple[float, float, float]


def on_cylinder(place: Place, *, surface: Surface, depth_mm: float, out_mm: float = 0.0) -> Point3:
    """Where a place lies in space.

    The axes are right-handed: z runs up the shell from the plane of the resonant edge, x points
    to the datum, and seen from the batter side (from above) along runs anticlockwise.

    Parameters
    ----------
    place : Place
    surface : Surface
        The skin it lies on.
    depth_mm : float
        Between the planes of the edges.
    out_mm : float
        Distance outward from that skin; negative toward the bore.

    Returns
    -------
    (x, y, z) : tuple of float
        Millimetres.

    Examples
    --------
    >>> from counterhoop.development.surface import Skin
    >>> skin = Surface(skin=Skin.BARE, circumference_mm=2 * math.pi * 100)
    >>> x, y, z = on_cylinder(Place(90.0, 40.0), surface=skin, depth_mm=200.0)
    >>> round(x, 6), round(y, 6), z
    (0.0, 100.0, 160.0)
    """
    radius_mm = surface.radius_mm + out_mm
    x, y, _ = outward(place)
    return (radius_mm * x, radius_mm * y, depth_mm - place.down_mm)


def from_cylinder(x: float, y: float, z: float, *, depth_mm: float) -> Place:
    """Place under (or over) a point in space, however far from the skin it is.

    Raises
    ------
    BadInput
        On the axis of the shell, which lies under no place.
    """
    if x == 0.0 and y == 0.0:
        raise BadInput("the axis of the shell lies under no place", where="x, y", given=(x, y))
    return Place(math.degrees(math.atan2(y, x)), depth_mm - z)


def outward(place: Place) -> Point3:
    """Unit vector square to the skin, away from the shell."""
    a = math.radians(place.along_deg)
    return (math.cos(a), math.sin(a), 0.0)


def handedness(points: Sequence[Point3]) -> float:
    """Signed area of a mark on the shell as one sees it from outside.

    Parameters
    ----------
    points : sequence of (x, y, z)
        Three or more points of the mark, in their order; the last joins the first.

    Returns
    -------
    float
        mm2, positive where the order runs anticlockwise seen from outside with the batter edge
        up. A mirrored copy of the mark gives the opposite sign, a moved or turned one the same.
        It is the area of the mark on the plane square to the outward direction at its middle
        (Newell's sum of cross products).

    Raises
    ------
    BadInput
        For fewer than three points, points on one line, or a mark that goes half way round the
        shell or more: none of these can be told from its mirror image in this way.
    """
    if len(points) < 3:
        raise BadInput(
            "two points read the same both ways", where="points", given=len(points), wanted="3"
        )
    middle = (sum(p[0] for p in points), sum(p[1] for p in points))
    far = math.hypot(*middle)
    if far == 0.0 or any(p[0] * middle[0] + p[1] * middle[1] <= 0.0 for p in points):
        raise BadInput(
            "the mark goes too far round the shell to be seen from one side",
            where="points",
            wanted="points within a quarter turn of the mark's middle",
        )
    out = (middle[0] / far, middle[1] / far)
    # Seen from outside, "right" is along and "up" is z.
    seen = [(out[0] * p[1] - out[1] * p[0], p[2]) for p in points]
    x0, y0 = seen[0]
    area = spread = 0.0
    for (x1, y1), (x2, y2) in zip(seen, seen[1:] + seen[:1], strict=True):
        area += ((x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0)) / 2.0
        spread = max(spread, math.hypot(x1 - x0, y1 - y0))
    if abs(area) <= 1e-9 * spread**2 or spread == 0.0:
        raise BadInput(
            "the points lie on one line, or the mark reads the same both ways",
            where="points",
            wanted="an asymmetric mark such as an L",
        )
    return area

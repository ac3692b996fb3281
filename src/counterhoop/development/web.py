"""The wood left between two holes, between a hole and an edge, and between a hole and a line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.development.between import between_mm, boxes_mm, core_of
from counterhoop.development.flat import Development, End
from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape, Oval, Rectangle
from counterhoop.development.surface import Surface
from counterhoop.errors import BadInput


@dataclass(frozen=True, slots=True, kw_only=True)
class Web:
    """Wood between two holes, on the skin and where they come out inside; below 0 they overlap."""

    skin_mm: float
    bore_mm: float

    @property
    def least_mm(self) -> float:
        """The smaller of the two, which is the one that counts."""
        return min(self.skin_mm, self.bore_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Near:
    """Two holes that lie nearer than a limit, by their index in the list given."""

    first: int
    second: int
    web: Web


def web(
    a_place: Place, a_shape: HoleShape, b_place: Place, b_shape: HoleShape, *, flat: Development
) -> Web:
    """Measure the web between two holes.

    Holes are square to the skin, so their centres draw together toward the bore: the way along
    between them shrinks by ``(R - wall) / R`` while a drill's hole keeps its size. The wall is the
    thickest that either hole goes through, ring and finish included. For slots, ovals and
    rectangles the figure at the bore is a lower bound (their ends would draw together as well).

    Parameters
    ----------
    a_place, b_place : Place
        Centres, measured in the state (before or after truing) of ``flat``.
    a_shape, b_shape : HoleShape
    flat : Development
        The skin, its wall and rings.

    Returns
    -------
    Web
        Exact for a round shell: see ``between_mm`` for the shapes. A hole in a curved skin is
        wider along than its drill by about ``d**3 / (24 (2 R)**2)``, under 0.01 mm for 20 mm
        holes in a shell of 250 mm or more; it is not counted.

    Examples
    --------
    >>> from counterhoop.development.shape import Round
    >>> from counterhoop.development.surface import Skin
    >>> flat = Development(
    ...     surface=Surface(skin=Skin.OLD, circumference_mm=360.0), depth_mm=140.0, wall_mm=5.0
    ... )
    >>> found = web(Place(0, 60), Round(5.5), Place(12, 60), Round(5.5), flat=flat)
    >>> round(found.skin_mm, 2), round(found.bore_mm, 2)
    (6.5, 5.45)
    """
    along_mm = flat.surface.apart_mm(a_place.along_deg, b_place.along_deg)
    down_mm = b_place.down_mm - a_place.down_mm
    girth_mm = flat.surface.circumference_mm
    thick_mm = max(_thickest_mm(a_place, a_shape, flat), _thickest_mm(b_place, b_shape, flat))
    drawn = _drawn_together(thick_mm, flat)
    return Web(
        skin_mm=_round_mm(a_shape, b_shape, along_mm, down_mm, girth_mm),
        bore_mm=_round_mm(a_shape, b_shape, along_mm * drawn, down_mm, girth_mm * drawn),
    )


def webs_below(
    holes: Sequence[tuple[Place, HoleShape]], *, flat: Development, limit_mm: float
) -> list[Near]:
    """Find every pair of holes whose web is below a limit, on the skin or at the bore.

    Parameters
    ----------
    holes : sequence of (Place, HoleShape)
    flat : Development
    limit_mm : float
        Pairs with a web of exactly this much are not returned.

    Returns
    -------
    list of Near
        In the order of the list; the webs are those of ``web``.
    """
    found: list[Near] = []
    half = _halves(holes)
    for first, hole in enumerate(holes):
        later = range(first + 1, len(holes))
        found += _beside(first, hole, holes, half, among=later, flat=flat, limit_mm=limit_mm)
    return found


def webs_across(
    ones: Sequence[tuple[Place, HoleShape]],
    others: Sequence[tuple[Place, HoleShape]],
    *,
    flat: Development,
    limit_mm: float,
) -> list[Near]:
    """Find every pair of one hole and another whose web is below a limit, as ``webs_below``.

    Parameters
    ----------
    ones, others : sequence of (Place, HoleShape)
        ``first`` counts in the former, ``second`` in the latter.
    """
    found: list[Near] = []
    half, every = _halves(others), range(len(others))
    for first, hole in enumerate(ones):
        found += _beside(first, hole, others, half, among=every, flat=flat, limit_mm=limit_mm)
    return found


def _halves(holes: Sequence[tuple[Place, HoleShape]]) -> list[tuple[float, float]]:
    return [(size[0] / 2.0, size[1] / 2.0) for size in (shape.size_mm for _, shape in holes)]


def _beside(
    first: int,
    hole: tuple[Place, HoleShape],
    others: Sequence[tuple[Place, HoleShape]],
    half: Sequence[tuple[float, float]],
    *,
    among: range,
    flat: Development,
    limit_mm: float,
) -> list[Near]:
    """Measure one hole against those of the others that a box does not rule out."""
    place, shape = hole
    along_deg, down_mm = place.along_deg, place.down_mm
    wide, high = (size / 2.0 + limit_mm for size in shape.size_mm)
    thick_mm = flat.wall_mm + max((ring.thick_mm for ring in flat.rings), default=0.0)
    mm_per_deg = flat.surface.circumference_mm / 360.0 * _drawn_together(thick_mm, flat)
    found = []
    for second in among:
        other = others[second][0]
        if abs(other.down_mm - down_mm) - half[second][1] >= high:
            continue
        turn = abs(other.along_deg - along_deg)
        turn = min(turn, 360.0 - turn)
        # 1e-9: a rounding error must not drop a pair; the exact test follows.
        if turn * mm_per_deg - half[second][0] >= wide + 1e-9:
            continue
        pair = web(place, shape, *others[second], flat=flat)
        if pair.least_mm < limit_mm:
            found.append(Near(first=first, second=second, web=pair))
    return found


def to_edge_mm(place: Place, shape: HoleShape, *, flat: Development, end: End) -> float:
    """Wood between a hole and the named bearing edge; below 0 the edge cuts the hole.

    Examples
    --------
    >>> from counterhoop.development.shape import Round
    >>> from counterhoop.development.surface import Skin
    >>> flat = Development(
    ...     surface=Surface(skin=Skin.OLD, circumference_mm=1116.0), depth_mm=139.7, wall_mm=5.0
    ... )
    >>> round(to_edge_mm(Place(90, 122.3), Round(5.5), flat=flat, end="resonant"), 2)
    14.65
    """
    centre_mm = flat.from_end_mm(place.down_mm, end=end, along_deg=place.along_deg)
    return centre_mm - shape.size_mm[1] / 2.0


def to_line_mm(
    place: Place,
    shape: HoleShape,
    *,
    surface: Surface,
    along_deg: float,
    from_mm: float,
    to_mm: float,
) -> float:
    """Distance from a hole's edge to a line down the shell (a ply seam, a crack, a ring's joint).

    Parameters
    ----------
    along_deg : float
        Where the line lies.
    from_mm, to_mm : float
        Its ends from the batter edge, in either order.

    Returns
    -------
    float
        Below 0 the line runs through the hole, by the shortest move that would clear it.
    """
    line = Rectangle(0.0, abs(to_mm - from_mm))
    along_mm = surface.apart_mm(place.along_deg, along_deg)
    down_mm = (from_mm + to_mm) / 2.0 - place.down_mm
    return _round_mm(shape, line, along_mm, down_mm, surface.circumference_mm)


def _round_mm(
    a: HoleShape, b: HoleShape, along_mm: float, down_mm: float, girth_mm: float
) -> float:
    """Gap with the skin closed on itself: long shapes may meet the other way round."""
    other_way = girth_mm - abs(along_mm)
    if isinstance(a, Oval) or isinstance(b, Oval):
        gap = between_mm(a, b, along_mm=along_mm, down_mm=down_mm)
        if other_way - (a.size_mm[0] + b.size_mm[0]) / 2.0 < gap:
            gap = min(gap, between_mm(a, b, along_mm=other_way, down_mm=down_mm))
        return gap
    core_a, core_b = core_of(a), core_of(b)
    gap = boxes_mm(core_a, core_b, along_mm=along_mm, down_mm=down_mm)
    if other_way - core_a[0] - core_b[0] - core_a[2] - core_b[2] < gap:
        gap = min(gap, boxes_mm(core_a, core_b, along_mm=other_way, down_mm=down_mm))
    return gap


def _thickest_mm(place: Place, shape: HoleShape, flat: Development) -> float:
    if not flat.rings:
        return flat.wall_mm
    half, along_deg = shape.size_mm[1] / 2.0, place.along_deg
    return max(
        flat.wall_at_mm(place.down_mm - half, along_deg=along_deg),
        flat.wall_at_mm(place.down_mm + half, along_deg=along_deg),
    )


def _drawn_together(thick_mm: float, flat: Development) -> float:
    radius_mm = flat.surface.radius_mm
    if not 0.0 <= thick_mm < radius_mm:
        raise BadInput(
            "the wall is thicker than the shell is wide",
            where="wall_mm",
            given=thick_mm,
            wanted=f"0 to {radius_mm:.1f} mm",
            step="Look at the units of wall, ring and circumference.",
        )
    return (radius_mm - thick_mm) / radius_mm

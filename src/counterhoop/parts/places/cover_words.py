"""What a part hides at its best, in words: how much of each mark stays in sight, and where."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from counterhoop.development.outline import Outline
from counterhoop.development.solid import solid
from counterhoop.parts.places.place import MarkAt
from counterhoop.scheme.phrases import listed

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

NOTHING_MM2 = 3.0
"""Less than this no eye finds on a shell: 2 by 1.5 mm. Common practice, no source."""
NOTHING_SHARE = 0.01
SHARES = (
    (0.12, "a sliver of {}"),
    (0.4, "a strip of {}"),
    (0.7, "about half of {}"),
    (1.01, "most of {}"),
)
"""Up to this share of a mark is said so."""
MUCH_SHARE, ALL_SHARE = 0.5, 0.98
PIECE_SHARE = 0.1
"""A smaller piece of what is in sight is not told where it lies."""
AT_MM = 1.0
SIDES = ("top", "bottom", "left", "right")


def hides_said(base: Outline, marks: Iterable[MarkAt]) -> str:
    """Say what a base that lies over marks leaves in sight.

    Parameters
    ----------
    base : Outline
        As it lies on the place.
    marks : iterable of MarkAt

    Examples
    --------
    >>> from counterhoop.development.outline import rounded
    >>> shadow = MarkAt(called="shadow of the strainer", outline=rounded(24.0, 60.0))
    >>> hides_said(rounded(30.0, 60.0).moved(0.0, 5.0), [shadow])
    'hides all but a sliver of the shadow of the strainer at the top'
    >>> hides_said(rounded(30.0, 70.0), [shadow])
    'hides all of it'
    """
    marks = tuple(marks)
    if not marks:
        return ""
    left = [one for mark in marks if (one := _left(base, mark))]
    if not left:
        return "hides all of it"
    if len(left) == len(marks) and all(one.share > ALL_SHARE for one in left):
        return "hides none of it"
    seen = listed([one.says for one in left])
    much = any(MUCH_SHARE < one.share <= ALL_SHARE for one in left)
    return f"leaves {seen} in sight" if much else f"hides all but {seen}"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Left:
    """What stays in sight of one mark."""

    says: str
    share: float


def _left(base: Outline, mark: MarkAt) -> _Left | None:
    """Say how much of one mark stays in sight, and at which side; None for none of it."""
    area = solid(mark.outline)
    bare = area.difference(solid(base))
    share = bare.area / area.area
    if bare.area <= max(NOTHING_MM2, NOTHING_SHARE * area.area) and share < ALL_SHARE:
        return None
    numbered = mark.called.rsplit(" ", 1)[-1].isdecimal() and mark.called.count(" ") == 1
    called = mark.called if numbered else f"the {mark.called}"
    if share > ALL_SHARE:
        return _Left(says=called, share=share)
    how_much = next(words for most, words in SHARES if share <= most).format(called)
    return _Left(says=f"{how_much} {_where(bare, mark.outline)}", share=share)


def _where(bare: Polygon | MultiPolygon, mark: Outline) -> str:
    """Say at which sides of a mark what is seen of it lies."""
    left, top, right, bottom = mark.bounds_mm
    pieces = [one for one in getattr(bare, "geoms", [bare]) if one.area > bare.area * PIECE_SHARE]
    sides = set()
    for one in pieces:
        x0, y0, x1, y1 = one.bounds
        if x0 - left < AT_MM and y0 - top < AT_MM and right - x1 < AT_MM and bottom - y1 < AT_MM:
            return "round it"
        x = (one.centroid.x - (left + right) / 2.0) / (right - left)
        y = (one.centroid.y - (top + bottom) / 2.0) / (bottom - top)
        if abs(y) >= abs(x):
            sides.add("bottom" if y > 0.0 else "top")
        else:
            sides.add("right" if x > 0.0 else "left")
    return f"at the {' and the '.join(side for side in SIDES if side in sides)}"

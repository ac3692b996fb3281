"""What a part hides at its best, in words: how much of each mark stays in sight, and where."""

from __future__ import annotations

from collections.abc import Iterable

from counterhoop.development.outline import Outline
from counterhoop.development.solid import solid
from counterhoop.parts.places.place import MarkAt
from counterhoop.scheme.phrases import listed

NOTHING_MM2 = 3.0
"""Less than this no eye finds on a shell: 2 by 1.5 mm. Common practice, no source."""
NOTHING_SHARE = 0.01
SHARES = (
    (0.12, "a sliver of {}"),
    (0.4, "a strip of {}"),
    (0.7, "about half of {}"),
    (0.98, "most of {}"),
    (1.01, "all of {}"),
)
"""Up to this share of a mark is said so."""
ASIDE_SHARE = 0.15
"""What stays in sight is said to lie at a side when its middle is so far off the mark's own."""


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
    left = [said for mark in marks if (said := _left(base, mark))]
    if not left:
        return "hides all of it"
    whole = [said for said in left if said.startswith("all of ")]
    if len(whole) == len(marks):
        return "hides none of it"
    seen = [one.removeprefix("all of ") for one in left]
    return f"hides all but {listed(seen)}"


def _left(base: Outline, mark: MarkAt) -> str:
    """Say how much of one mark stays in sight, and at which side; empty for none of it."""
    area = solid(mark.outline)
    bare = area.difference(solid(base))
    if bare.area <= max(NOTHING_MM2, NOTHING_SHARE * area.area) and bare.area < 0.9 * area.area:
        return ""
    share = bare.area / area.area
    numbered = mark.called.rsplit(" ", 1)[-1].isdecimal() and mark.called.count(" ") == 1
    called = mark.called if numbered else f"the {mark.called}"
    of = next(words for most, words in SHARES if share <= most).format(called)
    if share > SHARES[-2][0]:
        return of
    left, top, right, bottom = mark.outline.bounds_mm
    x = (bare.centroid.x - (left + right) / 2.0) / (right - left)
    y = (bare.centroid.y - (top + bottom) / 2.0) / (bottom - top)
    if max(abs(x), abs(y)) < ASIDE_SHARE:
        return f"{of} round it"
    if abs(y) >= abs(x):
        return f"{of} at the {'bottom' if y > 0.0 else 'top'}"
    return f"{of} at the {'right' if x > 0.0 else 'left'}"

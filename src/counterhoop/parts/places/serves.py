"""Which fittings serve at a place: as they are, after a change that is spelled out, or not."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from counterhoop.development.outline import Outline
from counterhoop.development.solid import solid
from counterhoop.fittings.entry import Fitting, PatternHole
from counterhoop.parts.places.change_words import (
    asks_holes,
    holes_differ,
    other_rods,
    too_near_words,
    wrong_clamp,
)
from counterhoop.parts.places.cover import GAP_MM2, Cover, best_cover
from counterhoop.parts.places.freedom import Freedom, freedom_of, straight
from counterhoop.parts.places.match import Match, Turn
from counterhoop.parts.places.matches import matches
from counterhoop.parts.places.place import Place
from counterhoop.parts.places.pose import Pose
from counterhoop.scheme.reuse.limits import Limits, Tier
from counterhoop.shell.shop_rules import ShopRules

LOOKED = 3
"""So many of the best ways onto the holes are tried for what they hide."""
TRIES = 300
NEAR_SHARE = 0.02
"""What a part hides is looked for to this share of the marks: enough to rank by."""


class How(StrEnum):
    """Whether a fitting serves, best first."""

    AS_IT_IS = "as it is"
    AFTER_A_CHANGE = "after a change"
    NO = "no"


@dataclass(frozen=True, slots=True, kw_only=True)
class Serves:
    """One fitting held against a place.

    Attributes
    ----------
    fitting : Fitting
    how : How
    changes : tuple of str
        Everything that has to be done, in the words of the bench.
    why : str
        Why not; or what to look at before it is promised; empty when there is nothing to say.
    match : Match or None
        How it goes on the old holes; None where it does not, or where all holes are new.
    cover : Cover or None
        The pose, and what it hides.
    hidden_share : float
        Of the marks' area; 1 where nothing is to be hidden.
    too_close : bool
        The doubt of the holes decides: offer the part up.
    """

    fitting: Fitting
    how: How
    changes: tuple[str, ...] = ()
    why: str = ""
    match: Match | None = None
    cover: Cover | None = None
    hidden_share: float = 0.0
    too_close: bool = False

    @property
    def pose(self) -> Pose | None:
        """Where it stands; None when it does not serve."""
        return self.cover.pose if self.cover else None


def what_serves(
    place: Place,
    candidates: Iterable[Fitting],
    *,
    rules: ShopRules,
    turn: Turn = "upright",
    mirror: bool = False,
    progress: Callable[[float], None] = lambda _share: None,
) -> tuple[Serves, ...]:
    """Hold every candidate against a place and rank them.

    Parameters
    ----------
    place : Place
    candidates : iterable of Fitting
        Of the book, or what the shelf holds of it. Two of one name are looked at once.
    rules : ShopRules
        How far off a hole may be kept or enlarged, and the wood between a new one and an old.
    turn, mirror
        As ``matches``.
    progress : callable
        Told the share that was looked at, before each candidate.

    Returns
    -------
    tuple of Serves
        Those that serve as they are first, then by fewest new holes, fewest changes, most hidden
        and most room; those that do not serve last, each with its reason.
    """
    once = {one.name: one for one in candidates}
    found = []
    for number, one in enumerate(once.values()):
        progress(number / len(once))
        found.append(_one(place, one, rules=rules, turn=turn, mirror=mirror))
    return tuple(sorted(found, key=_order))


def _order(one: Serves) -> tuple[int, int, int, float, float, str]:
    new = len(one.match.new) if one.match else 0
    return (
        list(How).index(one.how),
        new,
        len(one.changes),
        -round(one.hidden_share, 2),
        -one.match.slack_mm if one.match else 0.0,
        one.fitting.name,
    )


def _one(place: Place, fitting: Fitting, *, rules: ShopRules, turn: Turn, mirror: bool) -> Serves:
    why = _never(place, fitting)
    if why:
        return Serves(fitting=fitting, how=How.NO, why=why)
    ways = _ways(place, fitting.holes, rules=rules, turn=turn, mirror=mirror)
    if place.holes and not ways:
        return Serves(fitting=fitting, how=How.NO, why=holes_differ(fitting.holes, place.holes))
    best = _best_way(place, fitting, ways, rules=rules, turn=turn)
    if best is None:
        return Serves(
            fitting=fitting, how=How.NO, why="its base does not go into the room that there is"
        )
    match, cover = best
    changes = [
        *asks_holes(fitting, match, cover.pose, place.holes, rules=rules),
        *other_rods(place.thread, fitting.thread),
        *wrong_clamp(place.takes_mm, fitting.diameter_mm).changes,
    ]
    marked = cover.hidden_mm2 + sum(cover.bare_mm2)
    too_close = match is not None and match.too_close
    return Serves(
        fitting=fitting,
        how=How.AFTER_A_CHANGE if changes else How.AS_IT_IS,
        changes=tuple(changes),
        why=too_near_words(match) if match is not None and too_close else "",
        match=match,
        cover=cover,
        hidden_share=cover.hidden_mm2 / marked if marked > 0.0 else 1.0,
        too_close=too_close,
    )


def _never(place: Place, fitting: Fitting) -> str:
    """Say what no change helps; empty for nothing."""
    if not fitting.holes or fitting.base is None:
        return "it is not fixed to the shell"
    if place.kinds and fitting.kind not in place.kinds:
        return f"it is a {fitting.kind.value}"
    return wrong_clamp(place.takes_mm, fitting.diameter_mm).never


def _ways(
    place: Place,
    pattern: tuple[PatternHole, ...],
    *,
    rules: ShopRules,
    turn: Turn,
    mirror: bool,
) -> tuple[Match, ...]:
    """Return the best ways onto the old holes: as they are, else enlarged, else some new."""
    keep = Limits(keep_mm=rules.keep_mm, enlarge_mm=0.0, slot_mm=0.0)
    cut = Limits(keep_mm=rules.keep_mm, enlarge_mm=rules.enlarge_mm, slot_mm=0.0)
    for limits, new in ((keep, 0), (cut, 0), (cut, len(pattern) // 2)):
        found = matches(
            pattern, place.holes, turn=turn, mirror=mirror, limits=limits, new_holes=new
        )
        if found:
            return found
    return ()


def _best_way(
    place: Place, fitting: Fitting, ways: Sequence[Match], *, rules: ShopRules, turn: Turn
) -> tuple[Match | None, Cover] | None:
    """Of the ways that cut least, the one that hides most; None when none fits the room."""
    base = fitting.base
    assert base is not None
    marks = [mark.outline for mark in place.marks]
    gap_mm2 = max(GAP_MM2, NEAR_SHARE * sum(solid(mark).area for mark in marks))
    if not place.holes:
        cover = best_cover(base, _anywhere(place, fitting), marks, gap_mm2=gap_mm2, tries=TRIES)
        return None if cover is None else (None, cover)
    limits = Limits(keep_mm=rules.keep_mm, enlarge_mm=rules.enlarge_mm, slot_mm=0.0)
    found: list[tuple[Match, Cover]] = []
    for match in ways:
        if found and (_cuts(match) > _cuts(found[0][0]) or len(found) == LOOKED):
            break
        free = freedom_of(
            match, fitting.holes, place.holes, turn=turn, limits=limits, room=place.room
        )
        cover = _straightest(base, free, marks, gap_mm2=gap_mm2)
        if cover is not None:
            found.append((match, cover))
    return max(found, key=lambda one: one[1].hidden_mm2) if found else None


def _straightest(
    base: Outline, free: Freedom, marks: Sequence[Outline], *, gap_mm2: float
) -> Cover | None:
    """The pose that hides most; straight unless it hides clearly more aslant."""
    upright = best_cover(base, straight(free), marks, gap_mm2=gap_mm2, tries=TRIES)
    if upright is not None and sum(upright.bare_mm2) <= gap_mm2:
        return upright
    aslant = best_cover(base, free, marks, gap_mm2=gap_mm2, tries=TRIES)
    if upright is None or aslant is None or aslant.hidden_mm2 > upright.hidden_mm2 + gap_mm2:
        return aslant
    return upright


def _cuts(match: Match) -> tuple[int, int]:
    return (len(match.new), sum(pair.tier is not Tier.KEEP for pair in match.pairs))


def _anywhere(place: Place, fitting: Fitting) -> Freedom:
    """All poses, upright, in which a base meets the marks at all; without marks, the room's."""
    assert fitting.base is not None
    areas = [mark.outline for mark in place.marks] or ([place.room] if place.room else [])
    boxes = [area.bounds_mm for area in areas] or [(0.0, 0.0, 0.0, 0.0)]
    left, top = min(b[0] for b in boxes), min(b[1] for b in boxes)
    right, bottom = max(b[2] for b in boxes), max(b[3] for b in boxes)
    box = fitting.base.bounds_mm
    middle = ((box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0)
    return Freedom(
        pose=Pose(
            right_mm=(left + right) / 2.0 - middle[0], down_mm=(top + bottom) / 2.0 - middle[1]
        ),
        about_mm=middle,
        right_mm=(right - left + box[2] - box[0]) / 2.0,
        down_mm=(bottom - top + box[3] - box[1]) / 2.0,
        room=place.room,
    )

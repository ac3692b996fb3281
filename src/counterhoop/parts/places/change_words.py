"""What has to be done so that a fitting serves, or why nothing helps, in the words of the bench."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

from counterhoop.fittings.entry import Fitting, PatternHole
from counterhoop.fittings.outline_sides import room_mm
from counterhoop.parts.places.match import Match, Pair
from counterhoop.parts.places.place import HoleAt
from counterhoop.parts.places.pose import Pose
from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.scheme.phrases import listed
from counterhoop.scheme.reuse.limits import Tier
from counterhoop.scheme.threading import goes_into
from counterhoop.shell.shop_rules import ShopRules

CLAMPS_DOWN_MM = 0.5
"""A clamp closes this much about a thinner arm; more wants a sleeve. Common practice, no source."""
SAME_MM = CALIPER_MM
"""Diameters that a caliper on a drum does not tell apart."""


def asks_holes(
    fitting: Fitting,
    match: Match | None,
    pose: Pose,
    holes: tuple[HoleAt, ...],
    *,
    rules: ShopRules,
) -> tuple[str, ...]:
    """Say which holes are enlarged, which plugged first and which drilled.

    Parameters
    ----------
    match : Match or None
        None where all holes are new.
    """
    pairs = match.pairs if match else ()
    new = match.new if match else range(len(fitting.holes))
    changes = [
        words
        for pair in sorted(pairs, key=lambda one: one.hole)
        if pair.tier is Tier.ENLARGE
        for words in _enlarged(fitting, pair, pose, holes, rules=rules)
    ]
    used = {pair.hole for pair in pairs}
    left = [hole for n, hole in enumerate(holes) if n not in used]
    for n in new:
        wanted = fitting.holes[n]
        at = pose.at(wanted.right_mm, wanted.down_mm)
        near = [hole for hole in left if _web_mm(wanted, at, hole) < _needed(wanted, hole, rules)]
        plug = f"plug {listed([called(h) for h in near])}, then " if near else ""
        changes.append(f"{plug}drill a new hole of {_size(wanted.hole_mm)}{_which(wanted)}")
    return tuple(changes)


def _enlarged(
    fitting: Fitting, pair: Pair, pose: Pose, holes: tuple[HoleAt, ...], *, rules: ShopRules
) -> tuple[str, ...]:
    old = holes[pair.hole]
    # Up to the next tenth: a hole that is said smaller than it must be does not let the screw in.
    opening = math.ceil(pair.opening_mm * 10.0 - 1e-6) / 10.0
    wanted = fitting.holes[pair.pattern]
    says = f"enlarge {called(old)} from {_size(old.diameter_mm)} to {_size(opening)}"
    if opening > wanted.hole_mm + SAME_MM:
        says += ", with a washer behind"
    outline = pose.laid(fitting.base) if fitting.base else None
    if outline is None:
        return (says,)
    at = pose.at(wanted.right_mm, wanted.down_mm)
    # The opening holds the old hole and the wanted one: its middle lies between theirs.
    share = 0.0 if pair.off_mm == 0.0 else (opening - wanted.hole_mm) / 2.0 / pair.off_mm
    middle = [
        a + min(1.0, share) * (b - a) for a, b in zip(at, (old.along_mm, old.down_mm), strict=True)
    ]
    covered = room_mm(outline, right_mm=middle[0], down_mm=middle[1])
    if covered >= opening / 2.0 + rules.opening_inside_mm:
        return (says,)
    return (says, f"add a plate: the opening at {called(old)} comes out from under the base")


def _web_mm(wanted: PatternHole, at: tuple[float, float], hole: HoleAt) -> float:
    apart = math.dist(at, (hole.along_mm, hole.down_mm))
    return apart - (wanted.hole_mm + hole.diameter_mm) / 2.0


def _needed(wanted: PatternHole, hole: HoleAt, rules: ShopRules) -> float:
    return rules.web_needed_mm(wanted.hole_mm, hole.diameter_mm)


def _which(wanted: PatternHole) -> str:
    return f" ({wanted.called})" if wanted.called else ""


def called(hole: HoleAt) -> str:
    """Name a hole by its number, or by where it lies."""
    if hole.number:
        return f"hole {hole.number}"
    across = "right" if hole.along_mm >= 0.0 else "left"
    down = "down" if hole.down_mm >= 0.0 else "up"
    return (
        f"the hole {print_mm(abs(hole.along_mm))} to the {across}"
        f" and {print_mm(abs(hole.down_mm))} {down}"
    )


def _size(diameter_mm: float) -> str:
    return print_mm(diameter_mm, resolution_mm=CALIPER_MM)


def holes_differ(pattern: tuple[PatternHole, ...], holes: tuple[HoleAt, ...]) -> str:
    """Say why a pattern does not go on these holes, by the spacing that is furthest out."""
    if len(pattern) == 1:
        return f"its one hole of {_size(pattern[0].hole_mm)} does not go where an old one is"
    if len(pattern) > len(holes):
        return f"it wants {len(pattern)} holes and here {_are(len(holes))}"
    wide = max(
        math.hypot(p.right_mm - q.right_mm, p.down_mm - q.down_mm)
        for p, q in combinations(pattern, 2)
    )
    which = "two holes are" if len(pattern) == 2 else f"{len(pattern)} holes are up to"
    says = f"its {which} {print_mm(wide)} apart"
    apart = [
        math.dist((g.along_mm, g.down_mm), (h.along_mm, h.down_mm))
        for g, h in combinations(holes, 2)
    ]
    near = min(apart, key=lambda one: abs(one - wide))
    if print_mm(near) != print_mm(wide):
        return f"{says}; here the nearest to that is {print_mm(near)}"
    return f"{says}, as two here are, but all together do not fall on old holes"


def _are(count: int) -> str:
    return "is one" if count == 1 else f"are {count}"


def too_near_words(match: Match) -> str:
    """Say that the reading of the holes decides."""
    return (
        "too close to call: its screws have"
        f" {print_mm(match.slack_mm, resolution_mm=CALIPER_MM)} left and the holes are read to"
        f" {print_mm(match.doubt_mm, resolution_mm=CALIPER_MM)}; offer it up before it is promised"
    )


def other_rods(here: str, takes: str) -> tuple[str, ...]:
    """Say that other rods are wanted; nothing where the thread is the same or not known."""
    if not here or not takes:
        return ()
    going = goes_into(here, takes)
    if going.goes:
        return ()
    alike = " (they look alike and spoil each other)" if going.alike else ""
    return (f"other rods: it takes {takes}, those here are {here}{alike}",)


@dataclass(frozen=True, slots=True, kw_only=True)
class Clamp:
    """An arm, post or leg in a bracket: what is to be done, or why it never goes."""

    changes: tuple[str, ...] = ()
    never: str = ""


def wrong_clamp(arm_mm: float | None, takes_mm: float | None) -> Clamp:
    """Hold the arm that is to go in against what a bracket takes.

    Examples
    --------
    >>> wrong_clamp(25.4, 22.2).never
    'it takes 22.2 mm and the arm is 25.4 mm'
    >>> wrong_clamp(22.2, 25.4).changes
    ('line it with a sleeve: it takes 25.4 mm and the arm is 22.2 mm',)
    """
    if arm_mm is None:
        return Clamp()
    if takes_mm is None:
        return Clamp(changes=("try it by hand: what it takes is not in the book",))
    says = f"it takes {_size(takes_mm)} and the arm is {_size(arm_mm)}"
    if arm_mm > takes_mm + SAME_MM:
        return Clamp(never=says)
    if arm_mm < takes_mm - CLAMPS_DOWN_MM:
        return Clamp(changes=(f"line it with a sleeve: {says}",))
    return Clamp()

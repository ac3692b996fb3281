"""Every way in which a pattern of holes goes on the old holes of a place: an exact search."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations

from counterhoop.errors import BadInput
from counterhoop.fittings.entry import PatternHole
from counterhoop.parts.places.match import Laid, Match, Pair, Turn, check_pattern
from counterhoop.parts.places.place import HoleAt
from counterhoop.parts.places.screw import Screw
from counterhoop.parts.places.turn import Span, Standing, both, most_room, turns_of_pair
from counterhoop.scheme.reuse.limits import Limits, Tier

TILT_DEG = 2.0
"""A part that should stand upright may stand so far aslant: more is seen. Common practice, no
source."""
AS_THEY_ARE = Limits(keep_mm=1e6, enlarge_mm=0.0, slot_mm=0.0)
"""Whatever goes through goes, and nothing is cut."""
OFF_STEP_MM = 0.02
"""A hole is enlarged no further than it must be, to this."""


def matches(
    pattern: tuple[PatternHole, ...],
    holes: tuple[HoleAt, ...],
    *,
    turn: Turn = "upright",
    mirror: bool = False,
    limits: Limits = AS_THEY_ARE,
    new_holes: int = 0,
    tilt_deg: float = TILT_DEG,
) -> tuple[Match, ...]:
    """Return every assignment of old holes to a pattern for which the part has a pose.

    A screw goes through when its hole lies no further off than its play in the hole and the travel
    of its slot in the part allow, as for a row of lugs (``scheme.reuse``), and here the part may
    turn as well. None is missed: an assignment is dropped only when two of its screws rule
    each other out at every turn (closed form), or when no pose is left (``most_room``).

    Parameters
    ----------
    pattern, holes : tuple of PatternHole, tuple of HoleAt
        What the part wants, and what is there.
    turn : "upright", "half turn too" or "any"
        How the part may stand, each within ``tilt_deg``.
    mirror : bool
        Whether the part may also be of the other hand.
    limits : Limits
        Shop rules: how far off a hole may be kept, and enlarged (0: no hole is). Slots are not
        cut for a single part.
    new_holes : int
        How many of the pattern may go without an old hole. What a fuller match holds is left out.
    tilt_deg : float
        0 to 90.

    Returns
    -------
    tuple of Match
        Fewest new holes first, then fewest enlarged, then most room.

    Raises
    ------
    BadInput
        For a pattern without holes, or two old holes of one number.

    Examples
    --------
    >>> pattern = tuple(
    ...     PatternHole(right_mm=0, down_mm=d, hole_mm=6, screw_mm=5) for d in (-21, 21)
    ... )
    >>> holes = tuple(HoleAt(along_mm=0, down_mm=d, diameter_mm=6) for d in (0, 30, 42.4))
    >>> [match] = matches(pattern, holes)
    >>> [pair.hole for pair in match.pairs], round(match.slack_mm, 2)
    ([0, 2], 0.3)
    """
    check_pattern(pattern, holes)
    if not 0.0 <= tilt_deg <= 90.0:
        raise BadInput("not a tilt", where="tilt", given=tilt_deg, wanted="0 to 90 degrees")
    found: list[Match] = []
    for mirrored in (False, True) if mirror else (False,):
        laid = Laid(pattern=pattern, holes=holes, limits=limits, mirror=mirrored)
        mine: list[Match] = []
        for without in range(min(new_holes, len(pattern) - 1) + 1):
            held = [_held(match) for match in mine]
            for pairs, spans in _assignments(laid, without, _spans(turn, tilt_deg)):
                if any(set(pairs) <= fuller for fuller in held):
                    continue
                match = _settled(laid, pairs, spans)
                if match is not None:
                    mine.append(match)
        found.extend(mine)
    return tuple(sorted(found, key=_order))


def _order(match: Match) -> tuple[int, int, float, bool, float]:
    cut = sum(pair.tier is not Tier.KEEP for pair in match.pairs)
    room = match.slack_mm if cut < len(match.pairs) else -max(p.off_mm for p in match.pairs)
    return (len(match.new), cut, -room, match.pose.mirrored, abs(match.pose.turn_deg))


def _held(match: Match) -> set[tuple[int, int]]:
    return {(pair.pattern, pair.hole) for pair in match.pairs}


def _spans(turn: Turn, tilt_deg: float) -> list[Span]:
    tilt = math.radians(tilt_deg)
    if turn == "any":
        return [(-math.pi, math.pi)]
    if turn == "half turn too":
        return [(-tilt, tilt), (math.pi - tilt, math.pi + tilt)]
    return [(-tilt, tilt)]


def _assignments(
    laid: Laid, without: int, spans: list[Span]
) -> Iterator[tuple[tuple[tuple[int, int], ...], list[Span]]]:
    """Yield (pattern, hole) pairs that leave ``without`` out and do not rule each other out.

    With them go the turns that every two of their screws allow.
    """
    widest = [
        [
            max(
                (f for tier in Tier if (f := _furthest(laid, w, h, tier)) is not None), default=None
            )
            for h in range(len(laid.holes))
        ]
        for w in range(len(laid.pattern))
    ]

    def further(
        wanted: int, taken: tuple[tuple[int, int], ...], screws: tuple[Screw, ...], left: list[Span]
    ) -> Iterator[tuple[tuple[tuple[int, int], ...], list[Span]]]:
        gone = wanted - len(taken)
        if wanted == len(laid.pattern):
            if gone == without:
                yield taken, left
            return
        if gone < without:
            yield from further(wanted + 1, taken, screws, left)
        for hole in range(len(laid.holes)):
            play = widest[wanted][hole]
            if play is None or any(h == hole for _, h in taken):
                continue
            screw = laid.screw(wanted, hole, play_mm=play)
            still = left
            for other in screws:
                still = both(still, turns_of_pair(other, screw))
            if still:
                yield from further(wanted + 1, (*taken, (wanted, hole)), (*screws, screw), still)

    yield from further(0, (), (), spans)


def _furthest(laid: Laid, wanted: int, hole: int, tier: Tier) -> float | None:
    return None if tier is Tier.SLOT else laid.furthest_mm(wanted, hole, tier)


def _settled(laid: Laid, pairs: tuple[tuple[int, int], ...], spans: list[Span]) -> Match | None:
    """The best pose of an assignment: fewest holes enlarged, those least, then most room."""
    can_stay = [pair for pair in pairs if laid.furthest_mm(*pair, Tier.KEEP) is not None]
    may_cut = laid.limits.enlarge_mm > 0.0
    for stay in range(len(can_stay), -1, -1):
        if stay < len(pairs) and not may_cut:
            return None
        best: tuple[float, Standing, tuple[tuple[int, int], ...]] | None = None
        for kept in combinations(can_stay, stay):
            found = _least_cut(laid, pairs, kept, spans)
            if found is not None and (
                best is None or (found[0], -found[1].room_mm) < (best[0], -best[1].room_mm)
            ):
                best = (*found, kept)
        if best is not None:
            return _match(laid, pairs, best[2], best[1])
    return None


def _least_cut(
    laid: Laid,
    pairs: Sequence[tuple[int, int]],
    kept: Sequence[tuple[int, int]],
    spans: list[Span],
) -> tuple[float, Standing] | None:
    """How far the enlarged must lie off at the least, the kept within their play, and where."""

    def standing(off_mm: float) -> Standing | None:
        screws = [
            laid.screw(*pair, play_mm=off_mm if pair not in kept else _play(laid, pair))
            for pair in pairs
        ]
        return most_room(screws, spans=spans, mirror=laid.mirror)

    low, high = 0.0, laid.limits.enlarge_mm
    there = standing(high)
    if there is None or len(kept) == len(pairs):
        return None if there is None else (0.0, there)
    while high - low > OFF_STEP_MM:
        middle = (low + high) / 2.0
        nearer = standing(middle)
        if nearer is None:
            low = middle
        else:
            high, there = middle, nearer
    return high, there


def _play(laid: Laid, pair: tuple[int, int]) -> float:
    play = laid.furthest_mm(*pair, Tier.KEEP)
    assert play is not None
    return play


def _match(
    laid: Laid,
    pairs: Sequence[tuple[int, int]],
    kept: Sequence[tuple[int, int]],
    there: Standing,
) -> Match:
    made = tuple(
        laid.measured(
            Pair(pattern=w, hole=h, tier=Tier.KEEP if (w, h) in kept else Tier.ENLARGE), there.pose
        )
        for w, h in pairs
    )
    rooms = [_play(laid, (p.pattern, p.hole)) - p.off_mm for p in made if p.tier is Tier.KEEP]
    served = {w for w, _ in pairs}
    return Match(
        pose=there.pose,
        pairs=tuple(replace(p, off_mm=max(0.0, p.off_mm)) for p in made),
        new=tuple(w for w in range(len(laid.pattern)) if w not in served),
        slack_mm=max(0.0, min(rooms, default=0.0)),
        doubt_mm=max(laid.holes[p.hole].doubt_mm for p in made),
    )

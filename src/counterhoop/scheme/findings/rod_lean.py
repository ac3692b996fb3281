"""How far the rods lean along the skin and splay outward, at the hoop's best turn."""

from __future__ import annotations

import math
import statistics

from counterhoop.errors import Finding, Grade
from counterhoop.scheme.findings.afterwards import Afterwards
from counterhoop.scheme.findings.tally import Tally, together
from counterhoop.scheme.findings.wording import figure, first_up
from counterhoop.scheme.heads import HeadPlan
from counterhoop.scheme.hoop_turn import HoopTurn, best_turn, pinned_turn
from counterhoop.scheme.layout import FittingPlan
from counterhoop.scheme.rod_lean import RodLines, rod_lines

RADIUS_DOUBT_MM = together(0.25, 0.5)
"""A rule over the circle of the ears gives its radius to a quarter, and the rods' line to half a
millimetre. Common practice, no source."""


def check_lean(after: Afterwards, tally: Tally, head: HeadPlan) -> None:
    """Hold the worst lean along the skin, then lean and splay together, against the limit."""
    rod = next((plan.rod for plan in after.layout.rods if plan.head == head.head), None)
    lines = rod_lines(head, surface=after.surface, rod=rod)
    if lines is None:
        return
    before = len(tally.findings)
    _along(after, tally, head, lines)
    leans = any(
        f.code == "rod-leans" and f.grade is not Grade.NOTE for f in tally.findings[before:]
    )
    if lines.splay_mm is not None:
        _splay(after, tally, head, lines, with_lean=not leans)


def _along(after: Afterwards, tally: Tally, head: HeadPlan, lines: RodLines) -> None:
    turn, play = lines.turn, lines.play_mm
    at = _farthest_off(turn, lines.offsets_mm)
    lug = head.lugs[at]
    rule, limit = _limit(after, lug)
    doubt = _doubt_deg(after, head, lines, at)
    before = len(tally.findings)
    new = any(other.status == "new" for other in head.lugs)
    hoop_is = "pinned" if lines.pinned else "turned to suit all"
    tally.hold(
        "rod-leans",
        # Below zero while the ear has play left: that much readings may err before it leans.
        math.degrees(math.atan2(turn.pull_mm[at], lines.free_mm[at])),
        limit=limit,
        doubt=doubt,
        grade=Grade.STOP,
        fact=(
            f"with the {head.head} hoop {hoop_is} the rod at {lug.label} leans"
            f" {figure(turn.worst_deg)} degrees, the ear's play of {figure(play)} mm used up"
        ),
        again=f"the gaps on both sides of {lug.label}" if not new else "the gaps between the lugs",
        rule=rule,
        remedy=(
            f"Slot or redrill {lug.label} under its base"
            + (", or free the hoop to turn." if lines.pinned else ".")
        ),
        where=lug.label,
        place=lug.place,
        unit="deg",
        most=True,
    )
    if len(tally.findings) == before:
        seek = pinned_turn if lines.pinned else best_turn
        bare = seek(lines.offsets_mm, free_mm=lines.free_mm, play_mm=0.0)
        _only_by_play(after, tally, head, lug, turn, bare, doubt=doubt)


def _only_by_play(
    after: Afterwards,
    tally: Tally,
    head: HeadPlan,
    lug: FittingPlan,
    turn: HoopTurn,
    bare: HoopTurn,
    *,
    doubt: float,
) -> None:
    """Note a row that stands only because the ears have play or the hoop is turned."""
    rule, limit = _limit(after, lug)
    if bare.worst_deg <= limit:
        return
    side = "right" if bare.turn_mm > 0.0 else "left"
    first = f"turn the {head.head} hoop {figure(abs(bare.turn_mm))} mm to the {side}"
    tally.say(
        Finding(
            code="rod-leans",
            grade=Grade.NOTE,
            says=first_up(
                f"{first} from {head.lugs[0].label}: the rod at {lug.label} then leans"
                f" {figure(turn.worst_deg)} degrees, where without the ear's play it would lean"
                f" {figure(bare.worst_deg)}; your rule is {figure(limit)}."
            ),
            where=lug.label,
            along_deg=lug.place.along_deg,
            down_mm=lug.place.down_mm,
            measured=turn.worst_deg,
            limit=limit,
            doubt=doubt,
            unit="deg",
            rule=rule,
            remedy="It may stay; seat the hoop before the rods are tightened.",
        )
    )


def _splay(
    after: Afterwards, tally: Tally, head: HeadPlan, lines: RodLines, *, with_lean: bool
) -> None:
    """Hold splay, with the lean along the skin where that alone is in order, against the limit."""
    splay = lines.splay_mm or 0.0
    at = max(range(len(head.lugs)), key=lambda rod: lines.lean_deg(rod, along=with_lean))
    lug = head.lugs[at]
    rule, limit = _limit(after, lug)
    new = lug.status == "new" or (head.plan is not None and head.plan.new)
    along = lines.offsets_mm[at] - lines.turn.turn_mm
    beside = (
        f" and {figure(abs(along))} mm aside" if with_lean and abs(along) >= lines.play_mm else ""
    )
    stands = f"{figure(abs(splay))} mm {'outside' if splay > 0.0 else 'inside'}"
    lean = max(lines.lean_deg(at, along=with_lean), 0.0)
    tally.hold(
        "rod-splays",
        lines.lean_deg(at, along=with_lean),
        limit=limit,
        doubt=math.degrees(math.atan2(RADIUS_DOUBT_MM, lines.free_mm[at])),
        grade=Grade.STOP if new else Grade.NOTE,
        fact=(
            f"the ears of the {head.head} hoop stand {stands} the lug mouths{beside}: the rod at"
            f" {lug.label} splays {figure(lean)} degrees, the ear's play of"
            f" {figure(lines.play_mm)} mm used up"
        ),
        again="the circle of the ears and how far the rods' line stands from the shell",
        rule=rule,
        remedy=(
            "Take a hoop whose ears stand over the lug mouths, or "
            + ("lugs that stand further out." if splay > 0.0 else "lower lugs.")
        ),
        where=f"{head.head} hoop",
        unit="deg",
        most=True,
    )


def _limit(after: Afterwards, lug: FittingPlan) -> tuple[str, float]:
    """Return the rule for a lug's thread, by name, and what it says."""
    rules = after.rules
    if lug.fitting.swivel:
        return "lean_swivel_deg", rules.lean_swivel_deg
    return "lean_fixed_deg", rules.lean_fixed_deg


def _farthest_off(turn: HoopTurn, offsets: tuple[float, ...]) -> int:
    """Of the rods that lean most, the one whose lug is farthest from where the others stand."""
    middle = statistics.median(offsets)
    worst = [i for i, lean in enumerate(turn.lean_deg) if lean >= turn.worst_deg - 1e-9]
    return max(worst, key=lambda i: abs(offsets[i] - middle))


def _doubt_deg(after: Afterwards, head: HeadPlan, lines: RodLines, at: int) -> float:
    """Doubt of the worst lean from the readings of the lugs at both ends of the offsets."""
    offsets = lines.offsets_mm
    doubts = [_lug_doubt_mm(after, lug) for lug in head.lugs]
    left = min(range(len(offsets)), key=lambda i: offsets[i])
    right = max(range(len(offsets)), key=lambda i: offsets[i])
    doubt = together(doubts[left], doubts[right]) / (1.0 if lines.pinned else 2.0)
    return math.degrees(math.atan2(doubt, lines.free_mm[at]))


def _lug_doubt_mm(after: Afterwards, lug: FittingPlan) -> float:
    """Doubt of a lug's place along: the mean of its holes' readings."""
    doubts = [o.doubt_mm for o in after.openings if o.number in lug.holes]
    return together(*doubts) / len(doubts) if doubts else 0.0

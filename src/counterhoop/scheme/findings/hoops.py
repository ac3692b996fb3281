"""The hoop at full travel, the lean of the rods, and ears against lugs."""

from __future__ import annotations

import math
import statistics

from counterhoop.errors import Finding, Grade
from counterhoop.fittings.entry import Kind
from counterhoop.scheme.ears import agreeing
from counterhoop.scheme.findings.afterwards import Afterwards, Base
from counterhoop.scheme.findings.tally import Tally, together
from counterhoop.scheme.findings.wording import both, counted, figure, first_up, the
from counterhoop.scheme.heads import LUGS, HeadPlan, heads_of
from counterhoop.scheme.hoop_turn import HoopTurn, best_turn, offsets_from_even_mm, pinned_turn
from counterhoop.scheme.layout import FittingPlan
from counterhoop.scheme.threading import major_mm

NOT_UNDER_A_HOOP = frozenset({*LUGS, Kind.STRAINER, Kind.BUTT})


def check_hoops(after: Afterwards, tally: Tally) -> None:
    """Go through both heads: travel, ears, lean."""
    for head in heads_of(after.layout):
        _travel(after, tally, head)
        if not _ears(after, tally, head):
            _lean(after, tally, head)


def _travel(after: Afterwards, tally: Tally, head: HeadPlan) -> None:
    hoop, rules = head.hoop, after.rules
    if hoop is None or hoop.below_edge_mm is None:
        return
    lowest = hoop.below_edge_mm + rules.head_stretch_mm
    bases = {base.label: base for base in after.bases}
    for mouth in head.mouths:
        lug = mouth.lug
        top = mouth.below_edge_mm
        if lug.label in bases:
            top = min(top, _base_below_edge_mm(after, bases[lug.label], head))
        new = lug.status == "new" or (head.plan is not None and head.plan.new)
        left = top - lowest
        tally.hold(
            "hoop-near-lug" if left >= 0.0 else "hoop-on-lug",
            left,
            limit=rules.mouth_below_hoop_mm,
            doubt=0.0 if lug.status == "new" else 0.5,
            grade=Grade.STOP if new else Grade.NOTE,
            fact=(
                f"at full travel the {head.head} hoop stops {figure(left)} mm above {lug.label}"
                if left >= 0.0
                else f"the {head.head} hoop comes down on {lug.label}, {figure(-left)} mm too far"
            ),
            again=f"the height of {lug.label}",
            rule="mouth_below_hoop_mm",
            rule_says="" if left < 0.0 else None,
            remedy="Set the lug lower, or take a hoop that reaches less far down.",
            where=lug.label,
            place=lug.place,
            counts=new,
        )
    for base in after.bases:
        if base.plan.fitting.kind not in NOT_UNDER_A_HOOP:
            _under_hoop(after, tally, head, base, lowest=lowest)


def _under_hoop(
    after: Afterwards, tally: Tally, head: HeadPlan, base: Base, *, lowest: float
) -> None:
    left = _base_below_edge_mm(after, base, head) - lowest
    new = base.new or (head.plan is not None and head.plan.new)
    tally.hold(
        "hoop-meets-fitting",
        left,
        limit=0.0,
        doubt=base.doubt_mm,
        grade=Grade.STOP if new else Grade.NOTE,
        fact=(
            f"at full travel the {head.head} hoop comes {figure(-left)} mm over {the(base.label)}"
            if left < 0.0
            else f"at full travel the {head.head} hoop stops {figure(left)} mm above"
            f" {the(base.label)}"
        ),
        again=f"the height of {the(base.label)}",
        rule="head_stretch_mm",
        remedy=f"Move {the(base.label)} away from the edge.",
        where=base.label,
        place=base.place,
        counts=new,
    )


def _base_below_edge_mm(after: Afterwards, base: Base, head: HeadPlan) -> float:
    _, top, _, bottom = base.box_mm
    down = base.place.down_mm + (top if head.head == "batter" else bottom)
    return after.flat.from_end_mm(down, end=head.head, along_deg=base.place.along_deg)


def _ears(after: Afterwards, tally: Tally, head: HeadPlan) -> bool:
    """Say when the hoop has another number of ears than the row has lugs."""
    hoop = head.hoop
    if hoop is None or hoop.ears is None or hoop.ears == len(head.lugs):
        return False
    along = [lug.place.along_deg for lug in head.lugs]
    agree = agreeing(along, ears=hoop.ears, surface=after.surface, within_mm=after.rules.keep_mm)
    each = max((len(lug.fitting.holes) for lug in head.lugs), default=0)
    plugged, drilled = agree.lugs_off, agree.lugs_new
    lugs = counted(len(head.lugs), f"{head.head} lug")
    where = both(head.lugs[i].label for i in agree.kept) or "none"
    verb = "agrees" if len(agree.kept) == 1 else "agree"
    tally.say(
        Finding(
            code="ears-against-lugs",
            grade=Grade.STOP,
            says=(
                f"{first_up(lugs)} want as many ears and {hoop.name} has {hoop.ears}: {where}"
                f" {verb}, and to make the row fit means {counted(len(agree.kept), 'lug')} kept,"
                f" {plugged} taken off and {drilled} put on:"
                f" {counted(plugged * each, 'plug')} and {counted(drilled * each, 'new hole')}."
            ),
            where=f"{head.head} hoop",
            measured=float(hoop.ears),
            limit=float(len(head.lugs)),
            unit="",
            rule="as many ears as lugs",
            remedy=f"Find a hoop with {len(head.lugs)} ears: it costs less than the work.",
        )
    )
    return True


def _lean(after: Afterwards, tally: Tally, head: HeadPlan) -> None:
    """Hold the worst lean, at the best turn of the hoop, against the thread's limit."""
    free = [_free_mm(head, lug) for lug in head.lugs]
    known = [f for f in free if f is not None and f > 0.0]
    if len(known) != len(head.lugs) or len(head.lugs) < 2:
        return
    offsets = _offsets_mm(after, head)
    play = _play_mm(after, head)
    pinned = head.plan is not None and head.plan.pinned
    seek = pinned_turn if pinned else best_turn
    turn = seek(offsets, free_mm=known, play_mm=play)
    at = _farthest_off(turn, offsets)
    lug = head.lugs[at]
    rules = after.rules
    limit = rules.lean_swivel_deg if lug.fitting.swivel else rules.lean_fixed_deg
    doubt = _doubt_deg(after, head, offsets, free_mm=known[at], pinned=pinned)
    before = len(tally.findings)
    new = any(other.status == "new" for other in head.lugs)
    hoop_is = "pinned" if pinned else "turned to suit all"
    tally.hold(
        "rod-leans",
        # Below zero while the ear has play left: that much readings may err before it leans.
        math.degrees(math.atan2(turn.pull_mm[at], known[at])),
        limit=limit,
        doubt=doubt,
        grade=Grade.STOP,
        fact=(
            f"with the {head.head} hoop {hoop_is} the rod at {lug.label} leans"
            f" {figure(turn.worst_deg)} degrees, the ear's play of {figure(play)} mm used up"
        ),
        again=f"the gaps on both sides of {lug.label}" if not new else "the gaps between the lugs",
        rule="lean_swivel_deg" if lug.fitting.swivel else "lean_fixed_deg",
        remedy=(
            f"Slot or redrill {lug.label} under its base"
            + (", or free the hoop to turn." if pinned else ".")
        ),
        where=lug.label,
        place=lug.place,
        unit="deg",
        most=True,
    )
    if len(tally.findings) == before:
        bare = seek(offsets, free_mm=known, play_mm=0.0)
        _only_by_play(tally, head, lug, turn, bare, limit=limit, doubt=doubt)


def _only_by_play(
    tally: Tally,
    head: HeadPlan,
    lug: FittingPlan,
    turn: HoopTurn,
    bare: HoopTurn,
    *,
    limit: float,
    doubt: float,
) -> None:
    """Note a row that stands only because the ears have play or the hoop is turned."""
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
            rule="lean_swivel_deg" if lug.fitting.swivel else "lean_fixed_deg",
            remedy="It may stay; seat the hoop before the rods are tightened.",
        )
    )


def _farthest_off(turn: HoopTurn, offsets: tuple[float, ...]) -> int:
    """Of the rods that lean most, the one whose lug is farthest from where the others stand."""
    middle = statistics.median(offsets)
    worst = [i for i, lean in enumerate(turn.lean_deg) if lean >= turn.worst_deg - 1e-9]
    return max(worst, key=lambda i: abs(offsets[i] - middle))


def _offsets_mm(after: Afterwards, head: HeadPlan) -> tuple[float, ...]:
    """Offsets on the circle of the rods, which lies outside the skin by the rods' line."""
    lines = [lug.fitting.rod_line_mm or 0.0 for lug in head.lugs]
    radius = after.surface.radius_mm + sum(lines) / len(lines)
    along = [math.radians(lug.place.along_deg) * radius for lug in head.lugs]
    return offsets_from_even_mm(along, girth_mm=2.0 * math.pi * radius)


def _free_mm(head: HeadPlan, lug: FittingPlan) -> float | None:
    if lug.fitting.free_rod_mm is not None:
        return lug.fitting.free_rod_mm
    hoop = head.hoop
    if hoop is None or hoop.seat_below_edge_mm is None:
        return None
    depth = [m.below_edge_mm for m in head.mouths if m.lug is lug]
    return min(depth) - hoop.seat_below_edge_mm if depth else None


def _play_mm(after: Afterwards, head: HeadPlan) -> float:
    hoop = head.hoop
    if hoop is None or hoop.ear_hole_mm is None:
        return 0.0
    rods = [plan.rod for plan in after.layout.rods if plan.head == head.head]
    shank = rods[0].shank_mm if rods and rods[0] is not None else None
    thick = shank or major_mm(head.lugs[0].fitting.thread)
    return 0.0 if thick is None else max(hoop.ear_hole_mm - thick, 0.0) / 2.0


def _doubt_deg(
    after: Afterwards, head: HeadPlan, offsets: tuple[float, ...], *, free_mm: float, pinned: bool
) -> float:
    """Doubt of the worst lean from the readings of the lugs at both ends of the offsets."""
    doubts = [_lug_doubt_mm(after, lug) for lug in head.lugs]
    left = min(range(len(offsets)), key=lambda i: offsets[i])
    right = max(range(len(offsets)), key=lambda i: offsets[i])
    doubt = together(doubts[left], doubts[right]) / (1.0 if pinned else 2.0)
    return math.degrees(math.atan2(doubt, free_mm))


def _lug_doubt_mm(after: Afterwards, lug: FittingPlan) -> float:
    """Doubt of a lug's place along: the mean of its holes' readings."""
    doubts = [o.doubt_mm for o in after.openings if o.number in lug.holes]
    return together(*doubts) / len(doubts) if doubts else 0.0

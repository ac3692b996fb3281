"""The hoop at full travel; ears and lean have files of their own."""

from __future__ import annotations

from counterhoop.errors import Grade
from counterhoop.fittings.entry import Kind
from counterhoop.scheme.findings.afterwards import Afterwards, Base
from counterhoop.scheme.findings.ears import check_ears
from counterhoop.scheme.findings.rod_lean import check_lean
from counterhoop.scheme.findings.tally import Tally
from counterhoop.scheme.findings.wording import figure, the
from counterhoop.scheme.heads import LUGS, HeadPlan, heads_of

NOT_UNDER_A_HOOP = frozenset({*LUGS, Kind.STRAINER, Kind.BUTT})


def check_hoops(after: Afterwards, tally: Tally) -> None:
    """Go through both heads: travel, ears, lean and splay."""
    for head in heads_of(after.layout):
        _travel(after, tally, head)
        if not check_ears(after, tally, head):
            check_lean(after, tally, head)


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
            top = min(top, base_below_edge_mm(after, bases[lug.label], head))
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
    left = base_below_edge_mm(after, base, head) - lowest
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


def base_below_edge_mm(after: Afterwards, base: Base, head: HeadPlan) -> float:
    """How far below its edge a head's hoop would meet a base."""
    _, top, _, bottom = base.box_mm
    down = base.place.down_mm + (top if head.head == "batter" else bottom)
    return after.flat.from_end_mm(down, end=head.head, along_deg=base.place.along_deg)

"""Bases against each other, against the badge and brackets, and against the vent."""

from __future__ import annotations

import math

from counterhoop.development.place import Place
from counterhoop.development.polygon import gap_mm, hole_gap_mm
from counterhoop.errors import Grade
from counterhoop.fittings.entry import Kind
from counterhoop.scheme.clearances import clearance
from counterhoop.scheme.findings.afterwards import Afterwards, Base
from counterhoop.scheme.findings.tally import Tally, together
from counterhoop.scheme.findings.wording import figure, the

LININGS = frozenset({Kind.BADGE, Kind.VENT, Kind.GROMMET})
"""These stand in and over each other by design: a badge is often held by the vent's grommet."""
LYING_BETWEEN = frozenset({Kind.WASHER, Kind.GASKET})
RULES = {
    "between lug ends": "lug_ends_mm",
    "lug to bracket": "lug_bracket_mm",
    "lug to badge": "lug_badge_mm",
}


def check_bases(after: Afterwards, tally: Tally) -> None:
    """Hold the gap between every two bases against the rule for what they are."""
    rules, girth = after.rules, after.surface.circumference_mm
    widest = max(rules.lug_ends_mm, rules.lug_badge_mm, rules.lug_bracket_mm)
    for index, one in enumerate(after.bases):
        for other in after.bases[index + 1 :]:
            least = _boxes_apart_mm(one, other, girth)
            new = one.new or other.new
            if least > widest + max(tally.margin_mm, 1.0):
                continue
            kinds = {one.plan.fitting.kind, other.plan.fitting.kind}
            if kinds <= LININGS or kinds & LYING_BETWEEN:
                continue
            wanted = clearance(one.plan.fitting.kind, other.plan.fitting.kind, rules=rules)
            doubt = together(one.doubt_mm, other.doubt_mm)
            if not tally.worth(least, limit=wanted.mm, doubt=doubt, counts=new):
                continue
            gap = gap_mm(one.outline, one.place, other.outline, other.place, surface=after.surface)
            first, second = (one, other) if one.new or not other.new else (other, one)
            tally.hold(
                "bases-overlap" if gap < 0.0 else "bases-near",
                gap,
                limit=wanted.mm,
                doubt=doubt,
                grade=Grade.STOP if new else Grade.NOTE,
                fact=_says(the(first.label), the(second.label), gap),
                again=" and ".join(b.label for b in (first, second) if not b.new),
                rule=RULES.get(wanted.rule, wanted.rule),
                rule_says="" if gap < 0.0 else None,
                remedy=f"Turn or move one of them, or take {the(second.label)} off.",
                where=f"{first.label} and {second.label}",
                place=first.place,
                counts=new,
            )


def check_vents(after: Afterwards, tally: Tally) -> None:
    """Hold bases against a vent that is a plain hole; a lining round it counts as a base."""
    for vent in (opening for opening in after.openings if opening.is_vent and not opening.of):
        radius = max(vent.shape.size_mm) / 2
        for base in after.bases:
            if base.plan.fitting.kind in LININGS or vent.number in base.plan.holes:
                continue
            limit = clearance(base.plan.fitting.kind, Kind.VENT, rules=after.rules).mm
            doubt = together(vent.doubt_mm, base.doubt_mm)
            least = _box_to_mm(base, vent.place, after) - radius
            if not tally.worth(least, limit=limit, doubt=doubt, counts=base.new):
                continue
            gap = hole_gap_mm(
                base.outline, base.place, vent.place, vent.shape, surface=after.surface
            )
            tally.hold(
                "base-on-vent" if gap < 0.0 else "base-near-vent",
                gap,
                limit=limit,
                doubt=doubt,
                grade=Grade.STOP if base.new else Grade.NOTE,
                fact=_says(base.label, "the vent", gap),
                again=f"hole {vent.number}",
                rule="lug_badge_mm" if limit else "bases must not touch",
                rule_says="" if gap < 0.0 else None,
                remedy="Turn the row half a lug spacing along, or move it off the vent.",
                where=f"{base.label} and the vent",
                place=base.place,
                holes=(vent.number,),
                counts=base.new,
            )


def _says(one: str, other: str, gap: float) -> str:
    if gap < 0.0:
        return f"{one} overlaps {other} by {figure(-gap)} mm"
    return f"{one} stands {figure(gap)} mm from {other}"


def _boxes_apart_mm(one: Base, other: Base, girth_mm: float) -> float:
    """Lower bound of the gap, from the boxes; below 0 when they overlap."""
    a, b = one.box_mm, other.box_mm
    along = math.remainder(other.along_mm - one.along_mm, girth_mm)
    down = other.plan.place.down_mm - one.plan.place.down_mm
    y = max(b[1] + down - a[3], a[1] - down - b[3])
    x = min(
        max(b[0] + s - a[2], a[0] - s - b[2]) for s in (along, along + girth_mm, along - girth_mm)
    )
    if x > 0.0 and y > 0.0:
        return math.hypot(x, y)
    return max(x, y)


def _box_to_mm(base: Base, place: Place, after: Afterwards) -> float:
    left, top, right, bottom = base.box_mm
    along = after.surface.apart_mm(base.place.along_deg, place.along_deg)
    down = place.down_mm - base.place.down_mm
    x = max(left - along, along - right)
    y = max(top - down, down - bottom)
    return math.hypot(x, y) if x > 0.0 and y > 0.0 else max(x, y)

"""How much may come off each end, evenly all round, until something stops it, and what does."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import get_args

from counterhoop.development.flat import End
from counterhoop.development.web import to_edge_mm
from counterhoop.fittings.entry import Kind
from counterhoop.scheme.findings.afterwards import Afterwards, afterwards
from counterhoop.scheme.findings.hoops import NOT_UNDER_A_HOOP, base_below_edge_mm
from counterhoop.scheme.findings.wording import figure, holes_named, the
from counterhoop.scheme.heads import HeadPlan, heads_of
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.rods import rod_stacks
from counterhoop.shell.shop_rules import ShopRules

SAME_MM = 0.05
"""Limits nearer together than this print alike and are said as one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Budget:
    """What one edge can lose on top of what the layout takes off it already.

    Attributes
    ----------
    end : {"batter", "resonant"}
        Which edge.
    most_mm : float
        Even removal at which the first limit is reached.
    stopped_by : str
        What that is, in words.
    limits : tuple of (str, float)
        Everything that would stop it, the nearest first.
    already : tuple of str
        What is past its limit before anything comes off. A hole then counts again where the edge
        would run through it, a lug where the hoop would come down on it.
    not_counted : str
        What would stop it as well and is not known, a sentence; mostly the hoop.
    """

    end: End
    most_mm: float
    stopped_by: str
    limits: tuple[tuple[str, float], ...]
    already: tuple[str, ...] = ()
    not_counted: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Limit:
    """``what`` may hold ``{}`` for the holes or labels that share it."""

    what: str
    mm: float
    hole: int | None = None
    label: str = ""


def budgets(layout: Layout, *, rules: ShopRules) -> tuple[Budget, ...]:
    """Return the budget of each end at which anything would stop it.

    Every limit falls by just what comes off evenly, so each is a difference of two lengths at its
    own place round the rim; a slanting cut counts by what it left there.

    Parameters
    ----------
    layout : Layout
        As found for the budget before the first stroke; a scheme's for what is left after its
        truing. Rods are those that the layout has chosen.
    rules : ShopRules
        Wood to the edge, ring, hoop travel, rods and rows off the middle.
    """
    after = afterwards(layout, rules=rules)
    found = []
    for end in get_args(End):
        limits = _gathered(list(_limits(after, end)))
        ahead = tuple((what, mm) for what, mm in limits if mm >= -SAME_MM)
        if ahead:
            found.append(
                Budget(
                    end=end,
                    most_mm=max(ahead[0][1], 0.0),
                    stopped_by=ahead[0][0],
                    limits=ahead,
                    already=tuple(what for what, mm in limits if mm < -SAME_MM),
                    not_counted=_not_counted(after, end),
                )
            )
    return tuple(found)


def _not_counted(after: Afterwards, end: End) -> str:
    head = next((h for h in heads_of(after.layout) if h.head == end), None)
    if head is None or (head.hoop is not None and head.hoop.below_edge_mm is not None):
        return ""
    return "The hoop and the rods may stop it sooner: no hoop is known, so they are not counted."


def _limits(after: Afterwards, end: End) -> Iterator[_Limit]:
    yield from _holes(after, end)
    yield from _ring(after, end)
    head = next((h for h in heads_of(after.layout) if h.head == end), None)
    if head is not None:
        yield from _hoop(after, head)
        yield from _rods(after, end)
    yield from _long_lugs(after, end)


def _holes(after: Afterwards, end: End) -> Iterator[_Limit]:
    wood = after.rules.edge_mm
    for opening in after.openings:
        left = to_edge_mm(opening.place, opening.shape, flat=after.flat, end=end)
        said = f"{{}}: {figure(wood)} mm of wood to the edge is your rule"
        yield _Limit(what=said, mm=left - wood, hole=opening.number)
        if left < wood - SAME_MM:
            yield _Limit(what="{}: the edge runs through", mm=left, hole=opening.number)
    for plug in after.plugs:
        left = to_edge_mm(plug.place, plug.shape, flat=after.flat, end=end)
        said = "{}, plugged: the edge runs through"
        yield _Limit(what=said, mm=left, hole=plug.numbers[0])


def _ring(after: Afterwards, end: End) -> Iterator[_Limit]:
    least = after.rules.ring_left_mm
    for ring in after.flat.rings:
        if ring.end == end:
            narrow = ring.wide_mm - math.hypot(ring.wide_cos_mm, ring.wide_sin_mm)
            yield _Limit(what=f"the ring: {figure(least)} mm of it must stay", mm=narrow - least)


def _hoop(after: Afterwards, head: HeadPlan) -> Iterator[_Limit]:
    hoop, rules = head.hoop, after.rules
    if hoop is None or hoop.below_edge_mm is None:
        return
    lowest = hoop.below_edge_mm + rules.head_stretch_mm
    bases = {base.label: base for base in after.bases}
    for mouth in head.mouths:
        label, top = mouth.lug.label, mouth.below_edge_mm
        if label in bases:
            top = min(top, base_below_edge_mm(after, bases[label], head))
        left = top - lowest - rules.mouth_below_hoop_mm
        yield _Limit(what="{}: the hoop at full travel", mm=left, label=label)
        if left < -SAME_MM:
            down = "{}: the hoop comes down on it"
            yield _Limit(what=down, mm=top - lowest, label=label)
    for base in after.bases:
        if base.plan.fitting.kind not in NOT_UNDER_A_HOOP:
            left = base_below_edge_mm(after, base, head) - lowest
            yield _Limit(what="{}: the hoop comes down on it", mm=left, label=base.label)


def _rods(after: Afterwards, end: End) -> Iterator[_Limit]:
    stacks = rod_stacks(after.layout, rules=after.rules)
    for plan in after.layout.rods:
        stack = next((s for s in stacks if (s.head, s.thread) == (end, plan.thread)), None)
        if plan.head != end or stack is None or plan.rod is None:
            continue
        if plan.rod.rod_length_mm is None:
            continue
        length = f"{plan.rod.rod_length_mm:g}"
        room = stack.most_mm(plan.rod) - plan.rod.rod_length_mm
        if math.isfinite(room):
            said = f"the {end} rods of {length} mm: too long for the lugs then, take shorter ones"
            yield _Limit(what=said, mm=room)
        yield _Limit(
            what=f"the {end} rods of {length} mm: their plain shank meets the lugs",
            mm=stack.shank_left_mm(plan.rod, rules=after.rules),
        )


def _long_lugs(after: Afterwards, end: End) -> Iterator[_Limit]:
    """What comes off one end moves the middle by half of it."""
    for lug in after.layout.standing:
        if lug.fitting.kind is not Kind.LONG_LUG or lug.status != "new":
            continue
        middle = after.flat.depth_at_mm(lug.place.along_deg) / 2.0
        below = lug.height_mm(lug.fitting.middle_down_mm) - middle
        # With wood off the batter end the lug comes to stand higher, off the other end lower.
        toward = below if end == "batter" else -below
        yield _Limit(
            what="{}: too far off the middle, drilled as planned",
            mm=2.0 * (after.rules.off_middle_mm + toward),
            label=lug.label,
        )


def _gathered(limits: list[_Limit]) -> list[tuple[str, float]]:
    """Say once what several holes or lugs share, the nearest first."""
    groups: dict[tuple[str, int], list[_Limit]] = {}
    for limit in sorted(limits, key=lambda one: one.mm):
        groups.setdefault((limit.what, round(limit.mm / SAME_MM / 2.0)), []).append(limit)
    return [(group[0].what.format(_named(group)), group[0].mm) for group in groups.values()]


def _named(group: list[_Limit]) -> str:
    holes = [limit.hole for limit in group if limit.hole is not None]
    if holes:
        return holes_named(holes, most=4)
    labels = [the(limit.label) for limit in group if limit.label]
    return (
        labels[0]
        if len(labels) == 1
        else f"{labels[0]} and {len(labels) - 1} more"
        if labels
        else ""
    )

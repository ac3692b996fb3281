"""Plugs wide enough to be drilled again: one round the old holes and the new ones beside them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import TypeAlias

from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape
from counterhoop.development.surface import Surface
from counterhoop.development.web import webs_across
from counterhoop.scheme.draft import Cut, Draft
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.shop_rules import ShopRules

Spot: TypeAlias = tuple[Place, HoleShape]


@dataclass(frozen=True, slots=True, kw_only=True)
class WidePlug:
    """One plug; ``fills`` are the old holes that it takes in, by number."""

    place: Place
    diameter_mm: float
    fills: tuple[int, ...]


def shared_plugs(
    cuts: Sequence[Cut], left: Sequence[HolePlan], *, draft: Draft, rules: ShopRules
) -> dict[int, WidePlug]:
    """Plan the plugs for new holes that run into old ones, or stand nearer than a plug's rule.

    New holes that are near the same old hole share one plug: two cannot be bored into each other.

    Parameters
    ----------
    cuts : sequence of Cut
        The new holes.
    left : sequence of HolePlan
        The old holes that nothing uses; those that are, or will be, plugged count.

    Returns
    -------
    dict
        By the place of the new hole in ``cuts``; a hole in sound wood is not in it.
    """
    flat = draft.ground.flat
    closed = [
        (plan, plan.old)
        for plan in left
        if plan.verdict in (Verdict.PLUG, Verdict.PLUGGED_ALREADY) and plan.old is not None
    ]
    plugs: dict[int, WidePlug] = {}
    groups: list[tuple[list[int], dict[int, Spot]]] = []
    runs_into = webs_across(
        [(cut.place, cut.shape) for cut in cuts],
        [(plan.place, old) for plan, old in closed],
        flat=flat,
        limit_mm=rules.plug_web_mm,
    )
    for i, pairs in groupby(runs_into, key=lambda pair: pair.first):
        met = [closed[pair.second] for pair in pairs]
        near = {plan.number: (plan.place, old) for plan, old in met}
        mine, old = [i], near
        for group in [g for g in groups if g[1].keys() & near.keys()]:
            groups.remove(group)
            mine, old = [*group[0], *mine], {**group[1], **old}
        groups.append((mine, old))
    for those, old in groups:
        place, diameter_mm = plug_round(
            [(cuts[i].place, cuts[i].shape) for i in those],
            list(old.values()),
            surface=flat.surface,
            rules=rules,
        )
        plug = WidePlug(place=place, diameter_mm=diameter_mm, fills=tuple(sorted(old)))
        plugs |= dict.fromkeys(those, plug)
    return plugs


def plug_round(
    new: Sequence[Spot], old: Sequence[Spot], *, surface: Surface, rules: ShopRules
) -> tuple[Place, float]:
    """Centre and diameter of one plug that takes in old holes and can be drilled anew.

    It lies between the new holes and the old ones, holds the old holes whole, leaves
    ``rules.plug_web_mm`` round each new hole and is at least ``rules.plug_factor`` times as wide.
    Rounded up to half a millimetre, the step in which plug cutters are sold (common practice,
    no source).
    """
    first = new[0][0]

    def flat(spot: Spot) -> tuple[float, float, float]:
        place, shape = spot
        along_mm = surface.apart_mm(first.along_deg, place.along_deg)
        return along_mm, place.down_mm, shape.around_mm / 2.0

    rooms = [(x, y, r + rules.plug_web_mm) for x, y, r in map(flat, new)]
    rooms += map(flat, old)
    x = sum(room[0] for room in rooms) / len(rooms)
    y = sum(room[1] for room in rooms) / len(rooms)
    radius = max(math.hypot(rx - x, ry - y) + r for rx, ry, r in rooms)
    widest_mm = max(shape.around_mm for _, shape in new)
    least_mm = max(2.0 * radius, rules.plug_factor * widest_mm)
    centre = Place(first.along_deg + surface.along_deg(x), y)
    return centre, math.ceil(2.0 * least_mm - 1e-6) / 2.0

"""How far apart two fittings must stand, by what they are."""

from __future__ import annotations

from typing import NamedTuple

from counterhoop.fittings.entry import Kind
from counterhoop.shell.shop_rules import ShopRules

LUGS = frozenset({Kind.LUG, Kind.LONG_LUG})
BRACKETS = frozenset(
    {Kind.BRACKET, Kind.LEG_BRACKET, Kind.SPUR, Kind.STRAINER, Kind.BUTT, Kind.DAMPER}
)
SMALL = frozenset({Kind.BADGE, Kind.VENT, Kind.GROMMET, Kind.COVER_PLATE})


class Clearance(NamedTuple):
    """A distance and the shop rule that it comes from."""

    mm: float
    rule: str


def clearance(one: Kind, other: Kind, *, rules: ShopRules) -> Clearance:
    """Return the clearance wanted between the bases of two fittings.

    Lug to lug, lug to bracket and lug to badge have rules of their own; anything else must only
    not touch.
    """
    kinds = {one, other}
    if kinds <= LUGS:
        return Clearance(rules.lug_ends_mm, "between lug ends")
    if kinds & LUGS and kinds & BRACKETS:
        return Clearance(rules.lug_bracket_mm, "lug to bracket")
    if kinds & LUGS and kinds & SMALL:
        return Clearance(rules.lug_badge_mm, "lug to badge")
    return Clearance(0.0, "bases must not touch")

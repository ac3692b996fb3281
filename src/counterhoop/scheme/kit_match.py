"""Whether the schemes of two drums look alike, and in what they differ."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import combinations

from counterhoop.errors import BadInput
from counterhoop.scheme.plan import EDGES_AND_FINISH, Scheme
from counterhoop.shell.shop_rules import ShopRules

SLACK_DEG = 1e-9  # an angle at the limit counts as within it, whatever the last bit says


class Aspect(StrEnum):
    """What is compared between drums that must match."""

    PATTERN = "pattern"
    FITTINGS = "fittings"
    BADGE = "badge"


@dataclass(frozen=True, slots=True, kw_only=True)
class Differing:
    """Two drums of a match group that do not match, and in what."""

    first: str
    second: str
    aspects: tuple[Aspect, ...]


def aspects_differing(first: Scheme, second: Scheme, *, rules: ShopRules) -> tuple[Aspect, ...]:
    """Return in what two drums would differ: pattern, family and finish, or badge-to-lug angle.

    A drum without a badge differs from none in the angle, and one of which only edges or finish
    are done from none in the pattern.
    """
    found = []
    patterns = {first.pattern, second.pattern} - {EDGES_AND_FINISH}
    if len(patterns) > 1:
        found.append(Aspect.PATTERN)
    if first.family != second.family:
        found.append(Aspect.FITTINGS)
    apart = badges_apart_deg(first, second)
    if apart is not None and apart > rules.match_deg + SLACK_DEG:
        found.append(Aspect.BADGE)
    return tuple(found)


def badges_apart_deg(first: Scheme, second: Scheme) -> float | None:
    """Return by how much the badge-to-lug angles of two drums differ; None without two badges.

    A badge in the middle between two lugs is as far from one as from the other, and which of
    them is the nearest hangs on a hair. So each badge is taken to the lug on either side, and the
    two readings that agree best are compared.
    """
    if first.badge_deg is None or second.badge_deg is None:
        return None
    return min(
        abs((a - b + 180.0) % 360.0 - 180.0)
        for a in _either_side(first, first.badge_deg)
        for b in _either_side(second, second.badge_deg)
    )


def pairs_to_match(
    groups: Iterable[Sequence[str]], *, drums: Sequence[str]
) -> tuple[tuple[str, str], ...]:
    """Return every two drums that must match, once each, in the order of the drums.

    Raises
    ------
    BadInput
        For a name that is no drum's.
    """
    found = set()
    for group in groups:
        for name in group:
            if name not in drums:
                raise BadInput(
                    "no drum of that name to match",
                    where="match",
                    given=name,
                    wanted=f"one of {', '.join(drums)}",
                )
        places = sorted({drums.index(name) for name in group})
        found |= set(combinations(places, 2))
    return tuple((drums[a], drums[b]) for a, b in sorted(found))


def _either_side(scheme: Scheme, badge_deg: float) -> tuple[float, ...]:
    lugs = len(scheme.layout.lugs("batter"))
    if not lugs:
        return (badge_deg,)
    spacing = 360.0 / lugs
    return (badge_deg, badge_deg - spacing if badge_deg > 0 else badge_deg + spacing)

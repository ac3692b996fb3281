"""How often what is said of simulated drums is so: spans, and parts that are said to be later."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from simulated_drums import Drum

from counterhoop.evidence.ground import Ground
from counterhoop.evidence.in_use import Array, span_weight
from counterhoop.evidence.originality import PERIOD_YEARS, origins_of
from counterhoop.evidence.seen import Seen
from counterhoop.evidence.span import ODDS, spans_of
from counterhoop.evidence.year import p_year

Dating = Callable[[Sequence[Seen], Ground], Array]
WITHIN = 0.01
WITHIN_WHERE_A_STATED_FACT_IS_WRONG = 0.015
"""For drums made half as often again in later years, against what the reference states of that:
measured 0.0105 at even odds over 10,000, on the side of holding the year too often."""
FULL_COUNT = 10_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """Spans for one share of the odds."""

    odds: float
    stated: float
    held: float
    count: int
    median_years: float
    within: float

    @property
    def off(self) -> float:
        return self.held - self.stated

    @property
    def allowed(self) -> float:
        """One part in a hundred over 10,000; over fewer drums four standard errors of a share."""
        if self.count >= FULL_COUNT:
            return self.within
        return 4.0 * math.sqrt(self.stated * (1.0 - self.stated) / self.count)

    @property
    def good(self) -> bool:
        return abs(self.off) <= self.allowed


def by_the_tool(seen: Sequence[Seen], ground: Ground) -> Array:
    return p_year(seen, ground).p


def levels(
    drums: Sequence[Drum], ground: Ground, *, dating: Dating = by_the_tool, within: float = WITHIN
) -> list[Level]:
    """Date every drum and count how often its year lies in the spans."""
    found = []
    for drum in drums:
        spans = spans_of(ground.years, dating(drum.seen, ground))
        found.append(
            [
                (span.odds, span.first <= drum.year <= span.last, span.wide)
                for span in spans.values()
            ]
        )
    table = np.array(found, dtype=float)
    return [
        Level(
            odds=odds,
            stated=float(table[:, at, 0].mean()),
            held=float(table[:, at, 1].mean()),
            count=len(drums),
            within=within,
            median_years=float(np.median(table[:, at, 2])),
        )
        for at, odds in enumerate(ODDS)
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranking:
    """Later parts among the parts of which something was seen.

    Attributes
    ----------
    bins : list of (stated, so, count)
        Mean odds and share that is so, over parts with odds in each fifth.
    first_is_later : float
        Of drums with a later part that shows, how often the one ranked first is one. A later part
        shows when it bears a value that was no longer or not yet usual on the drum's day.
    above : float
        How often a later part is ranked above one that is not, on whichever drum.
    """

    bins: list[tuple[float, float, int]]
    first_is_later: float
    drums: int
    above: float


def ranking(drums: Sequence[Drum], ground: Ground) -> Ranking:
    """Say of every part how likely it is later than its drum, and count how often it is."""
    odds, true, shows, firsts = [], [], [], []
    for drum in drums:
        features: dict[str, tuple[str, ...]] = {}
        for one in drum.seen:
            part = ground.table(one.feature).part
            features[part] = (*features.get(part, ()), one.feature)
        origins = origins_of(p_year(drum.seen, ground), features)
        if not origins:
            continue
        later = {one.part: drum.made[one.part] > drum.year + PERIOD_YEARS for one in origins}
        odds += [one.later for one in origins]
        true += list(later.values())
        shows += [later[one.part] and _shows(one.features, drum, ground) for one in origins]
        if any(shows[-len(origins) :]):
            firsts.append(later[max(origins, key=lambda one: one.later).part])
    stated, so, show = np.array(odds), np.array(true), np.array(shows)
    bins = []
    for low in np.arange(0.0, 1.0, 0.2):
        inside = (stated >= low) & (stated < low + 0.2 + 1e-9 * (low > 0.7))
        if inside.any():
            bins.append((float(stated[inside].mean()), float(so[inside].mean()), int(inside.sum())))
    order = stated.argsort(kind="stable").argsort()
    picked, rest = order[show], np.sort(order[~so])
    above = float(np.searchsorted(rest, picked).mean() / len(rest)) if len(picked) else math.nan
    return Ranking(bins=bins, first_is_later=float(np.mean(firsts)), drums=len(firsts), above=above)


def _shows(features: tuple[str, ...], drum: Drum, ground: Ground) -> bool:
    """Whether a value seen on the part was hardly fitted to new drums of that year."""
    at = int(drum.year - ground.years[0])
    seen = {one.feature: one.value for one in drum.seen}
    for name in features:
        table = ground.features[name]
        if seen[name] in table.names:
            row = table.names.index(seen[name])
            if table.chances[:, row, at].max() < 0.01:
                return True
    return False


def first_formula(seen: Sequence[Seen], ground: Ground) -> Array:
    """Date a drum by the plainer formula that this one took the place of, to hold it against.

    Each feature by itself, replaced with a fixed chance whatever the drum's age, most often soon
    after it was made (a mean of 12 years); a value's chance as its share of the sum of the chances
    of being in use.
    """
    years = ground.years
    after = years[None, :] - years[:, None]
    later = np.where(after >= 0, np.exp(-after / 12.0), 0.0)
    later /= later.sum(axis=1, keepdims=True)
    p = ground.prior.sum(axis=0)
    for one in seen:
        table = ground.table(one.feature)
        if not one.listed:
            continue
        values = {
            value.name: span_weight(value, years)
            for value in ground.reference.values
            if (value.family, value.feature) == (ground.family, one.feature)
        }
        right = values[one.value] / np.maximum(sum(values.values()), 1e-300)
        share = right * one.sure + (1.0 - one.sure) / len(table.names) * (1.0 - right)
        lost = ground.parts[table.part].lost_in_fifty_years
        p = p * ((1.0 - lost) * share + lost * (later @ share))
    return p / p.sum()

"""Drums whose truth is known: made, used, worked on and looked at, by laws of several kinds.

``as_stated`` draws by the laws that dating supposes. The others keep the facts that the reference
states (mean and spread of each end, share of parts lost in fifty years) and change the laws.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from counterhoop.evidence.ground import Ground
from counterhoop.evidence.reference import UNLISTED, End, Feature, Part, Value
from counterhoop.evidence.replaced import HANDS, yearly_rate
from counterhoop.evidence.seen import Seen

Rng = np.random.Generator
SURES = (0.8, 0.9, 0.95, 0.99)
ASKED = 0.55
"""How often a feature was looked at."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drum:
    """What it is, and what was seen of it."""

    year: int
    made: dict[str, int]
    first: dict[str, bool]
    seen: tuple[Seen, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Laws:
    """How nature draws: the standard deviate of an end; the years in which parts of a drum were
    fitted last (none for those that are its first); a line and a year."""

    end: Callable[[Rng], float]
    life: Callable[[Rng, Ground, int], dict[str, int]]
    year: Callable[[Rng, Ground], tuple[int, int]]


def normal(rng: Rng) -> float:
    return float(rng.standard_normal())


def rectangular(rng: Rng) -> float:
    return float(rng.uniform(-math.sqrt(3.0), math.sqrt(3.0)))


def lopsided(rng: Rng) -> float:
    """Rarely early, sometimes very late: a gamma law of mean 0 and spread 1."""
    return float((rng.gamma(4.0) - 4.0) / 2.0)


def steady(rng: Rng, ground: Ground, year: int) -> dict[str, int]:
    """Every year each part may be lost, faster on one drum than on another."""
    hand = float(rng.choice([hand for hand, _ in HANDS], p=[share for _, share in HANDS]))
    return _lost(rng, ground, year, rate=lambda lost: hand * yearly_rate(lost))


def spread_hands(rng: Rng, ground: Ground, year: int) -> dict[str, int]:
    """As steady, but drums differ by a gamma law; the stated share is lost of all of them."""
    shape = 1.5
    hand = float(rng.gamma(shape))
    return _lost(
        rng, ground, year, rate=lambda lost: hand * ((1.0 - lost) ** (-1.0 / shape) - 1.0) / 50.0
    )


def alike_hands(rng: Rng, ground: Ground, year: int) -> dict[str, int]:
    """As steady, and all drums were worked on alike."""
    return _lost(rng, ground, year, rate=lambda lost: -math.log1p(-lost) / 50.0)


def rebuilt(rng: Rng, ground: Ground, year: int) -> dict[str, int]:
    """Parts go in a few days of rebuilding, several at once; more of them in later times."""
    fitted: dict[str, int] = {}
    days = 0.03
    for day in range(year + 1, ground.looked_at + 1):
        often = 0.5 + (day - ground.years[0]) / (ground.looked_at - ground.years[0])
        if rng.random() < days * often:
            for name, part in ground.parts.items():
                if rng.random() < (1.0 - (1.0 - part.lost_in_fifty_years) ** 0.02) / days:
                    fitted[name] = day
    return fitted


def _lost(rng: Rng, ground: Ground, year: int, *, rate: Callable[[float], float]) -> dict[str, int]:
    """Count back from the day of looking to the last loss of each part."""
    fitted = {}
    for name, part in ground.parts.items():
        back = int(rng.geometric(-math.expm1(-rate(part.lost_in_fifty_years)))) - 1
        if back < ground.looked_at - year:
            fitted[name] = ground.looked_at - back
    return fitted


def even_years(rng: Rng, ground: Ground) -> tuple[int, int]:
    flat = int(rng.choice(ground.prior.size, p=ground.prior.ravel()))
    return divmod(flat, len(ground.years))


def boom(rng: Rng, ground: Ground) -> tuple[int, int]:
    """Half as many again were made from 1957 on as before."""
    odds = ground.prior * np.where(ground.years >= 1957, 1.5, 1.0)
    flat = int(rng.choice(odds.size, p=(odds / odds.sum()).ravel()))
    return divmod(flat, len(ground.years))


LAWS = {
    "as stated": Laws(end=normal, life=steady, year=even_years),
    "rectangular ends": Laws(end=rectangular, life=steady, year=even_years),
    "lopsided ends": Laws(end=lopsided, life=steady, year=even_years),
    "hands by a gamma law": Laws(end=normal, life=spread_hands, year=even_years),
    "all drums used alike": Laws(end=normal, life=alike_hands, year=even_years),
    "rebuilt in a few days": Laws(end=normal, life=rebuilt, year=even_years),
    "more made later": Laws(end=normal, life=steady, year=boom),
    "all of it otherwise": Laws(end=rectangular, life=rebuilt, year=boom),
}


def simulated(ground: Ground, *, laws: Laws, count: int, seed: int) -> list[Drum]:
    """Return drums with what is seen of them."""
    rng = np.random.default_rng(seed)
    return [_drum(rng, ground, laws) for _ in range(count)]


def _drum(rng: Rng, ground: Ground, laws: Laws) -> Drum:
    line, at = laws.year(rng, ground)
    year = int(ground.years[at])
    fitted = laws.life(rng, ground, year)
    made = dict.fromkeys(ground.parts, year) | {
        name: _made(rng, ground, ground.parts[name], when) for name, when in fitted.items()
    }
    seen = []
    for name, table in ground.features.items():
        if rng.random() > ASKED:
            continue
        feature = ground.reference.feature(name)
        values = ground.reference.values_of(
            name, family=ground.family, line=ground.lines[line].name
        )
        true = _value(rng, values, feature, made[table.part], laws)
        sure = float(rng.choice(SURES))
        if rng.random() > sure:
            others = [one for one in (*table.names, UNLISTED) if one != true]
            true = str(rng.choice(others))
        seen.append(Seen(feature=name, value=true, sure=sure))
    first = {name: name not in fitted for name in ground.parts}
    return Drum(year=year, made=made, first=first, seen=tuple(seen))


def _made(rng: Rng, ground: Ground, part: Part, when: int) -> int:
    """New in that year, or off a drum made until then."""
    if rng.random() >= part.from_a_donor:
        return when
    odds = ground.prior.sum(axis=0) * (ground.years <= when)
    return int(rng.choice(ground.years, p=odds / odds.sum()))


def _value(rng: Rng, values: Sequence[Value], feature: Feature, year: int, laws: Laws) -> str:
    """Draw what was fitted new in a year: the ends first, then one of those in use."""

    def drawn(end: End | None, *, nobody: float) -> float:
        return nobody if end is None else round(end.year + end.give * laws.end(rng))

    lasts = {value.name: drawn(value.ends, nobody=math.inf) for value in values}
    names, weights = [UNLISTED], [feature.unlisted]
    for value in values:
        begins = (
            lasts[value.follows] + 1.0
            if value.follows in lasts
            else drawn(value.begins, nobody=-math.inf)
        )
        if begins <= year <= lasts[value.name]:
            names.append(value.name)
            weights.append(value.share)
    return str(rng.choice(names, p=np.array(weights) / sum(weights)))

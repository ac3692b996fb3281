"""A box of mixed parts with known truth: what each is, and what a person would measure on it.

Four worlds. The first is the one that the odds suppose; the others are not: castings with heavy
tails read to the whole step of the instrument, wear of another law and amount, and other makes
that differ from the book's in another way.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal, get_args

import numpy as np

from counterhoop.parts.dimension import STEPS, Dimension, Measured
from counterhoop.parts.unknown.candidate import Candidate, Candidates
from counterhoop.parts.unknown.odds import NONE, Odds, Seen, odds

World = Literal["as supposed", "heavy tails, whole steps", "other wear", "other makes"]
WORLDS: tuple[World, ...] = get_args(World)
BINS = (0.0, 0.3, 0.5, 0.7, 0.85, 0.95, 0.99, 1.0)


@dataclass(frozen=True, slots=True)
class Found:
    """One part of the box; ``truth`` is empty where it is none of the candidates."""

    truth: str
    measured: tuple[Measured, ...]
    seen: Seen


@dataclass(frozen=True, slots=True)
class Bin:
    """What was said from ``least`` to ``most``: how often, on the mean, and how often rightly."""

    least: float
    most: float
    count: int
    said: float
    right: float

    @property
    def off(self) -> float:
        return abs(self.said - self.right)


def box(candidates: Candidates, *, count: int, seed: int, world: World) -> Iterator[Found]:
    """Yield parts out of the box, each with one to four measurements."""
    chance = np.random.default_rng(seed)
    for _ in range(count):
        at = int(chance.choice(len(candidates), p=candidates.share))
        made = candidates.each[at]
        dims, truth = dict(made.dims), made.name
        if chance.random() < NONE:
            truth, dims = "", _other_make(made, candidates, chance, world=world)
        names = list(dims)
        how_many = min(len(names), int(chance.integers(1, 5)))
        picked = [names[i] for i in chance.choice(len(names), size=how_many, replace=False)]
        kind = ""
        if chance.random() < 0.5:
            kind = made.kind if chance.random() < 0.97 else str(chance.choice(candidates.kinds))
        measured = tuple(_read(what, dims[what], chance, world=world) for what in picked)
        yield Found(truth, measured, Seen(kind=kind))


def _read(what: Dimension, size: float, chance: np.random.Generator, *, world: World) -> Measured:
    about = what.about
    if what.unit == "count":
        off = int(chance.choice((-1, 1))) if chance.random() < 0.02 else 0
        return Measured(dimension=what, value=max(0.0, round(size) + off), doubt=0.0)
    by_rule = about.instrument == "caliper" and chance.random() < 0.3
    step = STEPS["rule" if by_rule else about.instrument]
    cast, worn = about.cast_by(size), about.worn_by(size)
    out = 3.0 if chance.random() < 0.04 else 1.0
    match world:
        case "heavy tails, whole steps":
            off = cast * chance.standard_t(4) / np.sqrt(2.0)
            wear = worn * chance.exponential()
        case "other wear":
            off = out * cast * chance.uniform(-1.7, 1.7)
            wear = 2.0 * worn * chance.gamma(2.0, 0.5) * (chance.random() < 0.6)
        case _:
            off, wear = out * cast * chance.normal(), out * worn * chance.exponential()
    value = size + off + what.wear_way * wear
    if world == "heavy tails, whole steps" and what is not Dimension.PITCH:
        value = step * round((value + step * chance.triangular(-0.5, 0.0, 0.5)) / step)
    elif world == "as supposed":
        value += step / np.sqrt(3.0) * chance.normal()
    else:
        value += step * chance.uniform(-1.0, 1.0)
    return Measured(dimension=what, value=max(float(value), step / 4.0), doubt=step)


def _other_make(
    made: Candidate, candidates: Candidates, chance: np.random.Generator, *, world: World
) -> dict[Dimension, float]:
    """Return what a part of no book measures."""
    if world == "as supposed":
        anything = chance.random() < 0.2
        return {
            what: _other_size(what, size, chance, width=0.4 if anything else 0.12)
            for what, size in made.dims.items()
        }
    if world == "other makes":
        # Every size of one of two parts of the kind, the whole scaled: nothing is independent.
        kin = [one for one in candidates if one.kind == made.kind]
        other = kin[int(chance.integers(len(kin)))]
        scale = float(np.exp(chance.normal(0.0, 0.1)))
        return {
            what: size
            if what.unit == "count" or chance.random() < what.about.shared
            else scale * (size if chance.random() < 0.5 else other.dims.get(what, size))
            for what, size in made.dims.items()
        }
    return {
        what: size
        if what.unit == "count" or chance.random() < what.about.shared
        else size * float(np.exp(chance.uniform(-0.35, 0.35)))
        for what, size in made.dims.items()
    }


def _other_size(
    what: Dimension, size: float, chance: np.random.Generator, *, width: float
) -> float:
    if chance.random() < what.about.shared:
        return size
    if what.unit == "count":
        return max(0.0, size + int(chance.choice((-1, 1))) * int(chance.geometric(0.5) - 1))
    return size * float(np.exp(np.clip(width * chance.standard_t(3), -2.0, 2.0)))


def answers(
    candidates: Candidates, *, count: int, seed: int, world: World, sure: bool = False
) -> list[tuple[float, bool]]:
    """Return what was said of each leader and whether it was right.

    With ``sure``, as one would say it who halves every doubt and forgets wear.
    """
    told = too_sure(candidates) if sure else candidates
    said = []
    for found in box(candidates, count=count, seed=seed, world=world):
        read = [replace(one, doubt=0.5 * one.doubt) if sure else one for one in found.measured]
        result = odds(read, told, seen=found.seen)
        name, share = leader(result)
        said.append((share, name == found.truth))
    return said


def leader(result: Odds) -> tuple[str, float]:
    """Return the likeliest, none of these ("") among them."""
    if result.ranked and result.ranked[0].odds >= result.none:
        return result.ranked[0].candidate.name, result.ranked[0].odds
    return "", result.none


def reliability(said: list[tuple[float, bool]]) -> list[Bin]:
    """Return the answers in bins of what was said."""
    bins = []
    for least, most in pairwise(BINS):
        held = [(p, right) for p, right in said if least <= p < most or p == most == 1.0]
        if held:
            shares, rights = zip(*held, strict=True)
            bins.append(Bin(least, most, len(held), float(np.mean(shares)), float(np.mean(rights))))
    return bins


def mean_off(bins: list[Bin]) -> float:
    """Return the mean of |said - right|, each bin by its count."""
    return sum(one.off * one.count for one in bins) / sum(one.count for one in bins)


def too_sure(candidates: Candidates) -> Candidates:
    """Return the candidates with half the spread of their castings and without wear."""
    return Candidates(
        tuple(
            replace(
                one,
                spread={what: 0.5 * sd for what, sd in one.spread.items()},
                worn=dict.fromkeys(one.worn, 0.0),
            )
            for one in candidates
        )
    )

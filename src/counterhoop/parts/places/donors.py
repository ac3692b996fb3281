"""Which donors to buy for what lacks: the cheapest that cover it with a stated chance, proven."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from counterhoop.errors import BadInput

CHANCE = 0.9
"""How sure one wants to be when nothing else is said. Common practice, no source."""
SEED = 1
NEARLY = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A donor, or a bag of parts, that is bought whole.

    Attributes
    ----------
    name : str
    price_minor : int
        In minor units of one currency for all offers, what it costs to get it here included.
    holds : mapping of str to int
        Pieces by what they are wanted as.
    chance : float
        That any one piece of it can be used, each for itself: from 0 to 1.
    """

    name: str
    price_minor: int
    holds: Mapping[str, int]
    chance: float = 1.0

    def __post_init__(self) -> None:
        if self.price_minor < 0 or any(count < 0 for count in self.holds.values()):
            raise BadInput("less than nothing on offer", where=self.name, given=self.price_minor)
        if not 0.0 <= self.chance <= 1.0:
            raise BadInput("not a chance", where=self.name, given=self.chance, wanted="0 to 1")


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """The answer.

    Attributes
    ----------
    taken : tuple of Offer
        In the order they were given; empty when the shelf covers all, or nothing reaches.
    price_minor : int
    chance : float
        That all wants are covered; where nothing reaches, by all offers together.
    each : tuple of (str, float)
        The same for each want that the shelf does not cover.
    reached : bool
        Whether the chance asked for is reached.
    proven : bool
        Whether nothing cheaper can reach it.
    """

    taken: tuple[Offer, ...]
    price_minor: int
    chance: float
    each: tuple[tuple[str, float], ...]
    reached: bool
    proven: bool


def donors(
    wants: Mapping[str, int],
    offers: Sequence[Offer],
    *,
    shelf: Mapping[str, int] | None = None,
    chance: float = CHANCE,
    effort: float = 20.0,
) -> Bought:
    """Return the cheapest offers that, with the shelf, cover the wants at least that surely.

    Choices are proposed in order of price by an integer program (CP-SAT, one worker, a fixed
    seed). The chance of one is exact: pieces are usable or not each for itself, so what a want
    gets is a sum of binomial counts. A choice that falls short is ruled out together with all
    that lies in it, and in whatever larger choice falls short too, since buying less never makes
    it surer: the next one must take something else (a cover cut). The first that holds is the
    cheapest; of those that cost the same, one of the fewest donors.

    Parameters
    ----------
    wants : mapping of str to int
        How many of each piece.
    offers : sequence of Offer
        Each at most once; names differ.
    shelf : mapping of str to int
        What is free on the shelf and usable.
    chance : float
        From 0 to 1, not 0.
    effort : float
        Deterministic seconds for each proposal (a count of the solver's steps, no clock).

    Raises
    ------
    BadInput
        For a chance that is none, a want below nothing, two offers of one name.

    Examples
    --------
    Two lugs lack. Three offered at even odds hold two good ones half of the time:

    >>> bag = Offer(name="bag", price_minor=900, holds={"lug": 3}, chance=0.5)
    >>> drum = Offer(name="drum", price_minor=4000, holds={"lug": 8}, chance=0.9)
    >>> answers = [donors({"lug": 3}, [bag, drum], shelf={"lug": 1}, chance=c) for c in (0.5, 0.9)]
    >>> [([o.name for o in a.taken], round(a.chance, 2)) for a in answers]
    [(['bag'], 0.5), (['drum'], 1.0)]
    """
    _check(wants, offers, chance)
    have = shelf or {}
    lacks = {what: n - have.get(what, 0) for what, n in wants.items() if n > have.get(what, 0)}
    if not lacks:
        return Bought(taken=(), price_minor=0, chance=1.0, each=(), reached=True, proven=True)
    every = tuple(range(len(offers)))
    best_of_all = _chance(lacks, offers, every)
    if best_of_all + NEARLY < chance:
        return Bought(
            taken=(),
            price_minor=0,
            chance=best_of_all,
            each=_each(lacks, offers, every),
            reached=False,
            proven=True,
        )
    cuts: list[tuple[int, ...]] = []
    while True:
        picked, proven = _cheapest(offers, lacks, cuts, effort=effort)
        if picked is None:  # the solver ran out of effort: what is sure to do is all of them
            picked, proven = every, False
        if _chance(lacks, offers, picked) + NEARLY >= chance:
            return Bought(
                taken=tuple(offers[i] for i in picked),
                price_minor=sum(offers[i].price_minor for i in picked),
                chance=_chance(lacks, offers, picked),
                each=_each(lacks, offers, picked),
                reached=True,
                proven=proven,
            )
        short = set(picked)
        for i in sorted(set(every) - short, key=lambda i: (offers[i].price_minor, i)):
            if _chance(lacks, offers, tuple(sorted(short | {i}))) + NEARLY < chance:
                short.add(i)
        cuts.append(tuple(i for i in every if i not in short))


def _check(wants: Mapping[str, int], offers: Sequence[Offer], chance: float) -> None:
    if not 0.0 < chance <= 1.0:
        raise BadInput("not a chance", where="chance", given=chance, wanted="above 0, at most 1")
    for what, count in wants.items():
        if count < 0:
            raise BadInput("less than nothing wanted", where=what, given=count)
    names = [offer.name for offer in offers]
    if len(set(names)) < len(names):
        raise BadInput(
            "two offers have one name",
            where="offers",
            given=next(n for n in names if names.count(n) > 1),
        )


def _chance(lacks: Mapping[str, int], offers: Sequence[Offer], picked: Sequence[int]) -> float:
    return math.prod(chance for _, chance in _each(lacks, offers, picked))


def _each(
    lacks: Mapping[str, int], offers: Sequence[Offer], picked: Sequence[int]
) -> tuple[tuple[str, float], ...]:
    """Chance that each want is covered by these offers."""
    return tuple(
        (what, _enough(need, [(offers[i].holds.get(what, 0), offers[i].chance) for i in picked]))
        for what, need in lacks.items()
    )


def _enough(need: int, pieces: Sequence[tuple[int, float]]) -> float:
    """Chance that at least ``need`` of these pieces (count, chance of each) are usable."""
    short = [1.0] + [0.0] * (need - 1)  # chance of exactly 0, 1, ... need - 1 usable so far
    for count, usable in pieces:
        few = [_exactly(n, count, usable) for n in range(min(need, count + 1))]
        short = [
            math.fsum(short[n - k] * few[k] for k in range(min(n + 1, len(few))))
            for n in range(need)
        ]
    return 1.0 - math.fsum(short)


def _exactly(n: int, count: int, usable: float) -> float:
    """Chance that just ``n`` of ``count`` pieces are usable: the binomial law, by logarithms, for
    its factors leave the range of floats from a thousand pieces on."""
    if not 0.0 < usable < 1.0:
        return 1.0 if n == (count if usable else 0) else 0.0
    ways = math.lgamma(count + 1) - math.lgamma(n + 1) - math.lgamma(count - n + 1)
    return math.exp(ways + n * math.log(usable) + (count - n) * math.log1p(-usable))


def _cheapest(
    offers: Sequence[Offer],
    lacks: Mapping[str, int],
    cuts: Sequence[Sequence[int]],
    *,
    effort: float,
) -> tuple[tuple[int, ...] | None, bool]:
    """The cheapest choice that holds enough pieces at all and takes something of every cut."""
    from ortools.sat.python import cp_model

    model: Any = cp_model.CpModel()
    take = [model.new_bool_var(f"x{i}") for i in range(len(offers))]
    for what, need in lacks.items():
        model.add(
            sum(offer.holds.get(what, 0) * x for offer, x in zip(offers, take, strict=True)) >= need
        )
    for cut in cuts:
        model.add_bool_or([take[i] for i in cut])
    # Money first, then the fewest donors.
    model.minimize(
        sum(
            (offer.price_minor * (len(offers) + 1) + 1) * x
            for offer, x in zip(offers, take, strict=True)
        )
    )
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = SEED
    solver.parameters.max_deterministic_time = effort
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None, False
    return (
        tuple(i for i, x in enumerate(take) if solver.value(x)),
        status == cp_model.OPTIMAL,
    )

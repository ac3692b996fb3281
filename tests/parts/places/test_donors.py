"""Donors held against every choice there is, and against chances worked by hand and by scipy."""

from __future__ import annotations

from itertools import chain, combinations
from typing import Any

import numpy as np
import pytest
from scipy.stats import binom

from counterhoop.errors import BadInput
from counterhoop.parts.places.donors import Offer, donors


def covered(wants: dict[str, int], offers: tuple[Offer, ...]) -> float:
    """Chance that all wants are covered: binomial counts of scipy, folded together."""
    chance = 1.0
    for what, need in wants.items():
        usable = np.ones(1)
        for offer in offers:
            count = offer.holds.get(what, 0)
            usable = np.convolve(usable, binom.pmf(range(count + 1), count, offer.chance))
        chance *= float(usable[need:].sum())
    return chance


def cheapest(
    wants: dict[str, int], offers: tuple[Offer, ...], chance: float
) -> tuple[int, int] | None:
    """Least price and then fewest donors over every choice."""
    every = chain.from_iterable(combinations(offers, n) for n in range(len(offers) + 1))
    reached = [
        (sum(o.price_minor for o in some), len(some))
        for some in every
        if covered(wants, some) >= chance - 1e-9
    ]
    return min(reached, default=None)


def random_wants(seed: int) -> tuple[dict[str, int], tuple[Offer, ...], float]:
    rng = np.random.default_rng(seed)
    pieces = ["lug", "rod", "strainer"][: int(rng.integers(1, 4))]
    offers = tuple(
        Offer(
            name=f"offer {n}",
            price_minor=int(rng.integers(1, 8)) * 500,
            holds={p: int(rng.integers(0, 4)) for p in pieces},
            chance=float(rng.choice([0.3, 0.5, 0.8, 0.95, 1.0])),
        )
        for n in range(int(rng.integers(1, 6)))
    )
    wants = {p: int(rng.integers(1, 4)) for p in pieces}
    return wants, offers, float(rng.choice([0.3, 0.6, 0.9]))


def agrees(seeds: range) -> tuple[int, int]:
    """Hold answers against all choices; count those reached and those that nothing reaches."""
    reached = out_of_reach = 0
    for seed in seeds:
        wants, offers, chance = random_wants(seed)
        answer, best = donors(wants, offers, chance=chance), cheapest(wants, offers, chance)
        assert answer.proven
        assert answer.reached == (best is not None), seed
        if best is None:
            out_of_reach += 1
            assert answer.chance == pytest.approx(covered(wants, offers), abs=1e-9)
        else:
            reached += 1
            assert (answer.price_minor, len(answer.taken)) == best, seed
            assert answer.chance == pytest.approx(covered(wants, answer.taken), abs=1e-9)
    return reached, out_of_reach


def test_no_other_choice_is_cheaper() -> None:
    reached, out_of_reach = agrees(range(24))
    assert min(reached, out_of_reach) >= 4


@pytest.mark.full
def test_no_other_choice_is_cheaper_on_many_lists() -> None:
    reached, out_of_reach = agrees(range(1000, 1300))
    assert min(reached, out_of_reach) >= 60


def test_what_the_shelf_holds_is_not_bought() -> None:
    offer = Offer(name="drum", price_minor=100, holds={"lug": 8})
    answer = donors({"lug": 6}, [offer], shelf={"lug": 6})
    assert (answer.taken, answer.price_minor, answer.chance) == ((), 0, 1.0)


def test_two_doubtful_donors_make_one_sure_piece() -> None:
    # By hand: one strainer at even odds is had with 0.5; of two at least one with 0.75.
    some = [
        Offer(name=n, price_minor=1000, holds={"strainer": 1}, chance=0.5) for n in ("one", "two")
    ]
    sure = Offer(name="sure", price_minor=2500, holds={"strainer": 1}, chance=0.99)
    assert [o.name for o in donors({"strainer": 1}, [*some, sure], chance=0.7).taken] == [
        "one",
        "two",
    ]
    assert [o.name for o in donors({"strainer": 1}, [*some, sure], chance=0.9).taken] == ["sure"]


def test_what_nothing_reaches_is_said_with_the_best_that_can_be_had() -> None:
    offer = Offer(name="drum", price_minor=100, holds={"lug": 1}, chance=0.5)
    answer = donors({"lug": 1, "rod": 1}, [offer], chance=0.5)
    assert not answer.reached
    assert answer.taken == ()
    assert dict(answer.each) == {"lug": 0.5, "rod": 0.0}


def test_forty_offers_are_still_proven() -> None:
    rng = np.random.default_rng(5)
    offers = [
        Offer(
            name=f"offer {n}",
            price_minor=int(rng.integers(500, 9000)),
            holds={p: int(rng.integers(0, 5)) for p in ("lug", "rod", "claw", "hoop")},
            chance=float(rng.uniform(0.5, 1)),
        )
        for n in range(40)
    ]
    answer = donors({"lug": 8, "rod": 10, "claw": 6, "hoop": 2}, offers, chance=0.9)
    assert answer.proven
    assert answer.chance >= 0.9


@pytest.mark.parametrize(
    ("says", "ask"),
    [
        ("not a chance", {"chance": 0.0}),
        ("two offers have one name", {"offers": [Offer(name="a", price_minor=1, holds={})] * 2}),
        ("less than nothing wanted", {"wants": {"lug": -1}}),
    ],
)
def test_what_cannot_be_asked_is_said(says: str, ask: dict[str, Any]) -> None:
    whole: dict[str, Any] = {"wants": {"lug": 1}, "offers": [], **ask}
    with pytest.raises(BadInput, match=says):
        donors(whole.pop("wants"), whole.pop("offers"), **whole)


def test_a_count_that_is_a_slip_is_reckoned_too() -> None:
    """By scipy: a crate said to hold a hundred thousand keeps nobody waiting, and is not surer."""
    wants = {"lug": 480}
    crates = (
        Offer(name="crate", price_minor=900, holds={"lug": 5000}, chance=0.1),
        Offer(name="slip", price_minor=9000, holds={"lug": 99_999}, chance=0.5),
    )
    found = donors(wants, crates, chance=0.75)
    assert [one.name for one in found.taken] == ["crate"]
    assert found.chance == pytest.approx(float(binom.sf(479, 5000, 0.1)), abs=1e-9)
    surer = donors(wants, crates, chance=0.99)
    assert ([one.name for one in surer.taken], surer.chance) == (["slip"], pytest.approx(1.0))

"""Odds of each year, against every history counted one by one."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from small import small_reference

from counterhoop.errors import BadInput
from counterhoop.evidence.ground import Ground, ground_of
from counterhoop.evidence.in_use import Array
from counterhoop.evidence.next_feature import entropy_bits, next_features
from counterhoop.evidence.reference import UNLISTED
from counterhoop.evidence.replaced import HANDS
from counterhoop.evidence.seen import Seen
from counterhoop.evidence.year import p_year

LAID = ground_of(small_reference(), family="Hallmere", looked_at=1975)
SEEN = [
    Seen(feature="badge", value="round", sure=0.9),
    Seen(feature="strainer", value="lever", sure=0.8),
    Seen(feature="strainer screws", value="crosshead"),
]


def counted(seen: list[Seen], ground: Ground) -> Array:
    """Add up every line, hand, year and every year in which each part may have been made."""
    by_part = {
        name: [one for one in seen if ground.features[one.feature].part == name]
        for name in ground.parts
    }
    p = np.zeros(len(ground.years))
    spots = range(len(ground.years))
    for line, hand, at in product(range(len(ground.lines)), range(len(HANDS)), spots):
        odds = ground.prior[line, at] * HANDS[hand][1]
        for name, looks in by_part.items():
            made = ground.made[name][hand]
            total = 0.0
            for then in spots:
                chance = made.other[at, then] + (made.kept[at] if then == at else 0.0)
                for look in looks:
                    table = ground.features[look.feature]
                    true = table.chances[line, :, then]
                    wrong = (1.0 - look.sure) / len(table.names)
                    row = [*table.names, UNLISTED].index(look.value)
                    chance *= sum(
                        true[other] * (look.sure if other == row else wrong)
                        for other in range(len(true))
                    )
                total += chance
            odds *= total
        p[at] += odds
    return p / p.sum()


def test_odds_are_those_of_every_history_counted() -> None:
    """Brute force."""
    assert p_year(SEEN, LAID).p == pytest.approx(counted(SEEN, LAID), abs=1e-12)
    assert p_year(SEEN[1:], LAID).p == pytest.approx(counted(SEEN[1:], LAID), abs=1e-12)


@given(st.permutations(SEEN))
def test_the_order_of_looking_does_not_matter(seen: list[Seen]) -> None:
    """Exact law."""
    assert p_year(seen, LAID).p == pytest.approx(p_year(SEEN, LAID).p, abs=1e-12)


def test_nothing_seen_leaves_what_was_made() -> None:
    """Exact law: the odds are the drums made in each year."""
    found = p_year([], LAID)
    assert found.p == pytest.approx(LAID.prior.sum(axis=0))
    assert found.lines == pytest.approx(
        dict(zip(["Plain", "Fancy"], LAID.prior.sum(axis=1), strict=True))
    )


def test_what_stands_in_no_row_speaks_for_years_without_rows() -> None:
    """Brute force: one more value, with the chance that is left."""
    odd = Seen(feature="strainer", value=UNLISTED)
    assert p_year([SEEN[0], odd], LAID).p == pytest.approx(counted([SEEN[0], odd], LAID), abs=1e-12)


def test_a_value_of_one_line_speaks_for_that_line() -> None:
    found = p_year([Seen(feature="strainer", value="guarded lever")], LAID).lines
    assert found["Fancy"] > 0.9 > LAID.prior.sum(axis=1)[1]


@pytest.mark.parametrize(
    ("seen", "says"),
    [
        ([Seen(feature="vent", value="brass")], "feature"),
        ([Seen(feature="badge", value="rond")], 'Did you mean "round"'),
        ([SEEN[0], SEEN[0]], "said twice"),
    ],
)
def test_what_the_reference_does_not_know_is_refused(seen: list[Seen], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        p_year(seen, LAID)


@pytest.mark.parametrize("sure", [0.0, -0.1, 1.5])
def test_a_doubt_that_is_none_is_refused(sure: float) -> None:
    with pytest.raises(BadInput, match="how sure the eye is"):
        Seen(feature="badge", value="round", sure=sure)


def test_the_drop_of_entropy_is_the_mean_over_what_may_be_reported() -> None:
    """Brute force: the drum dated anew with each value added; what is in no row is one."""
    before = p_year([], LAID)
    found = {one.feature: one for one in next_features(before, seen=set())}
    assert set(found) == set(LAID.features)
    for name, table in LAID.features.items():
        wanted = 0.0
        for value in (*table.names, UNLISTED):
            after = p_year([Seen(feature=name, value=value)], LAID)
            drop = entropy_bits(before.p) - entropy_bits(after.p)
            wanted += chance_of(name, value, before.joint) * drop
        assert found[name].drop_bits == pytest.approx(wanted, rel=1e-6)


def chance_of(name: str, value: str, joint: Array) -> float:
    """Add up the chance that a value is reported over every line, hand, year and year of making."""
    table = LAID.features[name]
    true = table.chances[:, [*table.names, UNLISTED].index(value)]
    share = 0.95 * true + 0.05 / len(table.names) * (1.0 - true)
    total = 0.0
    for hand, made in enumerate(LAID.made[table.part]):
        total += float((joint[:, hand] * (share * made.kept + share @ made.other.T)).sum())
    return total


def test_entropy_by_hand() -> None:
    """By hand: a half, a quarter and two eighths are 1.75 bits."""
    assert entropy_bits(np.array([0.5, 0.25, 0.125, 0.125])) == pytest.approx(1.75)


def test_a_look_that_takes_hours_comes_last() -> None:
    reference = small_reference()
    slow = tuple(
        replace(one, minutes=300.0) if one.name == "badge" else one for one in reference.features
    )
    laid = ground_of(replace(reference, features=slow), family="Hallmere", looked_at=1975)
    quick = [one.feature for one in next_features(p_year([], LAID), seen=set())]
    later = [one.feature for one in next_features(p_year([], laid), seen=set())]
    assert (quick[0], later[-1]) == ("badge", "badge")


def test_what_was_seen_is_not_proposed_again() -> None:
    names = {one.feature for one in next_features(p_year(SEEN[:1], LAID), seen={"badge"})}
    assert names
    assert "badge" not in names

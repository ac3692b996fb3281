"""What is said of simulated drums is so as often as it is said to be.

Truth: each simulated drum's own year and parts. Laws other than those that dating supposes keep
the facts that the reference states.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from counted import (
    FULL_COUNT,
    WITHIN,
    WITHIN_WHERE_A_STATED_FACT_IS_WRONG,
    first_formula,
    levels,
    ranking,
)
from simulated_drums import LAWS, Drum, simulated

from counterhoop.evidence.ground import Ground, ground_of
from counterhoop.evidence.read_reference import packaged_reference
from counterhoop.evidence.year import p_year

SEED = 7


@cache
def ground() -> Ground:
    return ground_of(packaged_reference(), family="Corvane", looked_at=2026)


@pytest.fixture(scope="module")
def as_stated() -> list[Drum]:
    return simulated(ground(), laws=LAWS["as stated"], count=2_000, seed=SEED)


def test_spans_hold_the_year_as_often_as_they_say(as_stated: list[Drum]) -> None:
    assert [level for level in levels(as_stated, ground()) if not level.good] == []


def test_spans_hold_the_year_where_every_law_is_another() -> None:
    drums = simulated(ground(), laws=LAWS["all of it otherwise"], count=600, seed=SEED)
    assert [level for level in levels(drums, ground()) if not level.good] == []


@pytest.mark.full
@pytest.mark.parametrize("laws", LAWS)
def test_spans_hold_the_year_within_one_in_a_hundred(laws: str) -> None:
    drums = simulated(ground(), laws=LAWS[laws], count=FULL_COUNT, seed=SEED)
    within = WITHIN_WHERE_A_STATED_FACT_IS_WRONG if laws == "more made later" else WITHIN
    assert [one for one in levels(drums, ground(), within=within) if not one.good] == []


def test_a_dating_that_forgets_replaced_parts_fails_the_same_check(as_stated: list[Drum]) -> None:
    book = packaged_reference()
    parts = tuple(replace(part, lost_in_fifty_years=0.0) for part in book.parts)
    kept = ground_of(replace(book, parts=parts), family="Corvane", looked_at=2026)
    found = levels(as_stated, ground(), dating=lambda seen, _: p_year(seen, kept).p)
    assert [level for level in found if level.good] == []


def test_the_plainer_formula_fails_the_same_check(as_stated: list[Drum]) -> None:
    found = levels(as_stated, ground(), dating=first_formula)
    assert [level for level in found if level.good] == []


@pytest.mark.parametrize(
    "count", [400, pytest.param(FULL_COUNT, marks=pytest.mark.full)], ids=["few", "many"]
)
@pytest.mark.parametrize("laws", ["as stated", "all of it otherwise"])
def test_parts_said_to_be_later_are_so_as_often_as_they_say(laws: str, count: int) -> None:
    drums = simulated(ground(), laws=LAWS[laws], count=count, seed=SEED)
    found = ranking(drums, ground())
    for stated, so, parts in found.bins:
        assert abs(so - stated) <= 0.03 + 3.5 * (stated * (1.0 - stated) / parts) ** 0.5
    assert found.first_is_later > 0.8
    assert found.above > 0.9

"""Lost and replaced parts, against the share that the reference states and a walk year by year."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.evidence.reference import Part
from counterhoop.evidence.replaced import HANDS, part_made, yearly_rate

YEARS = np.arange(1950.0, 2001.0)
DRUMS = np.exp(-0.5 * ((YEARS - 1960.0) / 6.0) ** 2)


def part(lost: float, donor: float = 0.3) -> Part:
    return Part(name="hoops", lost_in_fifty_years=lost, from_a_donor=donor, source="made up")


@given(st.floats(0.0, 0.99), st.floats(0.0, 1.0), st.floats(0.1, 3.0))
def test_a_part_was_made_in_some_year(lost: float, donor: float, hand: float) -> None:
    """Exact law: odds sum to one."""
    made = part_made(part(lost, donor), YEARS, drums=DRUMS, hand=hand)
    assert made.kept + made.other.sum(axis=1) == pytest.approx(1.0)


def test_after_fifty_years_the_stated_share_is_lost() -> None:
    """Exact law: what the reference states, over all hands."""
    kept = sum(
        share * part_made(part(0.35), YEARS, drums=DRUMS, hand=hand).kept for hand, share in HANDS
    )
    assert kept[0] == pytest.approx(0.65)
    assert kept[-1] == 1.0


def test_the_last_of_several_replacements_counts() -> None:
    """Brute force: walked year by year from the drum's own, each loss overwriting the last."""
    lost = 1.0 - np.exp(-yearly_rate(0.6))
    odds = np.zeros((len(YEARS), len(YEARS)))
    for at in range(len(YEARS)):
        odds[at, at] = 1.0
        for day in range(at + 1, len(YEARS)):
            odds[at] *= 1.0 - lost
            odds[at, day] += lost
    made = part_made(part(0.6, donor=0.0), YEARS, drums=DRUMS, hand=1.0)
    assert made.other + np.diag(made.kept) == pytest.approx(odds)


def test_a_donor_is_no_younger_than_the_day_it_was_robbed() -> None:
    """By hand: three years, drums in the first two; a drum of the first, all parts from donors."""
    years, drums = np.array([1.0, 2.0, 3.0]), np.array([1.0, 3.0, 0.0])
    made = part_made(part(0.5, donor=1.0), years, drums=drums, hand=1.0)
    loss = 1.0 - np.exp(-yearly_rate(0.5))
    in_two, in_three = loss * (1.0 - loss), loss
    assert made.other[0] == pytest.approx(
        [(in_two + in_three) / 4, (in_two + in_three) * 3 / 4, 0.0]
    )


def test_drums_differ_about_the_stated_mean() -> None:
    """Exact law: the mean of all hands is one."""
    assert sum(factor * share for factor, share in HANDS) == pytest.approx(1.0)
    assert sum(share for _, share in HANDS) == pytest.approx(1.0)

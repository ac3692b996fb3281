"""Days and minutes read from finishes, and the words for them.

Truth: brute force over all days and all finishes in whole numbers, scipy's interval of Wilson,
hand-worked days.
"""

from __future__ import annotations

import datetime as dt
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest

from counterhoop.errors import BadInput
from counterhoop.job.promise.finish_at import doubt_of, end_of_day, ends_of_days, finish_at
from counterhoop.job.promise.promise import Promise, promise
from counterhoop.job.promise.still import still
from counterhoop.job.promise.words import beneath, exactly, on_the_face, still_says
from counterhoop.job.promise.workings import Workings
from counterhoop.job.schedule.task import Shop

MONDAY = dt.date(2026, 12, 7)
WEEK = Shop(
    open=tuple((day * 1440 + 540, day * 1440 + 1080) for day in (0, 1, 2, 3, 4, 7, 8)),
    clamps=0, drying=0,
)  # fmt: skip
HUNDREDTHS = st.integers(1, 100).map(lambda of: Fraction(of, 100))
FINISHES = st.lists(st.integers(1, 9 * 1440), min_size=1, max_size=60)


def told(finishes: list[float], asked: float = 0.8) -> Promise:
    return promise(np.array(finishes, dtype=float), shop=WEEK, start=MONDAY, asked=asked)


@given(FINISHES, HUNDREDTHS)
def test_a_share_is_done_at_the_first_finish_that_makes_it(
    finishes: list[int], share: Fraction
) -> None:
    enough = [
        one for one in finishes if sum(two <= one for two in finishes) >= share * len(finishes)
    ]
    assert finish_at(np.array(finishes, dtype=float), float(share)) == min(enough)


@given(FINISHES, HUNDREDTHS.filter(lambda share: share >= Fraction(1, 2)))
def test_the_day_is_the_first_that_is_enough(finishes: list[int], asked: Fraction) -> None:
    """Brute force: day for day through the calendar, minute by minute is the shop open or not."""
    expected = None
    for day in range(9):
        open_then = [
            minute
            for minute in range(day * 1440, (day + 1) * 1440)
            if any(begins <= minute < ends for begins, ends in WEEK.open)
        ]
        if open_then:
            done = sum(one <= open_then[-1] + 1 for one in finishes)
            if done >= asked * len(finishes):
                expected = (day, done)
                break
    if expected is None:
        with pytest.raises(BadInput, match="more weeks"):
            told(list(finishes), float(asked))
        return
    found = told(list(finishes), float(asked))
    assert found.day == MONDAY + dt.timedelta(days=expected[0])
    assert found.share == pytest.approx(expected[1] / len(finishes))


@pytest.mark.parametrize(
    ("finish", "day"),
    [
        (600.0, 7),  # in the morning
        (1080.0, 7),  # as the shop closes
        (1081.0, 8),  # cured after that: fetched the next day
        (4 * 1440 + 1081.0, 14),  # on Friday night: on Monday
        (6 * 1440 + 700.0, 14),  # on Sunday
    ],
)
def test_days_by_hand(finish: float, day: int) -> None:
    assert told([finish]).day == dt.date(2026, 12, day)


@given(st.integers(1, 5000), st.data())
def test_the_doubt_is_wilsons(count: int, data: st.DataObject) -> None:
    done = data.draw(st.integers(0, count))
    truth = binomtest(done, count).proportion_ci(0.95, method="wilson")
    assert doubt_of(done / count, count) == pytest.approx((truth.high - truth.low) / 2, abs=1e-9)


def test_a_promise_is_to_be_kept_until_the_shop_closes() -> None:
    assert end_of_day(MONDAY, shop=WEEK, start=MONDAY) == 1080
    assert end_of_day(dt.date(2026, 12, 12), shop=WEEK, start=MONDAY) == 6 * 1440
    assert end_of_day(dt.date(2026, 12, 6), shop=WEEK, start=MONDAY) == 0


def test_a_stretch_over_midnight_closes_the_next_day() -> None:
    shop = Shop(open=((1200, 1500), (2400, 2880)), clamps=0, drying=0)
    assert ends_of_days(shop) == ((1, 2880),)


def two_jobs() -> Workings:
    """Of ten workings: job 14 on Monday in 4, on Tuesday in 8; job 15 always on Wednesday."""
    first = [700.0] * 4 + [2200.0] * 4 + [6000.0] * 2
    return Workings(jobs=("14", "15"), finish_min=np.array([first, [3700.0] * 10]).T)


def test_dates_that_were_given() -> None:
    dates = {"15": dt.date(2026, 12, 9), "14": MONDAY}
    found = still(two_jobs(), dates, shop=WEEK, start=MONDAY)
    assert [(one.job, one.share, one.holds) for one in found] == [
        ("14", 0.4, False), ("15", 1.0, True),
    ]  # fmt: skip
    assert [still_says(one) for one in found] == [
        "14, promised for Monday 7 December 2026: 4 of 10 workings are done by then; "
        "80 % are by Tuesday 8 December 2026. Ring in time.",
        "15, promised for Wednesday 9 December 2026: all workings are done by then.",
    ]
    with pytest.raises(BadInput, match="no work in the plan"):
        still(two_jobs(), {"16": MONDAY}, shop=WEEK, start=MONDAY)


@given(FINISHES)
def test_a_date_given_today_is_worth_what_was_said(finishes: list[int]) -> None:
    capped = np.minimum(np.array(finishes, dtype=float), WEEK.open[-1][1])
    found = promise(capped, shop=WEEK, start=MONDAY)
    done = Workings(jobs=("14",), finish_min=capped[:, None])
    (again,) = still(done, {"14": found.day}, shop=WEEK, start=MONDAY)
    assert (again.share, again.holds, again.now) == (found.share, True, found)


def test_the_face_has_one_date() -> None:
    found = told([700.0] * 4 + [2200.0] * 4 + [6000.0] * 2, asked=0.5)
    assert on_the_face(found) == "Tuesday 8 December 2026"
    assert beneath(found) == "8 of 10 workings are done by then."
    assert exactly(found) == "80 % of 10 workings of the plan, give or take 23 %."
    found = told([700.0] * 600 + [2200.0] * 380 + [6000.0] * 20)
    assert beneath(found) == (
        "9 of 10 workings are done by then; half are by Monday 7 December 2026."
    )
    assert exactly(found) == "98 % of 1000 workings of the plan, give or take 1 %."


def test_what_falls_short_of_the_share_asked_for_is_not_said_to_reach_it() -> None:
    """Of 1000 workings 797 are ready on Monday, not four in five: 79 %, and 7 of 10."""
    found = told([700.0] * 797 + [2200.0] * 203, asked=0.797)
    assert exactly(found).startswith("79 % of 1000 workings")
    assert beneath(found) == "7 of 10 workings are done by then."
    assert told([700.0] * 799 + [2200.0] * 201).day == dt.date(2026, 12, 8)
    assert told([700.0] * 800 + [2200.0] * 200).day == MONDAY
    for hundredths in range(1, 101):
        said = Promise(
            day=MONDAY, share=hundredths / 100, doubt=0.0, half_by=MONDAY, workings=100, asked=0.01
        )
        assert exactly(said).startswith(f"{hundredths} % of")


@pytest.mark.parametrize("share", [0.0, -0.1, 1.1])
def test_no_share_at_all_is_refused(share: float) -> None:
    with pytest.raises(BadInput, match="share"):
        finish_at(np.array([1.0]), share)

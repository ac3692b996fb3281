"""Picked up and put down: summed by the minute, and asked about where something is missing."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.job.hours.stretches import Stretch, worked_minutes

MORNING = dt.datetime(2026, 3, 4, 9, 0)


def stretch(begins: int, ends: int | None) -> Stretch:
    """Return a stretch by minutes after nine."""
    return Stretch(
        picked_up=MORNING + dt.timedelta(minutes=begins),
        put_down=None if ends is None else MORNING + dt.timedelta(minutes=ends),
    )


@given(
    st.lists(
        st.tuples(st.integers(0, 300), st.integers(0, 90)).map(lambda s: (s[0], s[0] + s[1])),
        max_size=8,
    )
)
@settings(max_examples=60, deadline=None)
def test_the_sum_is_the_minutes_in_which_anything_was_in_hand(spans: list[tuple[int, int]]) -> None:
    # Brute force: every minute counted once.
    counted = {minute for begins, ends in spans for minute in range(begins, ends)}
    found = worked_minutes([stretch(*span) for span in spans])
    assert found.minutes == pytest.approx(len(counted))
    assert found.asks == ()


def test_seconds_count() -> None:
    half = Stretch(picked_up=MORNING, put_down=MORNING + dt.timedelta(seconds=90))
    assert worked_minutes([half]).minutes == pytest.approx(1.5)


def test_what_was_never_put_down_is_asked_about_and_not_counted() -> None:
    found = worked_minutes([stretch(60, None), stretch(0, 50)])
    assert found.minutes == pytest.approx(50.0)
    assert found.asks == ("picked up on 4 March 2026 at 10:00: when was it put down?",)


def test_a_stretch_over_night_is_asked_about() -> None:
    found = worked_minutes([stretch(0, 23 * 60)])
    assert found.minutes == pytest.approx(23 * 60)
    assert found.asks == (
        "picked up on 4 March 2026 at 9:00 and put down 23 h later: is that right?",
    )
    assert worked_minutes([stretch(0, 600)]).asks == ()


def test_nothing_in_hand_is_nothing() -> None:
    assert worked_minutes([]).minutes == 0.0


def test_put_down_before_it_was_picked_up_is_refused() -> None:
    with pytest.raises(BadInput, match="4 March 2026 at 9:30: put down before it was picked up"):
        stretch(30, 10)

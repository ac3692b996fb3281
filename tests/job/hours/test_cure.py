"""Cure times by the room's temperature: common practice, no source, for the figures themselves."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from workings import of

from counterhoop.errors import BadInput
from counterhoop.job.hours.cure import cured_after
from counterhoop.shell.operations import operations

PLUG = of("plug a hole")


@pytest.mark.parametrize(
    ("room_c", "minutes"),
    # By hand: 12 h, twice as long 10 degrees colder, so 2 ** 0.5 and 2 ** 0.25 as long between.
    [(30.0, 720), (20.0, 720), (17.5, 857), (15.0, 1019), (10.0, 1440)],
)
def test_glue_in_a_colder_room_takes_longer(room_c: float, minutes: int) -> None:
    assert cured_after(PLUG, room_c=room_c) == minutes


@given(room_c=st.floats(10.0, 35.0), colder_k=st.floats(0.0, 10.0))
@settings(max_examples=60, deadline=None)
def test_a_colder_room_is_never_quicker(room_c: float, colder_k: float) -> None:
    colder_c = max(10.0, room_c - colder_k)
    assert cured_after(PLUG, room_c=colder_c) >= cured_after(PLUG, room_c=room_c) >= 720


@pytest.mark.parametrize("room_c", [9.9, -5.0, float("nan")])
def test_a_room_too_cold_is_refused(room_c: float) -> None:
    with pytest.raises(BadInput, match="room: too cold to plug a hole: it would not cure") as fault:
        cured_after(PLUG, room_c=room_c)
    assert "10 °C or warmer, day and night" in str(fault.value)


def test_a_soak_and_work_that_leaves_nothing_wet_go_by_no_temperature() -> None:
    assert cured_after(of("soak and clean a lug"), room_c=-5.0) == 720
    assert cured_after(of("tune a drum"), room_c=-5.0) == 0


def test_the_workshops_own_waiting_stretches_too() -> None:
    assert cured_after(replace(PLUG, cure_hours=0.1), room_c=20.0) == 6
    assert cured_after(replace(PLUG, cure_hours=24.0), room_c=10.0) == 2880


def test_everything_in_the_book_cures_in_a_usual_room() -> None:
    for one in operations():
        assert cured_after(one, room_c=18.0) >= 60.0 * one.cure_hours

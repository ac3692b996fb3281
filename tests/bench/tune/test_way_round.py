"""Which way round the rods were tapped.

Truth: the law by which a tap at ``t``, heard at ``p``, calls up ``cos(t - a) cos(p - a)`` of the
higher pitch and ``sin(t - a) sin(p - a)`` of the lower one; and what is seen from above of a shell
on which along runs to the right as one looks at its outside.
"""

from __future__ import annotations

import cmath
import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from counterhoop.bench.tune.heard import Heard, StrokeHeard
from counterhoop.bench.tune.rods_at import RodAt
from counterhoop.bench.tune.way_round import LAY_ELSEWHERE, SAY_SO, order_said, way_doubted
from counterhoop.listen.round_rim import RimReading, TapReading

EIGHT = tuple(RodAt(number=number, along_deg=45.0 * number - 20.0) for number in range(1, 9))


def rim(*, axis_deg: float, phone_deg: float, turned: complex = 1.0, doubt_deg: float = 1.0):
    """Return what eight taps, each a little harder or softer than the last, call up."""
    to = math.radians(phone_deg - axis_deg)
    taps = []
    for rod in EIGHT:
        at, hard = math.radians(rod.along_deg - axis_deg), 1.0 + 0.1 * (rod.number % 3)
        taps.append(
            TapReading(
                rod=rod.number,
                along_deg=rod.along_deg,
                high=hard * math.cos(at) * math.cos(to) * turned,
                low=hard * math.sin(at) * math.sin(to) * turned * cmath.exp(0.3j),
            )
        )
    return RimReading(
        split_cents=20.0, axis_deg=axis_deg % 180.0, axis_doubt_deg=doubt_deg, taps=tuple(taps)
    )


def mirrored(deg: float, *, first: RodAt) -> float:
    return 2.0 * first.along_deg - deg


@given(
    axis=st.floats(0.0, 179.0), phone=st.floats(0.0, 359.0), named=st.floats(-22.5, 22.5),
    phase=st.floats(0.0, 6.2), first=st.sampled_from(EIGHT),
)  # fmt: skip
def test_a_phone_that_lay_where_it_is_said_to_raises_no_doubt(axis, phone, named, phase, first):
    told = rim(axis_deg=axis, phone_deg=phone, turned=cmath.exp(1j * phase))
    doubt = way_doubted(told, first_rod=first.number, rods=EIGHT, phone_deg=[phone + named])
    assert doubt == ""


@given(
    axis=st.floats(0.0, 179.0), aside=st.floats(32.0, 58.0), named=st.floats(-20.0, 20.0),
    first=st.sampled_from(EIGHT), other=st.booleans(),
)  # fmt: skip
def test_taps_the_other_way_round_are_told_by_where_the_phone_lay(axis, aside, named, first, other):
    """The taps in the order that was said: axis and phone both lie mirrored in the first tap."""
    phone = first.along_deg + (-aside if other else aside)
    # Along the axis or across it one pitch lies still.
    assume(abs(math.sin(2.0 * math.radians(phone - axis))) > 0.2)
    seen = rim(axis_deg=mirrored(axis, first=first), phone_deg=mirrored(phone, first=first))
    said = way_doubted(seen, first_rod=first.number, rods=EIGHT, phone_deg=[phone + named])
    assert said == LAY_ELSEWHERE


@pytest.mark.parametrize("aside", [0.0, 90.0, 180.0])
def test_a_phone_beside_the_first_tap_or_square_to_it_tells_nothing(aside):
    first = EIGHT[0]
    phone = first.along_deg + aside
    seen = rim(axis_deg=mirrored(61.0, first=first), phone_deg=mirrored(phone, first=first))
    assert way_doubted(seen, first_rod=1, rods=EIGHT, phone_deg=[phone]) == ""


def test_an_axis_in_doubt_or_a_phone_of_which_nothing_is_said_tells_nothing():
    first = EIGHT[0]
    phone = first.along_deg + 45.0
    places = {"axis_deg": mirrored(50.0, first=first), "phone_deg": mirrored(phone, first=first)}
    sure, unsure = rim(**places), rim(**places, doubt_deg=15.0)
    assert way_doubted(sure, first_rod=1, rods=EIGHT, phone_deg=[phone]) == LAY_ELSEWHERE
    assert way_doubted(sure, first_rod=1, rods=EIGHT, phone_deg=[None]) == ""
    assert way_doubted(unsure, first_rod=1, rods=EIGHT, phone_deg=[phone]) == ""
    assert way_doubted(RimReading(), first_rod=1, rods=EIGHT, phone_deg=[phone]) == ""


def heard(*rods: int, head: str = "batter", axis_deg: float | None = 40.0) -> Heard:
    strokes = tuple(
        StrokeHeard(number=at, starts_s=2.0 * at, ends_s=2.0 * at + 2.0, rod=rod,
                    dropped="" if rod else "A voice.")
        for at, rod in enumerate(rods, 1)
    )  # fmt: skip
    return Heard(
        seconds=20.0, rate_hz=44_100, head=head, rods=EIGHT, strokes=strokes,
        rim=RimReading(axis_deg=axis_deg),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("rods", "head", "says"),
    [
        ((3, 4, 0, 6, 7, 8, 1, 2), "batter", "rod 3, then rod 4 and so on: anticlockwise"),
        ((1, 8, 7, 7, 6, 5, 4, 3, 2), "batter", "rod 1, then rod 8 and so on: clockwise"),
        ((1, 2, 3, 4, 5, 6, 7, 8), "resonant", "rod 1, then rod 2 and so on: clockwise"),
        ((1, 2, 3, 8, 7, 6, 5, 4), "batter", "the rods that are set stroke by stroke"),
    ],
)
def test_the_order_is_said_as_one_looks_down_on_the_head(rods, head, says):
    (said,) = heard(*rods, head=head).order_says
    assert says in said
    assert said.endswith(SAY_SO)


def test_of_a_head_without_a_tight_axis_no_mirror_image_is_spoken_of():
    (said,) = heard(1, 2, 3, 4, 5, 6, 7, 8, axis_deg=None).order_says
    assert said.startswith("Taken as tapped at rod 1, then rod 2")
    assert "mirror" not in said


def test_single_strokes_have_no_order():
    assert order_said([1, 1, 2], along_deg={1: 0.0, 2: 90.0}, head="batter") == ""
    assert Heard(seconds=1.0, rate_hz=44_100).order_says == ()

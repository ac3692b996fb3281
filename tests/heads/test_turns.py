"""Turns of rods. Truth: figures worked out apart, exact laws, the order in common use."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.heads.head import film_head, weighed_head
from counterhoop.heads.hoop import COLLAR_M
from counterhoop.heads.tension import rim_hz
from counterhoop.heads.turns import (
    calibrate_turns,
    in_turns,
    turn_bound,
    turn_order,
    turns_between,
)
from counterhoop.standards.threads import find_thread

INCH = 0.0254
TEN = film_head(254e-6)
TWELVE, SIX = find_thread("12-24"), find_thread("M6")
TOM = {"radius_m": 6 * INCH, "depth_m": 8 * INCH, "head": TEN}


@pytest.mark.parametrize(
    ("across", "mil", "bound"),
    [(10, 10, 14400), (12, 10, 12300), (14, 10, 10700), (16, 10, 9500), (12, 7.5, 0.75 * 12300)],
)
def test_most_of_a_turn(across, mil, bound):
    """Computed once by another program, with a collar of 15 mm; no published check."""
    found = turn_bound(
        film_head(mil * 25.4e-6), radius_m=across * INCH / 2, thread=TWELVE, collar_m=COLLAR_M
    )
    assert found.n_per_m == pytest.approx(bound, rel=0.006)
    safe = turn_bound(film_head(mil * 25.4e-6), radius_m=across * INCH / 2, thread=TWELVE)
    assert safe.n_per_m > found.n_per_m
    assert not safe.heard


@settings(max_examples=20, deadline=None)
@given(gain=st.floats(500, 8000), turns=st.floats(0.05, 0.5), start=st.floats(800, 2000))
def test_what_was_heard_is_used(gain, turns, start):
    # Exact: pitches made from a known gain give it back, and the turns to a third tension.
    shell = {"radius_m": TOM["radius_m"], "depth_m": TOM["depth_m"], "head": TEN}
    low, high = rim_hz(start, **shell), rim_hz(start + gain * turns, **shell)
    heard = calibrate_turns(low, high, turns=turns, thread=TWELVE, **TOM)
    assert heard.n_per_m == pytest.approx(gain, rel=1e-4)
    assert heard.heard
    back = calibrate_turns(high, low, turns=-turns, thread=TWELVE, **TOM)
    assert back.n_per_m == pytest.approx(gain, rel=1e-4)
    guide = turns_between(start, start + 1000.0, gain=heard)
    assert guide.turns == pytest.approx(1000.0 / gain, rel=1e-4)
    assert not guide.at_least


def test_more_than_film_gives_is_said():
    assert (
        "more than the film can give"
        in calibrate_turns(150.0, 260.0, turns=1 / 16, thread=TWELVE, **TOM).says
    )


def test_turns_do_not_carry_to_another_pitch():
    gain = turn_bound(TEN, radius_m=6 * INCH, thread=TWELVE)
    with pytest.raises(BadInput, match="turns counted on 12-24 UNC rods tell nothing of these"):
        turns_between(1000, 1500, gain=gain, thread=SIX)
    guide = turns_between(1500, 1000, gain=gain)
    assert guide.turns < 0
    assert "down on every 12-24 UNC rod" in guide.says


@pytest.mark.parametrize("rods", range(1, 25))
def test_every_rod_has_its_turn_once(rods):
    order = turn_order(rods)
    assert sorted(order) == list(range(1, rods + 1))
    if rods % 2 == 0:
        # Opposite rods follow each other.
        pairs = list(zip(order[::2], order[1::2], strict=True))
        assert all(second - first == rods // 2 for first, second in pairs)
    elif rods > 3:
        # A star: each next rod lies as far round as an odd number allows.
        steps = {(b - a) % rods for a, b in pairwise(order)}
        assert steps == {(rods - 1) // 2}


def test_orders_in_use():
    """Five as a star, six and eight by opposite pairs: common practice, no source."""
    assert turn_order(5) == (1, 3, 5, 2, 4)
    assert turn_order(6) == (1, 4, 2, 5, 3, 6)
    assert turn_order(8) == (1, 5, 3, 7, 2, 6, 4, 8)


@given(turns=st.floats(0, 40))
def test_words_never_say_more_than_was_meant(turns):
    said = in_turns(turns).removeprefix("less than ")
    parts = said.removesuffix(" of a turn").removesuffix(" turns").removesuffix(" turn").split()
    told = 0.0
    for part in parts:
        top, _, bottom = part.partition("/")
        told += int(top) / int(bottom or 1)
    if "less than" in in_turns(turns):
        assert turns < told
    else:
        assert told <= turns + 1e-6 < told + 1 / 16 + 1e-5


def test_refused():
    skin = weighed_head(mass_kg=0.04, diameter_m=0.33, calf=True)
    with pytest.raises(BadInput, match="calf goes its own way"):
        turn_bound(skin, radius_m=0.15, thread=TWELVE)
    with pytest.raises(BadInput, match="calf goes its own way"):
        calibrate_turns(190, 205, turns=0.1, thread=TWELVE, **{**TOM, "head": skin})
    weighed = weighed_head(mass_kg=0.026, diameter_m=0.3048)
    with pytest.raises(BadInput, match="how thick the film is"):
        turn_bound(weighed, radius_m=0.15, thread=TWELVE)
    for turns in (0.0, -0.125, float("nan")):
        with pytest.raises(BadInput, match="did not follow the turns"):
            calibrate_turns(190, 205, turns=turns, thread=TWELVE, **TOM)
    with pytest.raises(BadInput, match="a head needs rods"):
        turn_order(0)

"""A single stroke held against the plan.

Truth: exact laws. The plan that is met is said to be met; a stroke in the middle, far under it by
the model's own ratio of the two lowest pitches, never makes anyone tighten a rod.
"""

from __future__ import annotations

import pytest
from small_kits import SMALL, tune

from counterhoop.bench.tune.advice_on_strokes import HOW_EVEN, WHERE, advice_on_strokes
from counterhoop.bench.tune.against_plan import PitchPlanned
from counterhoop.heads.ideal import head_zero
from counterhoop.heads.tension import tension_from_pitch
from counterhoop.listen.advice import Advice


def advised(*hz: float, wished: bool = True) -> Advice | None:
    one = tune(SMALL)
    rods = one.rods("batter")
    assert rods is not None
    n_per_m = tension_from_pitch(
        200.0, radius_m=one.radius_m, depth_m=one.depth_m, head=one.head("batter")
    ).n_per_m
    return advice_on_strokes(
        hz, tune=one, rods=rods, stage="after",
        planned=PitchPlanned(hz=200.0, n_per_m=n_per_m, wished=wished),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("hz", "words"), [(200.0, "It is there"), (180.0, "tighten all"), (230.0, "slacken all")]
)
def test_a_stroke_near_a_rod_is_held_against_the_plan(hz: float, words: str) -> None:
    found = advised(hz)
    assert found is not None
    assert words in found.sentences[-1]
    assert found.unknown == (WHERE, HOW_EVEN)
    assert found.pattern == ()


def test_a_stroke_in_the_middle_makes_nobody_turn_a_rod() -> None:
    """Zeros of Bessel's functions: an ideal film's lowest pitch is 0.628 of the next."""
    found = advised(200.0 * head_zero(0, 1) / head_zero(1, 1))
    assert found is not None
    assert len(found.sentences) == 1
    assert "Turn nothing by that" in found.sentences[0]
    assert "8 semitones below" in found.sentences[0]


def test_strokes_that_differ_leave_as_much_doubt() -> None:
    alike, apart = advised(190.0), advised(182.0, 190.0, 199.0)
    assert alike is not None
    assert apart is not None
    assert "tighten" in alike.sentences[-1]
    assert "It is there" in apart.sentences[-1]


def test_without_a_wish_or_a_stroke_nobody_is_told_to_turn() -> None:
    assert advised() is None
    found = advised(180.0, wished=False)
    assert found is not None
    assert "alike" not in found.sentences[-1]

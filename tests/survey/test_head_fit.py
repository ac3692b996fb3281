"""Head against shell. The classes are common practice, no source; the sums are by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.survey.head_fit import Fit, HeadFit, HeadReadings, fit_class, head_fit
from counterhoop.survey.head_ways_out import other_hoop, ways_out
from counterhoop.survey.head_words import fit_words

LIMITS = {"floats_mm": 2.0, "snug_mm": 1.0}
OVAL = HeadReadings(largest_mm=354.0, smallest_mm=351.0, around_mm=math.pi * 352.5, collar_mm=354.5)
TAPE = replace(OVAL, largest_mm=None, smallest_mm=None)
ORDER = [Fit.DOES_NOT_GO, Fit.TIGHT, Fit.SNUG, Fit.FLOATS]


def fit(readings: HeadReadings, **changes: float | bool) -> HeadFit:
    return head_fit(replace(readings, **changes), **LIMITS)


@pytest.mark.parametrize(
    ("clear_mm", "expected"),
    [
        *((2.5, Fit.FLOATS), (2.0, Fit.FLOATS), (1.99, Fit.SNUG), (1.0, Fit.SNUG)),
        *((0.99, Fit.TIGHT), (0.0, Fit.TIGHT), (-0.01, Fit.DOES_NOT_GO)),
    ],
)
def test_classes(clear_mm: float, expected: Fit) -> None:
    assert fit_class(clear_mm, **LIMITS) is expected


def test_the_workshops_own_limits_decide() -> None:
    assert head_fit(OVAL, floats_mm=0.4, snug_mm=0.2).known.fit is Fit.FLOATS
    assert head_fit(OVAL, floats_mm=3.0, snug_mm=0.5).known.fit is Fit.SNUG


def test_tight_as_it_stands_and_floats_when_eased() -> None:
    found = fit(OVAL)
    assert found.as_it_stands is not None
    assert found.as_it_stands.clear_mm == pytest.approx(0.5)
    assert found.as_it_stands.fit is Fit.TIGHT
    assert found.eased_round.clear_mm == pytest.approx(2.0)
    assert found.eased_round.too_close
    assert fit_words(found)[0].startswith("As it stands the head is tight, 0.5 mm of room")
    assert "by hand" in fit_words(found)[-1]


def test_a_tape_alone_does_not_say_how_it_stands() -> None:
    found = fit(TAPE)
    assert found.as_it_stands is None
    assert found.largest_mm is None
    assert found.known is found.eased_round
    first = fit_words(found)[0]
    assert "not known" in first
    assert "four places within the top 20 mm" in first


def test_one_diameter_alone_is_none() -> None:
    with pytest.raises(BadInput, match="one diameter alone"):
        replace(TAPE, largest_mm=354.0)


def test_a_wrap_takes_two_thicknesses_and_three_through_its_overlap() -> None:
    """By hand: bare 350 round, wrap 0.5: 351.0 over it, 351.5 through the overlap."""
    bare = HeadReadings(
        largest_mm=350.0, smallest_mm=350.0, around_mm=math.pi * 350.0, collar_mm=354.0
    )
    wrapped = fit(bare, largest_mm=351.0, smallest_mm=351.0, around_mm=math.pi * 351.0, wrap_mm=0.5)
    assert fit(bare).known.clear_mm == pytest.approx(4.0)
    assert wrapped.known.clear_mm == pytest.approx(2.5)
    assert wrapped.eased_round.clear_mm == pytest.approx(2.5)


def test_the_overlap_counts_once_on_the_diameter_through_it() -> None:
    wrapped = fit(OVAL, wrap_mm=0.5)
    assert wrapped.known.clear_mm == pytest.approx(0.0)
    assert wrapped.eased_round.clear_mm == pytest.approx(1.5)
    through = fit(OVAL, wrap_mm=0.5, overlap_measured=True)
    assert through.known.clear_mm == pytest.approx(0.5)
    assert through.eased_round.clear_mm == pytest.approx(1.5)


def test_the_largest_is_never_below_the_mean() -> None:
    """Cauchy: the mean width of a convex outline is its length / pi."""
    assert fit(OVAL, largest_mm=352.0).known.clear_mm == pytest.approx(2.0)


def test_snug_must_be_round() -> None:
    """355.5 over 354.0 leaves 1.5, so 0.75 out of round at most; it is 3.0."""
    found = fit(OVAL, collar_mm=355.5)
    assert found.known.fit is Fit.SNUG
    assert not found.round_enough
    assert any("3.0 mm out of round" in said for said in fit_words(found))
    assert "ease the shell round" in ways_out(found)[0].short
    evener = fit(OVAL, collar_mm=355.5, smallest_mm=353.5, around_mm=353.8 * math.pi)
    assert evener.round_enough
    assert ways_out(evener) == ()


def test_ways_out_in_mm() -> None:
    """-0.5 as it stands, 3.0 oval: it must float, so 2.0 are wanted and 2.5 are short."""
    found = fit(OVAL, collar_mm=353.5, wrap_mm=0.5, overlap_measured=True)
    ease, another, over_size, relieve, sand = ways_out(found, wall_mm=6.0)
    assert ease.gains_mm == pytest.approx(1.0)  # eased 352.5 + 0.5 in 353.5: from -0.5 to 0.5
    assert not ease.enough
    assert "356.0 mm" in another.does
    assert "356.0 mm" in over_size.does
    assert relieve.gains_mm == pytest.approx(1.0)
    assert not relieve.enough
    assert "of 6.0 mm wall" in sand.does
    assert sand.gains_mm == pytest.approx(2.5)
    assert [way.refused for way in ways_out(found)] == [False, False, False, False, True]
    assert [way.undone for way in ways_out(found)][:3] == ["wholly"] * 3
    assert sand.undone == "never"


def test_a_round_shell_wants_no_more_than_snug() -> None:
    """350.0 in 350.2 and as round as can be: 0.8 short of snug, 351.0 inside the collar."""
    near = fit(OVAL, largest_mm=350.0, smallest_mm=350.0, around_mm=350 * math.pi, collar_mm=350.2)
    another, _, sand = ways_out(near, wall_mm=5.0)
    assert "at least 351.0 mm" in another.does
    assert "0.4 mm of 5.0 mm wall" in sand.does


def test_relieving_the_wrap_gives_what_lies_under_the_collar() -> None:
    """Three thicknesses through an overlap that no reading holds: 350.0 bare, 351.5 through it."""
    wrapped = fit(
        OVAL, largest_mm=351.0, smallest_mm=351.0, around_mm=351 * math.pi, wrap_mm=0.5,
        collar_mm=351.2,
    )  # fmt: skip
    [relieve] = [way for way in ways_out(wrapped) if "wrap" in way.short]
    assert wrapped.known.clear_mm + relieve.gains_mm == pytest.approx(351.2 - 350.0)
    assert relieve.enough
    assert "nitrate" in relieve.costs


def test_nothing_to_do_when_it_floats() -> None:
    assert ways_out(fit(OVAL, collar_mm=356.5)) == ()


def test_the_hoop_over_the_rim() -> None:
    found = fit(OVAL, rim_mm=362.0, hoop_mm=361.4)
    assert found.rim_clear_mm == pytest.approx(-0.6)
    assert any("0.6 mm too small" in said for said in fit_words(found))
    hoop = other_hoop(found)
    assert hoop is not None
    assert "more than 362.0 mm inside" in hoop.does
    assert fit(OVAL).rim_clear_mm is None
    assert other_hoop(fit(OVAL)) is None


@given(
    collar=st.floats(340.0, 365.0),
    more=st.floats(0.0, 10.0),
    oval=st.floats(0.0, 8.0),
    wrap=st.floats(0.0, 2.0),
)
def test_more_collar_is_never_worse_and_more_wrap_never_better(
    collar: float, more: float, oval: float, wrap: float
) -> None:
    """A law: the class follows the clearance, which collar opens and wrap closes one for one."""
    shell = {"largest_mm": 352.0 + oval / 2, "smallest_mm": 352.0 - oval / 2}
    base = fit(OVAL, collar_mm=collar, around_mm=352 * math.pi, **shell)
    wider = fit(OVAL, collar_mm=collar + more, around_mm=352 * math.pi, **shell)
    thicker = fit(OVAL, collar_mm=collar, around_mm=352 * math.pi, wrap_mm=wrap, **shell)
    for way in ("known", "eased_round"):
        one, two, three = (getattr(f, way) for f in (base, wider, thicker))
        assert two.clear_mm == pytest.approx(one.clear_mm + more)
        assert three.clear_mm == pytest.approx(one.clear_mm - wrap)
        assert ORDER.index(two.fit) >= ORDER.index(one.fit) >= ORDER.index(three.fit)
    assert wider.goes or not base.goes
    assert base.eased_round.clear_mm >= base.known.clear_mm - 1e-9


@given(collar=st.floats(345.0, 360.0), oval=st.floats(0.0, 6.0))
def test_the_head_that_is_said_to_be_enough_is(collar: float, oval: float) -> None:
    """Round trip: with the collar that a way out asks for, nothing is asked for any more."""
    shell = {"largest_mm": 352.0 + oval / 2, "smallest_mm": 352.0 - oval / 2}
    found = fit(OVAL, collar_mm=collar, around_mm=352 * math.pi, **shell)
    if ways_out(found):
        served = fit(
            OVAL, collar_mm=(found.largest_mm or 0.0) + found.wanted_mm + 1e-9,
            around_mm=352 * math.pi, **shell,
        )  # fmt: skip
        assert ways_out(served) == ()


@pytest.mark.parametrize(
    "wrong",
    [
        {"largest_mm": 0.0},
        {"collar_mm": float("nan")},
        {"smallest_mm": 355.0},
        {"wrap_mm": -0.5},
        {"hoop_mm": -1.0},
    ],
)
def test_readings_that_cannot_be(wrong: dict[str, float]) -> None:
    with pytest.raises(BadInput):
        replace(OVAL, **wrong)

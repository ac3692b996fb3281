"""Head against shell. The classes are common practice, no source; the sums are by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from counterhoop.errors import BadInput
from counterhoop.survey.head_fit import Fit, HeadReadings, fit_of, head_fit

OVAL = HeadReadings(largest_mm=354.0, smallest_mm=351.0, around_mm=math.pi * 352.5, collar_mm=354.5)


@pytest.mark.parametrize(
    ("clear_mm", "fit"),
    [
        *((2.5, Fit.FLOATS), (2.0, Fit.FLOATS), (1.99, Fit.SNUG), (1.0, Fit.SNUG)),
        *((0.99, Fit.TIGHT), (0.0, Fit.TIGHT), (-0.01, Fit.DOES_NOT_GO)),
    ],
)
def test_classes(clear_mm: float, fit: Fit) -> None:
    assert fit_of(clear_mm) is fit


def test_tight_as_it_stands_and_floats_when_eased() -> None:
    found = head_fit(OVAL)
    assert found.as_it_stands.clear_mm == pytest.approx(0.5)
    assert found.as_it_stands.fit is Fit.TIGHT
    assert found.eased_round.clear_mm == pytest.approx(2.0)
    assert found.eased_round.too_close
    assert "by hand" in found.says[-1]


def test_the_overlap_counts_once_on_the_diameter_through_it() -> None:
    wrapped = replace(OVAL, wrap_mm=0.5)
    assert head_fit(wrapped).as_it_stands.clear_mm == pytest.approx(0.0)
    assert head_fit(wrapped).eased_round.clear_mm == pytest.approx(1.5)
    through = replace(wrapped, overlap_measured=True)
    assert head_fit(through).as_it_stands.clear_mm == pytest.approx(0.5)


def test_the_largest_is_never_below_the_mean() -> None:
    """Cauchy: the mean width of a convex outline is its length / pi."""
    missed = replace(OVAL, largest_mm=352.0)
    assert head_fit(missed).as_it_stands.clear_mm == pytest.approx(2.0)


def test_snug_must_be_round() -> None:
    found = head_fit(replace(OVAL, collar_mm=355.5))
    assert found.as_it_stands.fit is Fit.SNUG
    assert not found.round_enough
    assert any("within 0.8 mm" in said or "within 0.7 mm" in said for said in found.says)
    evener = head_fit(replace(OVAL, collar_mm=355.5, smallest_mm=353.5, around_mm=353.8 * math.pi))
    assert evener.round_enough


def test_ways_out_in_mm() -> None:
    found = head_fit(
        replace(OVAL, collar_mm=353.5, wrap_mm=0.5, overlap_measured=True), wall_mm=6.0
    )
    another, over_size, relieve, sand = found.ways_out
    assert "355.0 mm" in another.does
    assert "355.0 mm" in over_size.does
    assert relieve.gains_mm == pytest.approx(1.0)
    assert not relieve.enough
    assert "0.8 mm of 6.0 mm wall" in sand.does
    assert [way.refused for way in found.ways_out] == [False, False, False, True]
    assert [way.undone for way in found.ways_out][:2] == ["wholly", "wholly"]
    assert sand.undone == "never"


def test_nothing_to_do_when_it_floats() -> None:
    assert head_fit(replace(OVAL, collar_mm=356.5)).ways_out == ()


def test_the_hoop_over_the_rim() -> None:
    found = head_fit(replace(OVAL, rim_mm=362.0, hoop_mm=361.4))
    assert found.rim_clear_mm == pytest.approx(-0.6)
    assert any("0.6 mm too small" in said for said in found.says)
    assert head_fit(OVAL).rim_clear_mm is None


@pytest.mark.parametrize(
    "wrong",
    [
        {"largest_mm": 0.0},
        {"collar_mm": float("nan")},
        {"smallest_mm": 355.0},
        {"around_mm": 1000.0},
        {"wrap_mm": -0.5},
        {"hoop_mm": -1.0},
    ],
)
def test_readings_that_cannot_be(wrong: dict[str, float]) -> None:
    with pytest.raises(BadInput):
        replace(OVAL, **wrong)

"""Snare beds: hand-worked slopes, what truing leaves, laws of symmetry, lugs counted out."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.surface import Skin, Surface
from counterhoop.errors import BadInput
from counterhoop.shell.drum import Bed
from counterhoop.survey.snare_bed import (
    bed_after,
    bed_profile,
    deep_for_mm,
    from_opposite_mm,
    nearest_bed,
    ramp,
    snare_lines,
    wide_for_mm,
)

BEDS = st.builds(
    lambda along, flat, ramps, deep: Bed(
        along_deg=along, wide_mm=flat + 2.0 * ramps, deep_mm=deep, flat_mm=flat
    ),
    st.floats(0.0, 359.0),
    st.floats(0.0, 80.0),
    st.floats(5.0, 120.0),
    st.floats(0.3, 6.0),
)
SKIN = Surface(skin=Skin.OLD, circumference_mm=1117.2)


def test_a_bed_by_hand():
    # 180 wide with 60 flat leaves two ramps of 60; 3 deep is 1 in 20, 4 deep is 1 in 15.
    bed = Bed(along_deg=90.0, wide_mm=180.0, deep_mm=3.0, flat_mm=60.0)
    found = ramp(bed)
    assert found is not None
    assert (found.long_mm, found.factor) == (60.0, 20.0)
    steep = ramp(Bed(along_deg=90.0, wide_mm=180.0, deep_mm=4.0, flat_mm=60.0))
    assert steep is not None
    assert steep.factor == 15.0
    assert ramp(Bed(along_deg=90.0)) is None


@given(BEDS, st.floats(5.0, 40.0))
def test_width_and_depth_for_a_slope_undo_each_other(bed, factor):
    # Exact law: a bed made as wide as its depth asks for may be just as deep as that.
    wide = wide_for_mm(deep_mm=bed.deep_mm, flat_mm=bed.flat_mm, factor=factor)
    assert deep_for_mm(wide_mm=wide, flat_mm=bed.flat_mm, factor=factor) == pytest.approx(
        bed.deep_mm
    )
    made = ramp(Bed(along_deg=0.0, wide_mm=wide, deep_mm=bed.deep_mm, flat_mm=bed.flat_mm))
    assert made is not None
    assert made.factor == pytest.approx(factor)


@given(BEDS, st.floats(0.0, 7.0))
def test_truing_leaves_the_bottom_where_it_was(bed, off):
    """Exact: the new edge is the old section cut level, so the old profile is met at that depth."""
    left = bed_after(bed, off_mm=off)
    if off >= bed.deep_mm:
        assert left is None
        return
    assert left is not None
    assert left.deep_mm == pytest.approx(bed.deep_mm - off)
    before, after = ramp(bed), ramp(left)
    assert before is not None
    assert after is not None
    assert after.factor == pytest.approx(before.factor)
    # The old ramp, off mm down, is where the new ramp begins.
    start = bed_profile(left)[0][0]
    assert -start == pytest.approx(bed.wide_mm / 2.0 - off * before.factor)


@given(BEDS)
def test_a_bed_is_symmetric_about_its_middle(bed):
    profile = bed_profile(bed)
    assert [(-x, y) for x, y in reversed(profile)] == [
        (pytest.approx(x), pytest.approx(y)) for x, y in profile
    ]


@given(st.floats(0.0, 360.0), st.floats(-30.0, 30.0))
def test_opposite_is_half_a_turn_wherever_the_datum_lies(datum, off_deg):
    one, other = Bed(along_deg=datum), Bed(along_deg=(datum + 180.0 + off_deg) % 360.0)
    off = from_opposite_mm(one, other, surface=SKIN)
    assert off == pytest.approx(off_deg * 1117.2 / 360.0, abs=1e-6)
    assert from_opposite_mm(other, one, surface=SKIN) == pytest.approx(-off, abs=1e-6)


@pytest.mark.parametrize("lugs", range(2, 17))
def test_every_line_that_is_offered_is_what_it_says(lugs):
    """Brute force: lay the lugs out, put the strainer in every gap, look where the butt comes."""
    gap = 360.0 / lugs
    for line in snare_lines(lugs):
        for number in range(lugs):
            strainer = number * gap + line.strainer_deg
            butt = strainer + 180.0 + line.opposite_off_deg
            off = (butt - line.butt_deg) / gap
            assert off == pytest.approx(round(off), abs=1e-9)
    both_between = [
        n
        for n in range(lugs)
        if abs((n * gap + gap / 2.0 + 180.0) / gap % 1.0 - 0.5) < 1e-9  # opposite a gap's middle
    ]
    first = snare_lines(lugs)[0]
    assert bool(both_between) is (lugs % 2 == 0)
    assert (first.butt_deg == first.strainer_deg) is (lugs % 2 == 0)
    assert first.opposite_off_deg == 0.0


def test_five_lugs_by_hand():
    # 72 degrees a spacing: opposite the middle of gap 1 (36) lies 216, which is lug 4 (3 x 72).
    between, quarter, askew = snare_lines(5)
    assert (36.0 + 180.0) % 72.0 == 0.0
    assert (between.strainer_deg, between.butt_deg) == (36.0, 0.0)
    assert (quarter.strainer_deg + 180.0) % 72.0 == quarter.butt_deg == 54.0
    assert askew.opposite_off_deg == 36.0


def test_the_nearest_bed_is_found_across_the_datum():
    beds = (Bed(along_deg=355.0), Bed(along_deg=170.0))
    assert nearest_bed(beds, 2.0, surface=SKIN) is beds[0]
    assert nearest_bed((), 2.0, surface=SKIN) is None


def test_what_is_no_bed_is_refused():
    with pytest.raises(BadInput, match="flat is part of its width"):
        ramp(Bed(along_deg=0.0, wide_mm=60.0, deep_mm=2.0, flat_mm=61.0))
    with pytest.raises(BadInput, match="between lugs"):
        snare_lines(1)

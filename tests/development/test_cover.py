"""What shows."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.cover import area_mm2, each_uncovered_mm2, uncovered_mm2
from counterhoop.development.outline import Outline, disc, rounded
from counterhoop.development.place import Place
from counterhoop.development.polygon import hole_gap_mm
from counterhoop.development.shape import Oval, Rectangle, Round, Slot
from counterhoop.development.surface import Skin, Surface

ELL = Outline(((-30, -30), (30, -30), (30, 0), (0, 0), (0, 30), (-30, 30)))
SURFACE = Surface(skin=Skin.OLD, circumference_mm=720.0)
PATCH = st.tuples(
    st.sampled_from(
        [ELL, rounded(24, 57, corner_mm=12), rounded(80, 20), Round(12.7), Slot(6, 20), Oval(5, 8)]
    ),
    st.builds(Place, st.floats(0, 360), st.floats(0, 100)),
)
PATCHES = st.lists(PATCH, max_size=8)


def test_plugs_a_spoke_apart_show_beside_the_bases():
    # Bench case: ten lugs to eight: 9 degrees on 353.4 is 27.76 along; a 24 base does not reach.
    surface = Surface(skin=Skin.OLD, circumference_mm=math.pi * 353.4)
    assert surface.along_mm(9.0) == pytest.approx(27.76, abs=0.005)
    shown = uncovered_mm2(
        [(Round(6.0), Place(36.0, 60.0))],
        [(rounded(24, 57), Place(45.0, 60.0))],
        surface=surface,
    )
    assert shown == pytest.approx(math.pi * 9.0, rel=5e-4)


@pytest.mark.parametrize("along", [0.0, 0.01, 5.9, 180.0, 354.0, 359.99])
def test_nothing_is_lost_or_counted_twice_at_the_datum(along):
    target = [(ELL, Place(along, 60.0))]
    assert area_mm2(target, surface=SURFACE) == pytest.approx(2700.0)
    cover = [(rounded(60, 30), Place(along, 45.0))]
    assert uncovered_mm2(target, cover, surface=SURFACE) == pytest.approx(900.0)
    assert each_uncovered_mm2(target * 2, cover, surface=SURFACE) == (
        pytest.approx(900.0),
        pytest.approx(900.0),
    )
    assert uncovered_mm2(target * 2, cover, surface=SURFACE) == pytest.approx(900.0)


@given(PATCHES, PATCHES, st.floats(-360, 360))
def test_turning_the_drum_shows_no_more(targets, covers, turn):
    def turned(patches):
        return [(what, Place(at.along_deg + turn, at.down_mm)) for what, at in patches]

    before = uncovered_mm2(targets, covers, surface=SURFACE)
    after = uncovered_mm2(turned(targets), turned(covers), surface=SURFACE)
    assert after == pytest.approx(before, abs=1e-5)


@given(PATCHES, PATCHES, PATCH)
def test_one_more_cover_never_shows_more(targets, covers, more):
    least = uncovered_mm2(targets, [*covers, more], surface=SURFACE)
    assert least <= uncovered_mm2(targets, covers, surface=SURFACE) + 1e-6


@given(PATCHES, PATCHES)
def test_shown_and_hidden_make_the_whole(targets, covers):
    shown = uncovered_mm2(targets, covers, surface=SURFACE)
    both = area_mm2([*targets, *covers], surface=SURFACE)
    assert shown == pytest.approx(both - area_mm2(covers, surface=SURFACE), abs=1e-5)
    each = each_uncovered_mm2(targets, covers, surface=SURFACE)
    assert len(each) == len(targets)
    assert max(each, default=0.0) - 1e-6 <= shown <= math.fsum(each) + 1e-6


@given(PATCHES)
def test_what_covers_itself_shows_nothing(patches):
    assert uncovered_mm2(patches, patches, surface=SURFACE) == pytest.approx(0.0, abs=1e-6)


def test_a_disc_of_the_holes_own_size_hides_it():
    hole = [(Round(12.7), Place(0.3, 60.0))]
    plug = [(disc(12.7), Place(0.3, 60.0))]
    assert uncovered_mm2(hole, plug, surface=SURFACE) == 0.0


def test_a_band_round_the_whole_shell_counts_once():
    band = [(Rectangle(1000.0, 10.0), Place(100.0, 50.0))]
    assert area_mm2(band, surface=SURFACE) == pytest.approx(7200.0)


def test_true_areas_of_holes():
    # Exact laws: pi r2, pi a b, stadium.
    at = Place(359.9, 50)
    areas = [
        (Round(12.7), math.pi * 6.35**2),
        (Oval(5.0, 8.0), math.pi * 10.0),
        (Slot(6.0, 9.0), math.pi * 9.0 + 18.0),
        (Rectangle(20.0, 10.0), 200.0),
    ]
    for shape, area in areas:
        assert area_mm2([(shape, at)], surface=SURFACE) == pytest.approx(area, rel=5e-4)


def test_nothing_at_all():
    assert uncovered_mm2([], [(ELL, Place(0, 0))], surface=SURFACE) == 0.0
    assert each_uncovered_mm2([], [], surface=SURFACE) == ()


@given(st.floats(0, 30))
def test_a_base_that_clears_a_hole_hides_none_of_it(off):
    base, hole = (rounded(24, 57), Place(0, 60)), (Round(6.0), Place(off, 60.0))
    gap = hole_gap_mm(base[0], base[1], hole[1], hole[0], surface=SURFACE)
    shown = uncovered_mm2([hole], [base], surface=SURFACE)
    whole = area_mm2([hole], surface=SURFACE)
    if gap >= 0.01:
        assert shown == pytest.approx(whole)
    elif gap <= -0.1:
        assert shown < whole

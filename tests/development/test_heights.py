"""Heights from both edges, truing, and the skins."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.flat import Ring
from counterhoop.development.heights import (
    Left,
    from_resonant,
    heights,
    left_after,
    make_flat,
    place_after,
    place_before,
)
from counterhoop.development.place import Place
from counterhoop.development.shape import Rectangle, Round, Slot
from counterhoop.development.surface import Skin
from counterhoop.development.truing import Removal, Truing
from counterhoop.development.web import to_edge_mm
from counterhoop.errors import BadInput

GIRTH = math.pi * 302.6
REMOVAL = st.builds(Removal, st.floats(0, 6), st.floats(-3, 3), st.floats(-3, 3))
TRUING = st.builds(Truing, batter=REMOVAL, resonant=REMOVAL)
PLACE = st.builds(Place, st.floats(0, 360), st.floats(10, 190))


def shell(**more):
    return make_flat(GIRTH, wall_bare_mm=5.0, **{"depth_mm": 203.0, **more})


def test_a_second_row_after_truing():
    # Bench case: 203 deep, 3.0 off the resonant edge; holes 41.0 and 83.0 from it.
    after = shell(truing=Truing(resonant=Removal(3.0)))
    assert after.depth_mm == 200.0
    assert [from_resonant(60, up, flat=after).down_mm for up in (41.0, 83.0)] == [159.0, 117.0]
    # With the depth before truing the row would sit 3 too low.
    before = shell()
    assert from_resonant(60, 41.0, flat=before).down_mm == 162.0


@given(PLACE, TRUING)
def test_before_and_after_and_back(place, truing):
    back = place_before(place_after(place, truing=truing), truing=truing)
    assert back.down_mm == pytest.approx(place.down_mm, abs=1e-9)
    assert back.along_deg == place.along_deg


@given(PLACE, TRUING, st.floats(-2, 2), st.floats(-2, 2))
def test_each_height_loses_what_comes_off_at_its_own_place(place, truing, cos, sin):
    # Exact law: a removal at the same along, from either edge.
    before = shell(depth_cos_mm=cos, depth_sin_mm=sin)
    after = shell(depth_cos_mm=cos, depth_sin_mm=sin, truing=truing)
    old = heights(place, flat=before)
    new = heights(place_after(place, truing=truing), flat=after)
    along = math.radians(place.along_deg)
    for was, now, off in (
        (old.from_batter_mm, new.from_batter_mm, truing.batter),
        (old.from_resonant_mm, new.from_resonant_mm, truing.resonant),
    ):
        lost = off.mean_mm + off.cos_mm * math.cos(along) + off.sin_mm * math.sin(along)
        assert was - now == pytest.approx(lost, abs=1e-9)


def test_a_shell_out_of_parallel_trued_parallel():
    # 203 deep on one side and 201 on the other; all that is uneven comes off.
    truing = Truing(batter=Removal(2.0, 1.0, 0.0))
    after = shell(depth_mm=202.0, depth_cos_mm=1.0, truing=truing)
    assert after.depth_at_mm(0.0) == after.depth_at_mm(180.0) == 200.0
    hole = Place(0.0, 60.0)
    assert to_edge_mm(
        place_after(hole, truing=truing), Round(6), flat=after, end="resonant"
    ) == pytest.approx(203.0 - 60.0 - 3.0)


@given(st.floats(0, 1.5), st.floats(0, 1.5), TRUING)
def test_the_three_skins(old, new, truing):
    flats = {
        skin: shell(skin=skin, old_finish_mm=old, new_finish_mm=new, truing=truing) for skin in Skin
    }
    radius = {skin: flat.surface.radius_mm for skin, flat in flats.items()}
    # Exact law: every finish lies on the same wood.
    assert radius[Skin.OLD] - radius[Skin.BARE] == pytest.approx(old, abs=1e-9)
    assert radius[Skin.NEW] - radius[Skin.BARE] == pytest.approx(new, abs=1e-9)
    bores = [radius[skin] - flats[skin].wall_mm for skin in Skin]
    assert max(bores) - min(bores) == pytest.approx(0.0, abs=1e-9)
    assert {flat.surface.skin for flat in flats.values()} == set(Skin)
    assert flats[Skin.OLD].surface.circumference_mm == GIRTH


def test_half_a_millimetre_of_wrap():
    wrapped = shell(skin=Skin.NEW, old_finish_mm=0.0, new_finish_mm=0.5)
    assert wrapped.surface.circumference_mm - GIRTH == pytest.approx(3.14, abs=0.005)
    assert wrapped.wall_mm == 5.5


def test_rings_lose_what_comes_off_their_own_end():
    rings = (
        Ring(end="batter", wide_mm=38.0, thick_mm=4.0),
        Ring(end="resonant", wide_mm=2.0, thick_mm=4.0),
    )
    after = shell(rings=rings, truing=Truing(batter=Removal(1.5, 0.5, 0.0), resonant=Removal(3.0)))
    assert [ring.end for ring in after.rings] == ["batter"]
    assert after.rings[0].wide_at_mm(0.0) == 36.0
    assert after.rings[0].wide_at_mm(180.0) == pytest.approx(37.0)
    assert after.wall_at_mm(36.5, along_deg=0.0) == 5.0
    assert after.wall_at_mm(36.5, along_deg=180.0) == 9.0


def test_before_truing_is_another_geometry():
    assert not shell().after_truing
    assert shell(truing=Truing(batter=Removal(0.5))).after_truing


def test_a_shell_shortened_through_its_holes():
    # A deep marching snare cut from the batter end: edges at 100 and, from the other end, 50.
    flat = shell(depth_mm=300.0)
    cut = Truing(batter=Removal(100.0), resonant=Removal(50.0))

    def left(down, shape=Round(6)):  # noqa: B008
        return left_after(Place(20, down), shape, flat=flat, truing=cut)

    assert left(96.9) is Left.GONE
    assert left(97.0) is Left.GONE
    assert left(97.1) is Left.CUT
    assert left(102.9) is Left.CUT
    assert left(103.0) is Left.WHOLE
    assert left(247.0) is Left.WHOLE
    assert left(248.0) is Left.CUT
    assert left(253.0) is Left.GONE
    assert left(103.0, Slot(6, 20, "down")) is Left.CUT
    assert left(103.0, Slot(6, 20)) is Left.WHOLE
    assert left(175.0, Rectangle(20, 200)) is Left.CUT


def test_a_slanting_cut_takes_one_side_only():
    cut = Truing(batter=Removal(30.0, 10.0, 0.0))
    holes = {along: Place(along, 32.0) for along in (0, 90, 180)}
    left = {
        along: left_after(place, Round(6), flat=shell(), truing=cut)
        for along, place in holes.items()
    }
    assert left == {0: Left.GONE, 90: Left.CUT, 180: Left.WHOLE}


def test_heights_that_have_lost_the_wood_are_not_cut_again():
    cut = Truing(batter=Removal(3.0))
    with pytest.raises(BadInput, match="already"):
        left_after(Place(0, 50), Round(6), flat=shell(truing=cut), truing=cut)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: shell(skin=Skin.NEW),
        lambda: make_flat(GIRTH, wall_bare_mm=0.0, depth_mm=200.0),
        lambda: make_flat(GIRTH, wall_bare_mm=5.0, depth_mm=0.0),
        lambda: shell(truing=Truing(batter=Removal(203.0))),
        lambda: shell(truing=Truing(batter=Removal(200.0, 4.0, 0.0))),
        lambda: make_flat(-1.0, wall_bare_mm=5.0, depth_mm=200.0),
    ],
)
def test_shells_that_cannot_be_are_refused(wrong):
    with pytest.raises(BadInput):
        wrong()

"""Depths round the rim: plain, slanting where it shows clearly, and between the planes."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from survey_text import SIX_LUGS, drum_of, read, survey

from counterhoop.development.rim import rim_plane, swing_doubt_mm
from counterhoop.errors import BadInput
from counterhoop.shell.survey_file.resolve_depth import CLEAR
from counterhoop.shell.wish import Move, PutOn

FOUR = (0.0, 90.0, 180.0, 270.0)


def depths(*read_mm: float) -> str:
    step = 360.0 / len(read_mm)
    rows = ", ".join(f'"{i * step:g} deg" = "{mm:.4f} mm"' for i, mm in enumerate(read_mm))
    return "{ " + rows + " }"


def slanting(mean: float, cos: float, sin: float, *, count: int = 8) -> str:
    angles = [2.0 * math.pi * i / count for i in range(count)]
    return depths(*(mean + cos * math.cos(a) + sin * math.sin(a) for a in angles))


@pytest.mark.parametrize(
    ("depth", "mean"),
    [
        ('"203 mm"', 203.0),
        ('["203 mm", "204 mm"]', 203.5),
        ('{ "0 deg" = "200 mm", "180 deg" = "206 mm" }', 203.0),
        ('{ "0 deg" = "200 mm", "180 deg" = "206 mm", "360 deg" = "203 mm" }', 203.0),
        (depths(203.0, 203.5, 203.0), 203.0 + 0.5 / 3.0),
    ],
)
def test_two_places_or_a_swing_within_its_doubt_are_the_plain_mean(depth: str, mean: float) -> None:
    drum = drum_of(survey(depth=depth))
    assert drum.depth_mm == pytest.approx(mean)
    assert (drum.depth_cos_mm, drum.depth_sin_mm) == (0.0, 0.0)


def test_a_clear_swing_is_taken_and_what_is_read_is_kept() -> None:
    # Hand-worked: 2 mm more at 0 than at 180 degrees is a swing of 1 about 203.
    drum = drum_of(survey(depth=depths(204.0, 203.0, 202.0, 203.0)))
    assert (drum.depth_mm, drum.depth_cos_mm) == pytest.approx((203.0, 1.0))
    assert drum.depth_sin_mm == pytest.approx(0.0, abs=1e-12)
    assert [drum.depth_at_mm(a) for a in FOUR] == pytest.approx([204.0, 203.0, 202.0, 203.0])
    assert [mm for _, mm in drum.depth_readings_mm] == [204.0, 203.0, 202.0, 203.0]


@pytest.mark.parametrize("count", [3, 4, 8, 16])
@pytest.mark.parametrize(("tool", "half_mm"), [("rule", 0.5), ("caliper", 0.1)])
def test_where_a_swing_begins_to_be_clear(count: int, tool: str, half_mm: float) -> None:
    # Closed form: a swing's standard uncertainty is (a / sqrt 3) sqrt(2 / n) at n even places.
    edge_mm = CLEAR * half_mm / math.sqrt(3.0) * math.sqrt(2.0 / count)
    for share, taken in ((0.99, False), (1.01, True)):
        depth = slanting(203.0, share * edge_mm, 0.0, count=count)
        drum = drum_of(survey(depth=depth, drum=f'read_with = "{tool}"'))
        assert (drum.depth_cos_mm != 0.0) is taken


def test_a_slip_at_one_place_makes_no_swing() -> None:
    # 5 mm too deep at one of four places: the plane leaves as much over as it takes.
    drum = drum_of(survey(depth=depths(208.0, 203.0, 203.0, 203.0)))
    assert (drum.depth_mm, drum.depth_cos_mm) == (204.25, 0.0)


def test_square_drums_are_rarely_taken_for_slanting() -> None:
    # Brute force: 4 000 square drums read by rule at six places, every error within 0.5 mm.
    # Rayleigh's law gives 1.1 per cent for CLEAR = 3 and normal errors; even ones have no tails.
    along = [60.0 * i for i in range(6)]
    chance = np.random.default_rng(11)
    taken = twice = 0
    for errors in chance.uniform(-0.5, 0.5, size=(4_000, 6)):
        plane = rim_plane(along, 203.0 + errors)
        doubt_mm = swing_doubt_mm(plane, along, reading_mm=0.5 / math.sqrt(3.0))
        swing_mm = math.hypot(plane.cos_mm, plane.sin_mm)
        taken += swing_mm > CLEAR * doubt_mm
        twice += swing_mm > 2.0 * doubt_mm
    assert taken < 0.012 * 4_000
    assert twice > 0.05 * 4_000, "two uncertainties would be taken for a swing far too often"


GAPS = '[drums.tom.edges.batter]\ngaps = "0, 0.4, 0, 0.4 mm"\n'


def test_a_rule_goes_from_edge_to_edge_and_heights_from_plane_to_plane() -> None:
    # Hand-worked: read at 90 degrees, where the edge stands 0.4 off the plate, and at 45, half way.
    assert drum_of(survey(depth='{ "90 deg" = "203 mm" }', more=GAPS)).depth_mm == pytest.approx(
        203.4
    )
    assert drum_of(survey(depth='{ "45 deg" = "203 mm" }', more=GAPS)).depth_mm == pytest.approx(
        203.2
    )
    # Nobody said where: the mean round the rim.
    assert drum_of(survey(depth='"203 mm"', more=GAPS)).depth_mm == pytest.approx(203.2)
    both = GAPS + '[drums.tom.edges.resonant]\nheights = "0, -0.1, 0.3, 0 mm"\n'
    assert drum_of(survey(depth='{ "180 deg" = "203 mm" }', more=both)).depth_mm == pytest.approx(
        202.7
    )


def test_what_the_rule_said_is_kept_beside_the_depth_between_planes() -> None:
    drum = drum_of(survey(depth='"203 mm"', more=GAPS))
    assert (drum.depth_read_mm, drum.depth_mm) == (203.0, pytest.approx(203.2))
    assert replace(drum, depth_readings_mm=()).depth_read_mm == drum.depth_mm


@given(st.floats(-3.0, 3.0), st.floats(-3.0, 3.0), st.floats(0.0, 0.6))
def test_the_planes_are_found_under_a_warped_edge(cos: float, sin: float, saddle: float) -> None:
    # Exact law: planes a slanting depth apart, an edge saddle-shaped on its plate. The rule reads
    # depth less the gap at each place; the planes come back, whatever the saddle.
    angles = [math.radians(22.5 * i) for i in range(16)]
    gaps = [saddle * (1.0 + math.cos(2.0 * a)) for a in angles]
    gaps = [gap - min(gaps) for gap in gaps]
    plane = [203.0 + cos * math.cos(a) + sin * math.sin(a) for a in angles]
    more = '[drums.tom.edges.batter]\ngaps = "' + ", ".join(f"{g:.6f}" for g in gaps) + ' mm"\n'
    text = survey(depth=depths(*(p - g for p, g in zip(plane, gaps, strict=True))), more=more)
    drum = drum_of(text)
    assert drum.depth_mm == pytest.approx(203.0, abs=1e-3)
    if math.hypot(cos, sin) > 0.4:
        assert (drum.depth_cos_mm, drum.depth_sin_mm) == pytest.approx((cos, sin), abs=1e-3)


FROM_RESONANT = """
[[drums.tom.holes]]
along = "180 deg"
near = "38 mm"
dia = "4 mm"
from_edge = "resonant"
[[drums.tom.holes]]
along = "0 deg"
near = "38 mm"
far = "42 mm"
from_edge = "resonant"
[[drums.tom.fittings]]
label = "a"
fitting = "A"
along = "180 deg"
down = "40 mm"
from_edge = "resonant"
[[drums.tom.fittings]]
label = "b"
fitting = "A"
along = "90 deg"
holes = [{ right = "0 mm", near = "38 mm", dia = "4 mm", from_edge = "resonant" }]
[[drums.tom.marks]]
kind = "shadow"
along = "180 deg"
near = "30 mm"
from_edge = "resonant"
outline = { shape = "disc", diameter = "20 mm" }
[[drums.tom.inside]]
what = "label"
along = "0 deg"
down = "40 mm"
from_edge = "resonant"
outline = { shape = "disc", diameter = "20 mm" }
[[drums.tom.lines]]
kind = "ply seam"
along = "180 deg"
[[drums.tom.wish]]
want = "move"
fitting = "a"
along = "0 deg"
down = "40 mm"
from_edge = "resonant"
[[drums.tom.wish]]
want = "put on"
fitting = "A"
label = "c"
along = "180 deg"
down = "40 mm"
from_edge = "resonant"
"""


def test_heights_from_the_other_edge_are_turned_at_their_own_place() -> None:
    # Hand-worked: 1 mm deeper at 0, 1 mm less at 180 degrees, everything read 40 mm from the
    # resonant edge.
    row = SIX_LUGS.replace('"30 deg"', '"0 deg"').replace(
        'down = ["41 mm", "83 mm"]', 'down = ["40 mm"]\nfrom_edge = "resonant"\nmiddle = "42 mm"'
    )
    wanted = read(
        survey(row=row, more=FROM_RESONANT, depth=depths(204.0, 203.0, 202.0, 203.0))
    ).job.drums[0]
    drum = wanted.drum
    half = math.sin(math.radians(30.0))
    lugs_mm = [204.0, 203.0 + half, 203.0 - half, 202.0, 203.0 - half, 203.0 + half]
    assert [hole.place.down_mm for hole in drum.holes[:6]] == pytest.approx(
        [deep - 40.0 for deep in lugs_mm]
    )
    assert [lug.place.down_mm for lug in drum.rows[0].lugs] == pytest.approx(
        [deep - 42.0 for deep in lugs_mm]
    )
    by_fitting, at_180, at_0 = (hole.place.down_mm for hole in drum.holes[6:])
    assert (by_fitting, at_180, at_0) == pytest.approx((163.0, 162.0, 164.0))
    assert [f.place.down_mm for f in drum.fittings] == pytest.approx([162.0, 163.0])
    assert drum.marks[0].place.down_mm == pytest.approx(162.0)
    assert drum.inside[0].place.down_mm == pytest.approx(164.0)
    assert drum.lines[0].to_mm == pytest.approx(202.0)
    move, put_on = wanted.wishes
    assert isinstance(move, Move)
    assert isinstance(put_on, PutOn)
    assert put_on.near is not None
    assert (move.near.down_mm, put_on.near.down_mm) == pytest.approx((164.0, 162.0))


def test_what_lies_off_the_shell_only_on_its_shallow_side_is_refused_there() -> None:
    hole = '[[drums.tom.holes]]\nalong = "{} deg"\nnear = "201 mm"\ndia = "4 mm"'
    depth = depths(204.0, 203.0, 202.0, 203.0)
    drum_of(survey(depth=depth, more=hole.format(0)))
    with pytest.raises(BadInput, match=r"outside the shell.*within 202 mm"):
        drum_of(survey(depth=depth, more=hole.format(180)))


def test_a_depth_told_from_a_lug_that_is_not_there_is_refused() -> None:
    with pytest.raises(BadInput, match=r"depth\.lug 9: there is no batter lug 9"):
        drum_of(survey(depth='{ "lug 9" = "203 mm" }'))


def test_a_rule_in_sixteenths_does_not_make_a_shell_slant() -> None:
    # 16 1/8, 16 1/8 and 16 1/16 in: a swing of 1.06 mm. Half a sixteenth is 0.79 mm, so one
    # reading's u is 0.46 and the swing's 0.37: 2.8 of its doubts. In 32nds it is 5.7, and taken.
    coarse = '{ "0 deg" = "16 1/8 in", "120 deg" = "16 1/8 in", "240 deg" = "16 1/16 in" }'
    drum = drum_of(survey(depth=coarse))
    assert (drum.depth_cos_mm, drum.depth_sin_mm) == (0.0, 0.0)
    fine = '{ "0 deg" = "16 4/32 in", "120 deg" = "16 4/32 in", "240 deg" = "16 2/32 in" }'
    assert math.hypot(drum_of(survey(depth=fine)).depth_cos_mm, 0.0) > 0.0

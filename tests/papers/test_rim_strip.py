"""The strip round the rim: every mark where the reading says, words on nothing."""

from __future__ import annotations

import math
import random
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from test_labels import texts_that_overlap

from counterhoop.listen.advice import Advice, advise
from counterhoop.listen.round_rim import RimReading, TapReading
from counterhoop.listen.strokes import CLIPPED
from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.records import Circle, Drawing, Line, Path, Text
from counterhoop.papers.rim_strip import draw_rim, reach_of

MEAN_HZ = 187.0


def rods_of(count: int, first_deg: float = 20.0) -> list[tuple[int, float]]:
    return [(at + 1, first_deg + at * 360.0 / count) for at in range(count)]


def reading(
    count: int = 6, *, split: float = 34.0, axis: float = 97.0, left_out: tuple[int, ...] = (4,)
) -> RimReading:
    """Taps on the two-lobed law but for a hand's jitter."""
    by_chance = random.Random(count)
    bare = RimReading(
        mean_hz=MEAN_HZ, mean_doubt_hz=0.1, split_cents=split, split_doubt_cents=1.3,
        axis_deg=axis, axis_doubt_deg=5.0, quality="good",
    )  # fmt: skip
    taps = tuple(
        TapReading(rod=rod, along_deg=deg, says=CLIPPED)
        if rod in left_out
        else TapReading(
            rod=rod, along_deg=deg, hz=MEAN_HZ,
            cents=split / 2.0 * math.cos(2.0 * math.radians(deg - axis)) + by_chance.gauss(0, 1.5),
        )
        for rod, deg in rods_of(count)
    )  # fmt: skip
    return replace(bare, taps=taps)


def advice(read: RimReading, count: int) -> Advice:
    return advise(read, rods=count, rod_deg=[deg for _, deg in rods_of(count)])


def named(drawing: Drawing, ident: str) -> list[object]:
    return [s for s in drawing.strokes if s.ident == ident]


def one(drawing: Drawing, ident: str) -> object:
    (found,) = named(drawing, ident)
    return found


def scales(drawing: Drawing) -> tuple[float, float, float]:
    """Where the mean lies, and millimetres a cent, read off the printed figures of the axis."""
    figures = {
        s.text.replace("−", "-"): s.y_mm
        for s in drawing.strokes
        if isinstance(s, Text) and s.anchor == "end"
    }
    ticks = {float(text): y for text, y in figures.items() if text != "mean"}
    low, high = min(ticks), max(ticks)
    per_cent = (ticks[low] - ticks[high]) / (high - low)
    line_to_text = 0.7275 * 3.5 / 2.0  # a figure stands with its middle on its tick
    return figures["mean"] - line_to_text, per_cent, high


@pytest.mark.parametrize("count", [4, 5, 6, 8, 10])
def test_dots_stand_where_the_axes_of_the_strip_say(count: int) -> None:
    """Hand-worked law: x by the degrees printed under it, y by the cents printed beside it."""
    read = reading(count)
    drawing = draw_rim(read, rods=rods_of(count))
    middle, per_cent, _ = scales(drawing)
    degrees = {
        float(s.text.removesuffix("°")): s.x_mm
        for s in drawing.strokes
        if isinstance(s, Text) and s.text.endswith("°")
    }
    per_deg = (degrees[270.0] - degrees[90.0]) / 180.0
    for number, tap in enumerate(read.taps, 1):
        if tap.cents is None:
            continue
        dot = one(drawing, f"rim-tap-{number}")
        assert isinstance(dot, Circle)
        assert dot.x_mm == pytest.approx(degrees[90.0] + (tap.along_deg - 90.0) * per_deg)
        assert dot.y_mm == pytest.approx(middle - tap.cents * per_cent)


@given(axis=st.floats(0.0, 179.9), split=st.floats(12.0, 90.0))
def test_the_fit_is_highest_on_the_tight_axis_and_lowest_across_it(
    axis: float, split: float
) -> None:
    """Exact law: cos 2(along - axis), half the split high."""
    drawing = draw_rim(reading(axis=axis, split=split), rods=rods_of(6))
    curve = one(drawing, "rim-fit")
    assert isinstance(curve, Path)
    step = curve.points[1][0] - curve.points[0][0]
    tops = [
        b[0]
        for a, b, c in zip(curve.points, curve.points[1:], curve.points[2:], strict=False)
        if b[1] <= a[1] and b[1] < c[1]
    ]
    lines = [s.x1_mm for s in drawing.strokes if isinstance(s, Line) and "rim-tight" in s.ident]
    assert len(lines) >= 2
    assert all(min(abs(x - top) for x in lines) <= step for top in tops)
    middle, per_cent, _ = scales(drawing)
    high = min(y for _, y in curve.points)
    assert (middle - high) / per_cent == pytest.approx(split / 2.0, rel=0.01)


def test_the_strip_stays_as_it_is_but_moves_when_the_shell_is_numbered_from_elsewhere() -> None:
    """Exact law: turning taps, rods and axis together moves every mark along, none up or down."""
    read = reading(left_out=())
    moved = replace(
        read,
        axis_deg=read.axis_deg + 30.0,
        taps=tuple(replace(tap, along_deg=tap.along_deg + 30.0) for tap in read.taps),
    )
    here = draw_rim(read, rods=rods_of(6))
    there = draw_rim(moved, rods=[(rod, deg + 30.0) for rod, deg in rods_of(6)])
    for number in range(1, 6):
        a, b = one(here, f"rim-tap-{number}"), one(there, f"rim-tap-{number}")
        assert isinstance(a, Circle)
        assert isinstance(b, Circle)
        assert b.y_mm == pytest.approx(a.y_mm)
        assert b.x_mm - a.x_mm == pytest.approx(30.0 * (184.0 - 21.0) / 376.0)


def test_what_lies_near_the_datum_shows_at_both_ends() -> None:
    rods = rods_of(8, first_deg=2.0)
    read = reading(left_out=())
    read = replace(read, taps=(replace(read.taps[0], along_deg=2.0), *read.taps[1:]))
    drawing = draw_rim(read, rods=rods)
    first, copy = one(drawing, "rim-tap-1"), one(drawing, "rim-tap-1-after")
    assert isinstance(first, Circle)
    assert isinstance(copy, Circle)
    assert first.y_mm == copy.y_mm
    ends = [s.x_mm for s in drawing.strokes if isinstance(s, Text) and s.text == "datum"]
    assert copy.x_mm - first.x_mm == pytest.approx(ends[1] - ends[0])


def test_strips_that_are_compared_have_one_scale() -> None:
    before, after = reading(split=34.0), reading(split=4.0)
    reach = reach_of([before, after])
    drawn = [draw_rim(read, rods=rods_of(6), reach_cents=reach) for read in (before, after)]
    assert scales(drawn[0])[1:] == scales(drawn[1])[1:]
    # Without that each takes what it needs: the comparison above can fail.
    assert scales(draw_rim(after, rods=rods_of(6)))[2] < scales(drawn[0])[2]


@given(splits=st.lists(st.floats(0.1, 480.0), min_size=1, max_size=4), axis=st.floats(0.0, 179.0))
def test_no_tap_lies_beyond_the_strip(splits: list[float], axis: float) -> None:
    reads = [reading(split=split, axis=axis) for split in splits]
    reach = reach_of(reads)
    most = max(abs(tap.cents) for read in reads for tap in read.taps if tap.cents is not None)
    assert reach >= most


@pytest.mark.parametrize("count", [3, 4, 5, 6, 8, 10, 12])
@pytest.mark.parametrize("wide_mm", [184.0, 95.0])
@pytest.mark.parametrize("axis", [0.0, 20.0, 97.0, 179.0])
def test_words_stand_on_no_other_and_within_the_sheet(
    count: int, wide_mm: float, axis: float
) -> None:
    read = replace(reading(count, axis=axis), mirror_deg=(axis + 35.0) % 180.0)
    drawing = draw_rim(
        read, rods=rods_of(count, 0.0), pattern=advice(read, count).pattern, wide_mm=wide_mm,
        heading="Before, batter head, 2 May 2026",
    )  # fmt: skip
    assert texts_that_overlap(drawing) == []
    for stroke in drawing.strokes:
        left, top, right, bottom = extent_box(stroke)
        assert min(left, top) >= -1e-6, stroke
        assert right <= wide_mm + 1e-6, stroke
        assert bottom <= drawing.height_mm + 1e-6, stroke


@pytest.mark.parametrize("count", [5, 6, 8])
def test_rods_to_turn_are_marked_as_the_advice_has_them(count: int) -> None:
    read = reading(count, left_out=())
    pattern = advice(read, count).pattern
    assert any(share.share for share in pattern)
    drawing = draw_rim(read, rods=rods_of(count), pattern=pattern)
    for share in pattern:
        marks = [s for s in drawing.strokes if s.ident == f"rim-turn-{share.rod}"]
        assert len(marks) == bool(share.share)
        if share.share:
            (arrow,) = marks
            assert isinstance(arrow, Path)
            ys = [y for _, y in arrow.points]
            assert (ys[0] < ys[1]) == (share.share > 0.0)
            word = "tighten" if share.share > 0.0 else "slacken"
            assert arrow.title == word
            said = [s for s in drawing.strokes if isinstance(s, Text) and s.text == word]
            assert any(s.x_mm == pytest.approx(arrow.points[0][0]) for s in said)
    assert "Tighten rod" in drawing.says
    assert "Slacken rod" in drawing.says


def test_a_tap_left_out_is_a_cross_and_is_said() -> None:
    drawing = draw_rim(reading(left_out=(4,)), rods=rods_of(6))
    assert isinstance(one(drawing, "rim-tap-4"), Line)
    assert "Taps left out: near rod 4." in drawing.says
    assert any(isinstance(s, Text) and "cross: a tap left out" in s.text for s in drawing.strokes)
    whole = draw_rim(reading(left_out=()), rods=rods_of(6))
    assert isinstance(one(whole, "rim-tap-4"), Circle)
    assert not any(isinstance(s, Text) and "cross" in s.text for s in whole.strokes)


def test_two_heads_that_ring_are_no_unevenness() -> None:
    drawing = draw_rim(replace(reading(), coupled_pair=True), rods=rods_of(6))
    assert not named(drawing, "rim-fit")
    assert not named(drawing, "rim-tap-1")
    assert not any("tight" in s.ident for s in drawing.strokes)
    assert "both heads ring" in drawing.says


def test_without_a_reading_the_strip_says_so() -> None:
    drawing = draw_rim(RimReading(), rods=rods_of(6))
    assert drawing.says == "No pitch was read."
    assert not named(drawing, "rim-fit")


def test_the_dotted_band_is_the_split_that_is_even_enough() -> None:
    drawing = draw_rim(reading(), rods=rods_of(6), even_cents=12.0)
    band = one(drawing, "rim-even")
    assert isinstance(band, Path)
    ys = [y for _, y in band.points]
    _, per_cent, _ = scales(drawing)
    assert (max(ys) - min(ys)) / per_cent == pytest.approx(12.0)

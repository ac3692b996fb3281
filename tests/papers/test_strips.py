"""Strips of readings: every dot where its reading is, straight lines between, words on nothing."""

from __future__ import annotations

import itertools
import math
import xml.etree.ElementTree as ET
from dataclasses import replace

import numpy as np
import pytest
from example_surveys import across_read, edge_read, surveyed
from hypothesis import given
from hypothesis import strategies as st
from test_labels import texts_that_overlap, words_on_lines

from counterhoop.papers.drawing.around import Around
from counterhoop.papers.drawing.edge_strip import edge_strip
from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.manner import AS_FOUND
from counterhoop.papers.drawing.radius_strip import radius_strip
from counterhoop.papers.drawing.records import Drawing, Layer, Line, Path, Text
from counterhoop.papers.drawing.strip import (
    FACTORS,
    STEP_SHOWS_MM,
    Strip,
    factor_for,
    strip_high_mm,
)
from counterhoop.papers.drawing.strip_marks import strip_strokes
from counterhoop.papers.drawing.survey_picture import say_strip, survey_pictures
from counterhoop.papers.svg import to_svg
from counterhoop.shell.drum import Drum
from counterhoop.survey.drum_survey import survey_drum

SVG = "{http://www.w3.org/2000/svg}"
AROUND_MM = 720.0
A4_WIDE, A4_HIGH = 273.0, 158.0
CASES = {
    "a tom": surveyed(),
    "eight stations": surveyed(count=8, wave_mm=0.15),
    "64 stations on a bass drum": surveyed(count=64, around_mm=1757.0, depth_mm=356.0),
    "a deep floor tom": surveyed(around_mm=1276.0, depth_mm=406.0),
    "a heavy lean": surveyed(lean_mm=4.0),
    "hardly anything": surveyed(wave_mm=0.02),
    "diameters only": surveyed(radii=False, across=(304.1, 306.2, 305.0, 303.0, 302.8, 303.9)),
    "nothing read": surveyed(edges=False, radii=False),
}


def strip_of(values: tuple[float, ...], *, step: float = 0.05, **more: object) -> Strip:
    count = len(values)
    return Strip(
        name="tried", heading="Tried", says="", zero_says="the plate", resolution_mm=step,
        along_deg=tuple(360.0 * i / count for i in range(count)), value_mm=values, **more,
    )  # fmt: skip


def drawn(strip: Strip, *, high_mm: float = 20.0, scale: float = 0.25) -> Drawing:
    manner = replace(AS_FOUND, scale=scale)
    around = Around(around_mm=AROUND_MM, left_mm=-30.0, right_mm=AROUND_MM + 30.0)
    strokes = strip_strokes(strip, around=around, top_mm=0.0, high_mm=high_mm, manner=manner)
    high = strip_high_mm(strip, high_mm=high_mm) / scale
    return Drawing(
        left_mm=-100.0, top_mm=0.0, width_mm=AROUND_MM + 200.0, height_mm=high, strokes=strokes,
        title="tried", scale=scale,
    )  # fmt: skip


def dots(svg: str, name: str) -> dict[int, tuple[float, float]]:
    """Middles of a strip's dots by their place in the row, read back from SVG."""
    found = {}
    for circle in ET.fromstring(svg).iter(f"{SVG}circle"):
        ident = circle.get("id", "").removeprefix(f"strip-{name}-")
        if ident.isdigit():
            found[int(ident) - 1] = (float(circle.get("cx", "")), float(circle.get("cy", "")))
    return found


def zero_of(svg: str, name: str) -> float:
    line = next(
        item for item in ET.fromstring(svg).iter(f"{SVG}line")
        if item.get("id") == f"strip-{name}-zero"
    )  # fmt: skip
    assert line.get("y1") == line.get("y2")
    return float(line.get("y1", ""))


def test_a_dot_worked_by_hand() -> None:
    """720 mm round: 90 degrees lie at 180 mm. 0.3 mm at 20 to 1 is 6 mm of paper, which at a
    quarter of full size is 24 mm drawn."""
    strip = strip_of((0.0, -0.3, 0.0, -0.1))
    assert factor_for(strip, high_mm=8.0) == 20.0
    svg = to_svg(drawn(strip, high_mm=8.0))
    x, y = dots(svg, "tried")[1]
    assert x == pytest.approx(180.0)
    assert y - zero_of(svg, "tried") == pytest.approx(24.0)
    turned = to_svg(drawn(replace(strip, grows=-1), high_mm=8.0))
    assert dots(turned, "tried")[1][1] - zero_of(turned, "tried") == pytest.approx(-24.0)


@pytest.mark.parametrize("name", [n for n in CASES if n not in ("nothing read", "diameters only")])
def test_every_dot_of_every_strip_lies_at_its_reading(name: str) -> None:
    """By the definition of the strip: along in mm on the surface, heights by the stated factor."""
    drum = CASES[name]
    pictures = survey_pictures(drum, survey_drum(drum), wide_mm=A4_WIDE, high_mm=A4_HIGH)
    found = survey_drum(drum)
    around = drum.circumference.mean_mm
    seen = 0
    for picture in pictures:
        svg = to_svg(picture)
        words = " ".join(s.text for s in picture.strokes if isinstance(s, Text))
        for end in ("batter", "resonant"):
            edge, circle = found.at(end).edge, found.at(end).roundness
            assert edge is not None
            assert circle is not None
            radii = circle.least_squares.deviations_mm
            for kind, values in (("edge", edge.height_mm), ("radius", radii)):
                places = dots(svg, f"{kind}-{end}")
                if not places:
                    continue
                seen += 1
                up = -1.0 if (kind, end) == ("edge", "resonant") else 1.0
                zero = zero_of(svg, f"{kind}-{end}")
                assert sorted(places) == list(range(len(values)))
                heights = [(zero - places[i][1]) * picture.scale * up for i in range(len(values))]
                most = max(range(len(values)), key=lambda i: abs(values[i]))
                factor = round(heights[most] / values[most], 2)
                assert f"1 mm is {factor:g} mm here" in words
                for i, (value, height) in enumerate(zip(values, heights, strict=True)):
                    assert places[i][0] == pytest.approx(
                        edge.along_deg[i] * around / 360.0, abs=1e-3
                    )
                    assert height == pytest.approx(value * factor, abs=1e-3)
    assert seen == 4


@given(
    st.lists(st.integers(-400, 400), min_size=4, max_size=24),
    st.sampled_from((0.01, 0.05, 0.1, 0.5)), st.floats(4.0, 40.0),
)  # fmt: skip
def test_the_factor_is_the_largest_that_fits(steps: list[int], step: float, high: float) -> None:
    strip = strip_of(tuple(n * step for n in steps), step=step)
    factor = factor_for(strip, high_mm=high)
    least, most = strip.reach_mm

    def fits(tried: float) -> bool:
        return (most - least) * tried <= high and step * tried <= STEP_SHOWS_MM

    assert fits(factor) or factor == FACTORS[-1]
    assert not any(fits(other) for other in FACTORS if other > factor)


@given(st.lists(st.integers(-40, 40), min_size=4, max_size=30))
def test_between_readings_run_straight_lines_and_nothing_else(steps: list[int]) -> None:
    """A path along the strip goes from dot to dot: no curve makes up what was not read."""
    picture = drawn(strip_of(tuple(n * 0.05 for n in steps)))
    places = sorted(dots(to_svg(picture), "tried").values())
    lines = [s for s in picture.strokes if isinstance(s, Line) and s.layer is Layer.READING]
    inside = [
        (line.x1_mm, line.y1_mm, line.x2_mm, line.y2_mm)
        for line in lines
        if line.x1_mm > -1e-6 and line.x2_mm < AROUND_MM - 1e-6
    ]
    expected = [(*a, *b) for a, b in itertools.pairwise(places)]
    assert np.allclose(sorted(inside), expected, atol=1e-3)
    # Across the datum the last is joined to the first.
    (closing,) = [line for line in lines if abs(line.x2_mm - AROUND_MM) < 1e-3]
    ends = (closing.x1_mm, closing.y1_mm, closing.y2_mm)
    assert ends == pytest.approx((*places[-1], places[0][1]), abs=1e-3)


def test_the_plane_of_a_plane_edge_goes_through_every_dot() -> None:
    """Exact law: a plane fitted to readings that lie in a plane holds all of them."""
    drum = surveyed(radii=False)
    read = edge_read(12, wave_mm=0.0)
    heights = tuple(0.4 * math.cos(math.radians(a - 75.0)) - 1.0 for a in read.along_deg)
    read = replace(read, value_mm=heights)
    ends = replace(drum.readings.batter, edge=read)
    strip = edge_strip(
        survey_drum(replace(drum, readings=replace(drum.readings, batter=ends))).batter
    )
    assert strip is not None
    picture = drawn(strip)
    path = next(s for s in picture.strokes if isinstance(s, Path) and s.ident.endswith("-plane"))
    xs, ys = zip(*path.points, strict=True)
    for x, y in dots(to_svg(picture), "edge-batter").values():
        # 181 points: a chord lies under the cosine by less than 1/8 (2 pi / 180)^2 of its height.
        assert np.interp(x, xs, ys) == pytest.approx(y, abs=0.05)


def test_each_diameter_stands_at_both_of_its_ends() -> None:
    drum = surveyed(radii=False, across=(304.0, 306.0, 305.0, 303.0))
    strip = radius_strip(survey_drum(drum).batter)
    assert strip is not None
    picture = drawn(strip)
    places = dots(to_svg(picture), "across-batter")
    factor = factor_for(strip, high_mm=20.0) / picture.scale
    for index, value in enumerate(across_read(304.0, 306.0, 305.0, 303.0).value_mm):
        (x1, y1), (x2, y2) = places[index], places[index + 4]
        assert x2 - x1 == pytest.approx(AROUND_MM / 2)
        assert y1 == y2
        # their mean is 304.5 by hand
        assert zero_of(to_svg(picture), "across-batter") - y1 == pytest.approx(
            (value - 304.5) * factor, abs=1e-3
        )
    joined = [s for s in picture.strokes if isinstance(s, Line) and s.layer is Layer.READING]
    assert all(line.x1_mm == line.x2_mm for line in joined), "diameters stand, nothing joins them"


def test_heights_far_from_the_plate_are_drawn_from_a_whole_millimetre() -> None:
    strip = strip_of((12.3, 12.5, 12.4, 12.35))
    assert strip.zero_mm == 12.0
    assert strip.reach_mm == (12.0, 12.5)
    assert strip_of((0.3, 0.5, 0.4, 0.35)).zero_mm == 0.0


def shown(drum: Drum) -> tuple[Drawing, ...]:
    return survey_pictures(drum, survey_drum(drum), wide_mm=A4_WIDE, high_mm=A4_HIGH)


@pytest.mark.parametrize("name", CASES)
def test_words_of_the_survey_stand_on_nothing_and_inside_the_picture(name: str) -> None:
    for picture in shown(CASES[name]):
        assert texts_that_overlap(picture) == [], picture.title
        assert words_on_lines(picture, layers={Layer.NUMBER, Layer.NOTE, Layer.SCALE}) == []
        window = (
            picture.left_mm, picture.top_mm, picture.left_mm + picture.width_mm,
            picture.top_mm + picture.height_mm,
        )  # fmt: skip
        for stroke in picture.strokes:
            box = extent_box(stroke)
            assert window[0] <= box[0] + 1e-6, stroke
            assert window[1] <= box[1] + 1e-6, stroke
            assert box[2] <= window[2] + 1e-6, stroke
            assert box[3] <= window[3] + 1e-6, stroke


@pytest.mark.parametrize("name", CASES)
def test_pictures_fit_their_space_and_share_the_along_axis(name: str) -> None:
    pictures = shown(CASES[name])
    assert len({picture.scale for picture in pictures}) == 1
    assert len({round(picture.left_mm, 6) for picture in pictures}) == 1
    for picture in pictures:
        assert picture.width_mm * picture.scale <= A4_WIDE + 1e-6
        assert picture.height_mm * picture.scale <= A4_HIGH + 1e-6
        for text in (s for s in picture.strokes if isinstance(s, Text)):
            # 2.5 mm capitals (common practice, no source)
            assert text.size_mm * picture.scale * 0.7275 >= 2.5


def test_where_everything_fits_there_is_one_picture() -> None:
    drum = surveyed()
    assert len(survey_pictures(drum, survey_drum(drum), wide_mm=396.0, high_mm=245.0)) == 1
    assert len(shown(drum)) == 2
    assert len(shown(CASES["nothing read"])) == 1


def test_the_picture_says_every_reading_in_words() -> None:
    strip = strip_of((0.0, -0.3, 0.0, -0.15))
    assert say_strip(strip) == (
        "Tried, from the plate: 0 degrees 0 mm, 90 degrees -0.3 mm, 180 degrees 0 mm, "
        "270 degrees -0.15 mm."
    )
    drum = surveyed(count=8)
    said = " ".join(picture.says for picture in shown(drum))
    for heading in ("Batter edge", "Resonant edge", "Batter end", "Resonant end"):
        assert heading in said
    assert said.count("315 degrees") == 4

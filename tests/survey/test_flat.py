"""Planes, tilt, saddle and high places of an edge."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize

from counterhoop.errors import BadInput, Grade
from counterhoop.survey.flat import flat_finding, flatness
from counterhoop.survey.flat_heights import EdgeHeights
from counterhoop.survey.plane_edge import least_squares_plane, minimum_zone_plane
from counterhoop.survey.round_stations import equal_stations_deg

COUNTS = pytest.mark.parametrize("count", ["reduced", pytest.param("full", marks=pytest.mark.full)])
HEIGHTS = st.lists(st.floats(-2, 2), min_size=4, max_size=24)
# Eight heights on an edge of 177.8 mm radius, worked with numpy's least squares and scipy's
# linear programmes before this was written.
EIGHT = (0.00, 0.12, 0.31, 0.22, 0.05, -0.10, 0.02, -0.06)


def of(heights):
    return EdgeHeights(
        along_deg=equal_stations_deg(len(heights)), height_mm=tuple(heights), resolution_mm=0.01
    )


def test_eight_heights():
    squares, zone = least_squares_plane(of(EIGHT)), minimum_zone_plane(of(EIGHT))
    assert (squares.mean_mm, squares.cos_mm / 177.8, squares.sin_mm / 177.8) == pytest.approx(
        (0.07, -0.00012996, 0.00090488), abs=1e-8
    )
    assert squares.tilt_deg(radius_mm=177.8) == pytest.approx(0.05238, abs=1e-5)
    assert squares.total_mm == pytest.approx(0.183462, abs=1e-6)
    assert zone.total_mm == pytest.approx(0.163518, abs=1e-6)
    assert squares.deviations_mm == pytest.approx(
        (-0.04689, -0.04743, 0.07911, 0.01990, -0.04311, -0.07257, 0.11089, 0.00010), abs=6e-6
    )


def test_one_of_four_raised_by_hand():
    for plane in (least_squares_plane(of((0.4, 0, 0, 0))), minimum_zone_plane(of((0.4, 0, 0, 0)))):
        assert plane.total_mm == pytest.approx(0.2, abs=1e-12)


@given(st.floats(0.01, 1), st.floats(-1, 1), st.floats(-1, 1), st.floats(-1, 1))
def test_a_saddle_whatever_the_tilt(size, mean, lean, turn):
    # Exact law: tilt and offset change no deviation; the zone of a saddle is twice its size.
    angles = np.radians(equal_stations_deg(8))
    found = flatness(
        of(size * np.cos(2 * angles) + mean + lean * np.cos(angles) + turn * np.sin(angles))
    )
    assert found.least_squares.total_mm == pytest.approx(2 * size, abs=1e-9)
    assert found.minimum_zone.total_mm == pytest.approx(2 * size, abs=1e-9)
    assert found.saddle is not None
    assert found.saddle.amplitude_mm == pytest.approx(size, abs=1e-9)
    assert found.tilt.amplitude_mm == pytest.approx(math.hypot(lean, turn), abs=1e-9)
    assert [h.name for h in found.high_places] == ["station 1", "station 5"]


@COUNTS
@given(heights=HEIGHTS, turn=st.floats(0, 360))
def test_the_zone_against_a_linear_programme(count, heights, turn):
    # Independent: scipy's HiGHS; stations turned and in any order.
    edge = EdgeHeights(
        along_deg=tuple((turn - a) % 360 for a in equal_stations_deg(len(heights))),
        height_mm=tuple(heights),
    )
    angles = np.radians(edge.along_deg)
    basis = np.column_stack((np.ones(len(angles)), np.cos(angles), np.sin(angles)))
    one = np.ones((len(angles), 1))
    found = optimize.linprog(
        (0, 0, 0, 2),
        A_ub=np.block([[basis, -one], [-basis, -one]]),
        b_ub=np.concatenate((heights, -np.asarray(heights))),
        bounds=[(None, None)] * 3 + [(0, None)],
        method="highs",
    )
    zone = minimum_zone_plane(edge)
    assert zone.total_mm == pytest.approx(found.fun, abs=1e-7)
    assert zone.total_mm <= least_squares_plane(edge).total_mm + 1e-10


def test_words_of_a_finding():
    uneven = flatness(of((0.3, 0, -0.3, 0, 0.3, 0, -0.3, 0)))
    said = flat_finding(uneven, edge_says="batter edge", limit_mm=0.2)
    assert said.grade is Grade.TAKE_CARE
    assert said.says == (
        "Batter edge is 0.60 mm out of flat, read at 8 stations, "
        "high at station 1 (+0.30 mm), station 5 (+0.30 mm)."
    )
    assert flat_finding(uneven, edge_says="batter edge", limit_mm=0.7).code == "edge-flat"
    even = flatness(of((0.01, 0, -0.01, 0) * 2))
    said = flat_finding(even, edge_says="batter edge", limit_mm=0.2)
    assert (said.grade, said.code, said.too_close) == (Grade.NOTE, "edge-flat", False)
    assert said.says == "Batter edge lies within 0.02 mm of flat, read at 8 stations."


def test_a_gap_less_than_nothing():
    with pytest.raises(BadInput, match="less than 0"):
        EdgeHeights.from_gaps((0, 0.1, -0.1, 0))

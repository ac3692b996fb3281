"""Planes to sand to: no wood added, least removal, parallel ends; held against brute force."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.place import Place
from counterhoop.errors import BadInput
from counterhoop.survey.flat_heights import EdgeHeights
from counterhoop.survey.plane_edge import minimum_zone_plane, rim_columns
from counterhoop.survey.round_stations import equal_stations_deg
from counterhoop.survey.truing_plan import plan_truing

EIGHT = (0.00, 0.12, 0.31, 0.22, 0.05, -0.10, 0.02, -0.06)
HEIGHTS = st.lists(st.floats(-2, 2), min_size=4, max_size=12)


def of(heights):
    return EdgeHeights(along_deg=equal_stations_deg(len(heights)), height_mm=tuple(heights))


def tilted(heights, mean, lean, turn):
    return of(np.asarray(heights) + rim_columns(of(heights)) @ (mean, lean, turn))


def planes_on_three(heights):
    """Return every plane through three stations that lies nowhere above the edge."""
    columns = rim_columns(of(heights))
    for three in combinations(range(len(heights)), 3):
        plane = np.linalg.solve(columns[list(three)], np.asarray(heights)[list(three)])
        if (np.asarray(heights) - columns @ plane).min() > -1e-9:
            yield plane


def flat_after(cut, edge):
    left = np.asarray(edge.height_mm) - cut.removal_mm
    columns = rim_columns(edge)
    return np.ptp(left - columns @ np.linalg.lstsq(columns, left, rcond=None)[0])


@given(HEIGHTS)
def test_least_most_is_the_minimum_zone(heights):
    # Exact law: the lower plane of the minimum zone takes the zone's width off, no plane less.
    edge = of(heights)
    cut = plan_truing(batter=edge).batter
    assert cut is not None
    assert min(cut.removal_mm) >= 0
    assert cut.most_mm == pytest.approx(minimum_zone_plane(edge).total_mm, abs=1e-9)
    assert flat_after(cut, edge) < 1e-9


@given(HEIGHTS)
def test_least_total_against_every_plane_on_three_stations(heights):
    # Independent: the best of all planes that three stations hold (a vertex of the programme).
    edge = of(heights)
    plan = plan_truing(resonant=edge, least="total")
    assert plan.resonant is not None
    assert plan.batter is None
    least = min(np.mean(heights) - plane[0] for plane in planes_on_three(heights))
    assert plan.resonant.mean_mm == pytest.approx(least, abs=1e-8)
    assert min(plan.resonant.removal_mm) >= 0
    assert flat_after(plan.resonant, edge) < 1e-9
    assert plan_truing(resonant=edge).resonant.mean_mm >= least - 1e-9
    assert plan.resonant.most_mm >= plan_truing(resonant=edge).resonant.most_mm - 1e-9


@given(HEIGHTS, st.floats(-1, 1), st.floats(-1, 1), st.floats(-1, 1))
def test_the_plane_measured_from_changes_no_wood(heights, mean, lean, turn):
    # Exact law: tilting the plate changes the plane, not the wood.
    straight = plan_truing(batter=of(heights))
    leaning = plan_truing(batter=tilted(heights, mean, lean, turn))
    assert straight.batter.removal_mm == pytest.approx(leaning.batter.removal_mm, abs=1e-7)
    assert leaning.truing.batter.mean_mm == pytest.approx(
        straight.truing.batter.mean_mm - mean, abs=1e-7
    )


@pytest.mark.parametrize("least", ["most", "total"])
@given(st.data())
def test_both_ends_parallel(least, data):
    count = data.draw(st.integers(4, 10))
    heights = st.lists(st.floats(-1, 1), min_size=count, max_size=count)
    top, bottom = of(data.draw(heights)), of(data.draw(heights))
    lean = data.draw(st.floats(-2, 2))
    between = 300 + lean * rim_columns(top)[:, 1]
    depth = between + np.asarray(top.height_mm) + np.asarray(bottom.height_mm)
    plan = plan_truing(
        batter=top, resonant=bottom, least=least, parallel=True, depth_mm=tuple(depth)
    )
    alone = plan_truing(batter=top, resonant=bottom, least=least, depth_mm=tuple(depth))
    left = depth - plan.batter.removal_mm - plan.resonant.removal_mm
    # What is left is the same depth everywhere, counted straight from the readings.
    assert np.ptp(left) < 1e-8
    assert left[0] == pytest.approx(plan.depth_after_mm[0], abs=1e-8)
    assert plan.depth_misfit_mm == pytest.approx(0, abs=1e-9)
    for cut, edge in ((plan.batter, top), (plan.resonant, bottom)):
        assert min(cut.removal_mm) >= 0
        assert flat_after(cut, edge) < 1e-9
    # Parallel is one more demand: it never takes less.
    if least == "most":
        both = max(plan.batter.most_mm, plan.resonant.most_mm)
        assert both >= max(alone.batter.most_mm, alone.resonant.most_mm) - 1e-8
    else:
        both = plan.batter.mean_mm + plan.resonant.mean_mm
        assert both >= alone.batter.mean_mm + alone.resonant.mean_mm - 1e-8


def test_parallel_to_an_edge_that_stays():
    # By hand: flat edges, 2 mm out of parallel, all of it off the batter edge.
    flat = of((0.0,) * 8)
    depth = tuple(200 + rim_columns(flat)[:, 1])
    plan = plan_truing(batter=flat, parallel=True, depth_mm=depth)
    assert plan.batter.removal_mm[0] == pytest.approx(2, abs=1e-9)
    assert plan.batter.removal_mm[4] == pytest.approx(0, abs=1e-9)
    assert plan.batter.most_at == ("station 1",)
    assert plan.depth_after_mm == pytest.approx((199, 199), abs=1e-9)


def test_two_ends_share_what_is_out_of_parallel():
    # By hand: with both edges cut, each takes 1 mm at its own side instead of 2 at one.
    flat = of((0.0,) * 8)
    depth = tuple(200 + rim_columns(flat)[:, 1])
    plan = plan_truing(batter=flat, resonant=flat, parallel=True, depth_mm=depth)
    assert max(plan.batter.most_mm, plan.resonant.most_mm) == pytest.approx(1, abs=1e-8)


def test_heights_move_at_their_own_place():
    # A hole's height from the new edge: the plane as sanded, at the hole's own angle.
    plan = plan_truing(batter=tilted(EIGHT, 0, 0.5, 0), everywhere_mm=0.2)
    assert min(plan.batter.removal_mm) == pytest.approx(0.2, abs=1e-12)
    here, there = (plan.truing.moved(Place(a, 50.0)).down_mm for a in (0.0, 180.0))
    assert here == pytest.approx(50 + plan.batter.plane.at_mm(0), abs=1e-12)
    assert there == pytest.approx(50 + plan.batter.plane.at_mm(180), abs=1e-12)
    assert here - there == pytest.approx(2 * plan.batter.plane.cos_mm, abs=1e-12)


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        (lambda: plan_truing(), "no edge"),
        (lambda: plan_truing(batter=of(EIGHT), parallel=True), "parallel"),
        (lambda: plan_truing(batter=of(EIGHT), depth_mm=(200.0,) * 7), "stations"),
        (lambda: plan_truing(batter=of(EIGHT), everywhere_mm=-1), "added"),
    ],
)
def test_what_is_refused(wrong, says):
    with pytest.raises(BadInput, match=says):
        wrong()

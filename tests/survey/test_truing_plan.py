"""Planes to sand to: no wood added, least removal, parallel ends; held against brute force."""

from __future__ import annotations

import math
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize

from counterhoop.development.place import Place
from counterhoop.development.rim import RimPlane
from counterhoop.errors import BadInput
from counterhoop.survey.flat_heights import EdgeHeights
from counterhoop.survey.plane_cut import standing_plane
from counterhoop.survey.plane_edge import minimum_zone_plane, rim_columns
from counterhoop.survey.round_stations import equal_stations_deg, shares
from counterhoop.survey.truing_plan import plan_truing

EIGHT = (0.00, 0.12, 0.31, 0.22, 0.05, -0.10, 0.02, -0.06)
COUNTS = pytest.mark.parametrize("count", ["reduced", pytest.param("full", marks=pytest.mark.full)])
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


@COUNTS
@given(heights=HEIGHTS)
def test_least_most_is_the_minimum_zone(count, heights):
    # Exact law: the lower plane of the minimum zone takes the zone's width off, no plane less.
    edge = of(heights)
    cut = plan_truing(batter=edge).batter
    assert cut is not None
    assert min(cut.removal_mm) >= 0
    assert cut.most_mm == pytest.approx(minimum_zone_plane(edge).total_mm, abs=1e-9)
    assert flat_after(cut, edge) < 1e-9


@COUNTS
@given(heights=HEIGHTS)
def test_least_total_against_every_plane_on_three_stations(count, heights):
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


@given(HEIGHTS, st.floats(0, 360))
def test_turned_and_mirrored_the_same_wood_comes_off(heights, turn):
    # Exact law: how the shell lies on the bench changes no removal.
    for least in ("most", "total"):
        edge = of(heights)
        seen = EdgeHeights(
            along_deg=tuple((turn - a) % 360 for a in edge.along_deg), height_mm=edge.height_mm
        )
        here, there = (plan_truing(batter=one, least=least).batter for one in (edge, seen))
        assert here.most_mm == pytest.approx(there.most_mm, abs=1e-9)
        assert here.mean_mm == pytest.approx(there.mean_mm, abs=1e-9)


def edges_of(data, low=4, high=10):
    """Return an edge read at places of its own."""
    count = data.draw(st.integers(low, high))
    shift = data.draw(st.floats(0, 360))
    return EdgeHeights(
        along_deg=tuple((shift + a) % 360 for a in equal_stations_deg(count)),
        height_mm=tuple(data.draw(st.lists(st.floats(-1, 1), min_size=count, max_size=count))),
    )


def linear_programme(edges, lean, *, least):
    """Return the least most and the least total that parallel planes can take, by HiGHS."""
    size = 3 * len(edges) + 1
    rows, limits, total = [], [], np.zeros(size)
    for number, edge in enumerate(edges):
        under, over = np.zeros((2, len(edge.along_deg), size))
        at = slice(3 * number, 3 * number + 3)
        under[:, at], over[:, at] = rim_columns(edge), -rim_columns(edge)
        over[:, -1] = -1.0
        rows += [under, over]
        limits += [edge.height_mm, -np.asarray(edge.height_mm)]
        total[at] = -np.asarray(shares(edge.along_deg)) @ rim_columns(edge)
    same = np.zeros((2, size))
    same[0, 1::3] = same[1, 2::3] = 1.0
    found = optimize.linprog(
        np.eye(size)[-1] if least == "most" else total,
        A_ub=np.vstack(rows),
        b_ub=np.concatenate(limits),
        A_eq=same[:, :size],
        b_eq=-np.asarray(lean),
        bounds=[(None, None)] * size,
        method="highs",
    )
    assert found.status == 0
    heights = sum(np.asarray(shares(edge.along_deg)) @ np.asarray(edge.height_mm) for edge in edges)
    return found.fun if least == "most" else found.fun + heights


@COUNTS
@pytest.mark.parametrize("least", ["most", "total"])
@given(data=st.data())
def test_both_ends_parallel(count, least, data):
    top, bottom = edges_of(data), edges_of(data)
    lean, turn = data.draw(st.floats(-2, 2)), data.draw(st.floats(-2, 2))
    depth = RimPlane(mean_mm=300.0, cos_mm=lean, sin_mm=turn)
    plan = plan_truing(batter=top, resonant=bottom, least=least, parallel=True, depth=depth)
    alone = plan_truing(batter=top, resonant=bottom, least=least, depth=depth)
    # What is left is the same depth everywhere, counted at any place round the rim.
    left = [
        300.0
        + lean * math.cos(math.radians(a))
        + turn * math.sin(math.radians(a))
        + plan.batter.plane.at_mm(a)
        + plan.resonant.plane.at_mm(a)
        for a in range(0, 360, 15)
    ]
    assert np.ptp(left) < 1e-9
    assert left[0] == pytest.approx(plan.depth_after_mm[0], abs=1e-9)
    for cut, edge in ((plan.batter, top), (plan.resonant, bottom)):
        assert min(cut.removal_mm) >= 0
        assert flat_after(cut, edge) < 1e-9
    # Independent: the same programme by another solver. Parallel never takes less than alone.
    best = linear_programme((top, bottom), (lean, turn), least=least)
    if least == "most":
        both = max(plan.batter.most_mm, plan.resonant.most_mm)
        assert both >= max(alone.batter.most_mm, alone.resonant.most_mm) - 1e-9
    else:
        both = plan.batter.mean_mm + plan.resonant.mean_mm
        assert both >= alone.batter.mean_mm + alone.resonant.mean_mm - 1e-9
    assert both == pytest.approx(best, abs=1e-7)


def test_parallel_to_an_edge_that_stays():
    # By hand: a flat edge, 2 mm out of parallel, all of it off the batter edge.
    depth = RimPlane(mean_mm=200.0, cos_mm=1.0, sin_mm=0.0)
    plan = plan_truing(batter=of((0.0,) * 8), parallel=True, depth=depth)
    assert plan.batter.removal_mm[0] == pytest.approx(2, abs=1e-9)
    assert plan.batter.removal_mm[4] == pytest.approx(0, abs=1e-9)
    assert plan.batter.most_at == ("station 1",)
    assert plan.depth_after_mm == pytest.approx((199, 199), abs=1e-9)


def test_parallel_to_the_plate_that_the_other_edge_stands_on():
    # By hand: read by gauge, the other edge stands out 0.5 cos and touches a plate there.
    leans = tilted((0.0, -0.2) * 4, 0.0, 0.5, 0.0)
    depth = RimPlane(mean_mm=200.0, cos_mm=1.0, sin_mm=0.0)
    plan = plan_truing(batter=of((0.0,) * 8), parallel=True, depth=depth, stays=leans)
    assert plan.batter.removal_mm[0] == pytest.approx(3, abs=1e-9)
    assert plan.batter.removal_mm[4] == pytest.approx(0, abs=1e-9)


@given(st.lists(st.floats(0, 1), min_size=5, max_size=12), st.floats(-1, 1), st.floats(-1, 1))
def test_a_plate_under_an_edge(gaps, lean, turn):
    # Exact law: nothing is under it, and it leans with the edge.
    edge = of([-0.1 - g for g in gaps])
    plate = standing_plane(edge)
    assert (rim_columns(edge) @ plate - np.asarray(edge.height_mm)).min() > -1e-12
    leaning = standing_plane(tilted(edge.height_mm, 0.0, lean, turn))
    # Two plates may be as near; each then has as little air under it.
    air = [np.mean(rim_columns(edge) @ f) for f in (plate, leaning - (0.0, lean, turn))]
    assert air[0] == pytest.approx(air[1], abs=1e-9)


def test_stations_a_hair_apart_on_the_two_edges():
    # Independent: HiGHS. One low place on the batter edge, 2 mm out of parallel.
    low = EdgeHeights(along_deg=(0.0, 90.0, 180.0, 270.0), height_mm=(0.0, -1.0, 0.0, 0.0))
    flat = EdgeHeights(along_deg=(0.01, 90.01, 180.01, 270.01), height_mm=(0.0,) * 4)
    depth = RimPlane(mean_mm=300.0, cos_mm=-1.0, sin_mm=0.0)
    plan = plan_truing(batter=low, resonant=flat, least="total", parallel=True, depth=depth)
    best = linear_programme((low, flat), (-1.0, 0.0), least="total")
    assert plan.batter.mean_mm + plan.resonant.mean_mm == pytest.approx(best, abs=1e-6)


def test_two_ends_share_what_is_out_of_parallel():
    # By hand: with both edges cut, each takes 1 mm at its own side instead of 2 at one.
    flat = of((0.0,) * 8)
    depth = RimPlane(mean_mm=200.0, cos_mm=1.0, sin_mm=0.0)
    plan = plan_truing(batter=flat, resonant=flat, parallel=True, depth=depth)
    assert max(plan.batter.most_mm, plan.resonant.most_mm) == pytest.approx(1, abs=1e-9)


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
        (lambda: plan_truing(batter=of(EIGHT), everywhere_mm=-1), "added"),
    ],
)
def test_what_is_refused(wrong, says):
    with pytest.raises(BadInput, match=says):
        wrong()

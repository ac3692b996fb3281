"""The reference circles against brute force and another package, for every sort of shell."""

from __future__ import annotations

from itertools import combinations

import miniball
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.survey.circle_circumscribed import circumscribed_circle
from counterhoop.survey.circle_readings import RadialReadings
from counterhoop.survey.circle_zone import minimum_zone_circle
from counterhoop.survey.lowest_corner import lowest_corner
from counterhoop.survey.plane_zone import least_zone
from counterhoop.survey.round import roundness

COUNTS = pytest.mark.parametrize("count", ["reduced", pytest.param("full", marks=pytest.mark.full)])


@st.composite
def shells(draw, most=24):
    """A shell of 178 mm within 2, read at places of its own from a bar anywhere near the middle."""
    count = draw(st.integers(5, most))
    step = 360.0 / count
    along = [i * step + draw(st.floats(-0.3, 0.3)) * step for i in range(count)]
    dial = draw(st.lists(st.floats(-2, 2), min_size=count, max_size=count))
    return RadialReadings(along_deg=tuple(along), radius_mm=tuple(178.0 + d for d in dial))


def narrowest(points):
    """Return the least zone over every middle that four or three readings can hold.

    The closest pair of circles touches four readings, two on each or three on one; its middle
    lies on the middle lines of two pairs of them.
    """
    pairs = np.array(list(combinations(range(len(points)), 2)))
    first, second = points[pairs[:, 0]], points[pairs[:, 1]]
    normal, at = second - first, ((second**2 - first**2) / 2.0).sum(axis=1)
    i, j = np.array(list(combinations(range(len(pairs)), 2))).T
    across = normal[i, 0] * normal[j, 1] - normal[i, 1] * normal[j, 0]
    i, j, across = (a[np.abs(across) > 1e-9] for a in (i, j, across))
    middles = np.stack(
        (
            (at[i] * normal[j, 1] - at[j] * normal[i, 1]) / across,
            (at[j] * normal[i, 0] - at[i] * normal[j, 0]) / across,
        ),
        axis=1,
    )
    # Far middles turn circles into lines; the readings go all the way round.
    middles = middles[np.hypot(*middles.T) < 30.0]
    away = np.hypot(*(points[None, :, :] - middles[:, None, :]).transpose(2, 0, 1))
    return np.ptp(away, axis=1).min()


@COUNTS
@given(readings=shells(most=9))
def test_the_zone_is_the_narrowest_of_all(count, readings):
    # Brute force.
    assert minimum_zone_circle(readings).total_mm == pytest.approx(
        narrowest(readings.points()), abs=1e-9
    )


@COUNTS
@given(readings=shells())
def test_the_smallest_circle_round(count, readings):
    # Independent: miniball.
    centre, square = miniball.get_bounding_ball(readings.points(), rng=np.random.default_rng(1))
    found = circumscribed_circle(readings)
    assert found.radius_mm == pytest.approx(np.sqrt(square), abs=1e-8)
    assert (found.x_mm, found.y_mm) == pytest.approx(tuple(centre), abs=1e-5)


@COUNTS
@given(readings=shells(), turn=st.floats(0, 360), mirror=st.booleans(), factor=st.floats(0.5, 3))
def test_laws_of_all_four_at_once(count, readings, turn, mirror, factor):
    # Exact laws: turned, mirrored and scaled, every figure follows; no zone is below the least.
    way = -1.0 if mirror else 1.0
    seen = RadialReadings(
        along_deg=tuple(turn + way * a for a in readings.along_deg),
        radius_mm=tuple(factor * r for r in readings.radius_mm),
    )
    before, after = roundness(readings), roundness(seen)
    for kind in ("least_squares", "minimum_zone", "circumscribed", "inscribed"):
        here, there = getattr(before, kind), getattr(after, kind)
        assert there.radius_mm == pytest.approx(factor * here.radius_mm, abs=1e-7)
        assert here.total_mm >= before.minimum_zone.total_mm - 1e-9
    assert after.minimum_zone.total_mm == pytest.approx(
        factor * before.minimum_zone.total_mm, abs=1e-7
    )


def test_how_sure_the_middle_is_against_chance():
    # Independent: six hundred surveys of a round shell with made-up errors of a fixed seed.
    chance = np.random.default_rng(7)
    along = tuple(360.0 * i / 16 for i in range(16))
    found = [
        roundness(
            RadialReadings(
                along_deg=along, radius_mm=tuple(178.0 + chance.normal(0.0, 0.02, size=16))
            )
        )
        for _ in range(600)
    ]
    for spread, said, closed in (
        ([f.least_squares.radius_mm for f in found], "radius_doubt_mm", 0.02 / 4.0),
        ([f.least_squares.x_mm for f in found], "middle_doubt_mm", 0.02 * np.sqrt(2.0 / 16.0)),
    ):
        assert np.std(spread) == pytest.approx(closed, rel=0.1)
        mean_square = np.sqrt(np.mean([getattr(f, said) ** 2 for f in found]))
        assert mean_square == pytest.approx(closed, rel=0.06)


def test_a_dial_is_no_surer_than_its_step():
    # Closed form: readings exactly on a circle leave the step's own doubt, over the root of N.
    flat = roundness(RadialReadings.from_dial((0.0,) * 9, zero_radius_mm=178, resolution_mm=0.01))
    assert flat.radius_doubt_mm == pytest.approx(0.01 / np.sqrt(12.0) / 3.0, rel=1e-9)


@COUNTS
@given(data=st.data())
def test_the_lowest_corner_against_every_corner(count, data):
    # Brute force: limits enough to close the room in, every three of them a corner.
    limits, slope = data.draw(st.integers(4, 9)), st.integers(-100, 100).map(lambda n: n / 100)
    ways = [np.eye(3), -np.eye(3)] + [
        np.array([data.draw(st.tuples(slope, slope, slope))]) for _ in range(limits)
    ]
    rows = np.vstack(ways)
    held = np.append(np.full(6, 5.0), [data.draw(st.floats(0, 3)) for _ in range(limits)])
    aims = np.array([data.draw(st.tuples(slope, slope, slope)), (1.0, 0.0, 0.0)])
    found = lowest_corner(rows, held, aims=aims)
    assert (rows @ found - held).max() < 1e-9
    best = np.inf
    for three in combinations(range(len(rows)), 3):
        if abs(np.linalg.det(rows[list(three)])) < 1e-6:
            continue
        corner = np.linalg.solve(rows[list(three)], held[list(three)])
        if (rows @ corner - held).max() < 1e-7:
            best = min(best, float(aims[0] @ corner))
    assert aims[0] @ found == pytest.approx(best, abs=1e-5)


def test_a_wrong_zone_would_be_seen():
    # The comparator fails where it should: the least-squares zone is not the narrowest.
    readings = RadialReadings.from_dial((0.4,) + (0.0,) * 7, zero_radius_mm=100)
    squares = roundness(readings).least_squares
    assert squares.total_mm > narrowest(readings.points()) + 0.02
    columns = np.column_stack((np.ones(8), np.cos(np.arange(8.0)), np.sin(np.arange(8.0))))
    assert least_zone(columns, np.eye(8)[0])[1] > 0.0

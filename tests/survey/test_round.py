"""The four reference circles: by hand, by other solvers, and by laws that hold for any shell."""

from __future__ import annotations

import math
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize

from counterhoop.errors import BadInput
from counterhoop.survey.circle_circumscribed import circumscribed_circle
from counterhoop.survey.circle_inscribed import inscribed_circle
from counterhoop.survey.circle_least_squares import least_squares_circle
from counterhoop.survey.circle_readings import RadialReadings
from counterhoop.survey.circle_reference import CircleKind
from counterhoop.survey.circle_zone import minimum_zone_circle
from counterhoop.survey.round import roundness

# Two sets of dial readings whose circles were found with other programs before this was written:
# scipy least_squares, sequential linear programmes and Nelder-Mead, two smallest-enclosing-circle
# packages, and Voronoi vertices.
SET_A = (0.00, 0.35, 0.82, 1.10, 0.96, 0.54, 0.08, -0.40, -0.75, -0.92, -0.70, -0.30)
SET_C = (0.6, -0.2, -0.5, 0.3, 0.7, -0.4, -0.6, 0.1)
DIALS = st.lists(st.floats(-2, 2), min_size=5, max_size=24)


def of(dial, zero=177.5):
    return RadialReadings.from_dial(dial, zero_radius_mm=zero)


def moved(readings, x, y):
    """Return the same shell read from a bar that stands elsewhere."""
    points = readings.points() - (x, y)
    return RadialReadings(
        along_deg=tuple(np.degrees(np.arctan2(points[:, 1], points[:, 0]))),
        radius_mm=tuple(np.hypot(points[:, 0], points[:, 1])),
    )


def circles(readings):
    found = roundness(readings)
    assert found.inscribed is not None
    return found.least_squares, found.minimum_zone, found.circumscribed, found.inscribed


def test_three_lobes_by_hand():
    # Exact law: by symmetry every circle has its middle in the middle.
    readings = of((0.25, -0.25) * 3, 100)
    for circle, radius in zip(circles(readings), (100, 100, 100.25, 99.75), strict=True):
        assert (circle.x_mm, circle.y_mm) == pytest.approx((0, 0), abs=1e-9)
        assert circle.radius_mm == pytest.approx(radius, abs=1e-9)
        assert circle.total_mm == pytest.approx(0.5, abs=1e-9)


def test_one_of_eight_raised_by_hand():
    # Closed form for the zone: middle (h/2, 0), outer circle through the raised point and ...
    squares, zone, round_it, inside = circles(of((0.4,) + (0,) * 7, 100))
    assert (squares.total_mm, squares.x_mm, squares.radius_mm) == pytest.approx(
        (0.370671, 0.100050, 100.050025), abs=1e-6
    )
    assert (zone.x_mm, zone.y_mm, zone.outer_mm) == pytest.approx((0.2, 0, 100.2), abs=1e-9)
    assert zone.inner_mm == pytest.approx(
        math.hypot(100 * math.sqrt(0.5) - 0.2, 100 * math.sqrt(0.5)), abs=1e-9
    )
    assert zone.total_mm == pytest.approx(0.341321, abs=1e-6)
    assert (round_it.x_mm, round_it.radius_mm) == pytest.approx((0.2, 100.2), abs=1e-9)
    assert (inside.x_mm, inside.radius_mm, inside.total_mm) == pytest.approx(
        (0, 100, 0.4), abs=1e-9
    )


@pytest.mark.parametrize("count", [4, 8, 12])
def test_one_raised_agrees_with_the_limacon_at_small_height(count):
    # Limacon, least squares: h (1 - (2/n)(1 - cos 2 pi/n)) (NIST/SEMATECH e-Handbook mpc344).
    high = 1e-3
    found = least_squares_circle(of((high,) + (0,) * (count - 1)))
    assert found.total_mm == pytest.approx(
        high * (1 - 2 / count * (1 - math.cos(2 * math.pi / count))), abs=1e-7
    )


def test_readings_exactly_on_a_circle():
    around = np.radians(np.arange(9) * 40.0)
    x, y = 3 + 150 * np.cos(around), -2 + 150 * np.sin(around)
    readings = RadialReadings(
        along_deg=tuple(np.degrees(np.arctan2(y, x))), radius_mm=tuple(np.hypot(x, y))
    )
    for circle in circles(readings):
        assert (circle.x_mm, circle.y_mm, circle.radius_mm) == pytest.approx((3, -2, 150), abs=1e-8)
        assert circle.total_mm == pytest.approx(0, abs=1e-9)


def test_set_a():
    squares, zone, round_it, inside = circles(of(SET_A))
    assert (squares.x_mm, squares.y_mm, squares.radius_mm) == pytest.approx(
        (-0.034003, 0.935456, 177.566234), abs=1e-6
    )
    assert (squares.total_mm, squares.peak_mm, squares.valley_mm, squares.rms_mm) == pytest.approx(
        (0.285298, 0.132712, 0.152586, 0.074033), abs=1e-6
    )
    assert (zone.x_mm, zone.y_mm, zone.outer_mm, zone.inner_mm) == pytest.approx(
        (-0.073137, 0.890107, 177.709908, 177.470122), abs=2e-6
    )
    assert zone.total_mm == pytest.approx(0.239787, abs=1e-6)
    assert (round_it.x_mm, round_it.y_mm, round_it.radius_mm, round_it.total_mm) == pytest.approx(
        (0.057895, 0.979294, 177.641674, 0.329567), abs=1e-6
    )
    assert (inside.x_mm, inside.y_mm, inside.radius_mm, inside.total_mm) == pytest.approx(
        (-0.105365, 0.932497, 177.477085, 0.282015), abs=1e-6
    )


def test_set_c_where_a_search_from_the_middle_stops_short():
    squares, zone, round_it, inside = circles(of(SET_C, 177.0))
    assert (squares.x_mm, squares.y_mm, squares.radius_mm, squares.total_mm) == pytest.approx(
        (-0.025110, 0.095567, 177.000014, 1.270481), abs=1e-6
    )
    assert (zone.x_mm, zone.y_mm, zone.total_mm) == pytest.approx((-0.05, 0.05, 1.2), abs=1e-5)
    assert (round_it.x_mm, round_it.y_mm, round_it.radius_mm, round_it.total_mm) == pytest.approx(
        (-0.05, 0.0, 177.65, 1.249993), abs=1e-6
    )
    assert (inside.x_mm, inside.y_mm, inside.radius_mm) == pytest.approx(
        (0.444495, 0.05, 176.450560), abs=1e-6
    )


@given(DIALS)
def test_against_other_solvers(dial):
    # Independent: scipy's least squares; brute force over all pairs and triples of points.
    readings = of(dial)
    points = readings.points()
    squares, zone, round_it, inside = circles(readings)

    def off(at):
        away = np.hypot(*(points - at).T)
        return away - away.mean()

    oracle = optimize.least_squares(off, (0, 0), xtol=1e-15, ftol=1e-15, gtol=1e-15)
    assert squares.rms_mm == pytest.approx(math.sqrt(2 * oracle.cost / len(dial)), abs=1e-9)
    tried = [points[list(p)].mean(axis=0) for p in combinations(range(len(dial)), 2)]
    through = []
    for triple in combinations(range(len(dial)), 3):
        a, b, c = points[list(triple)]
        through.append(
            a
            + np.linalg.solve(2 * np.array([b - a, c - a]), [sum((b - a) ** 2), sum((c - a) ** 2)])
        )
    least = min(np.hypot(*(points - at).T).max() for at in tried + through)
    assert round_it.radius_mm == pytest.approx(least, abs=1e-9)
    local = optimize.minimize(
        lambda at: np.ptp(np.hypot(*(points - at).T)),
        (squares.x_mm, squares.y_mm),
        method="Nelder-Mead",
        options={"xatol": 1e-9, "fatol": 1e-9},
    )
    assert zone.total_mm <= local.fun + 1e-9
    largest = max(
        np.hypot(*(points - at).T).min()
        for at in through
        if np.hypot(*at) < 20  # the readings lie within 2 mm of round: middles lie near
    )
    assert inside.radius_mm == pytest.approx(largest, abs=1e-8)


@given(DIALS)
def test_the_zone_against_a_linear_programme(dial):
    # Independent: scipy's HiGHS on the distances made straight about the middle that was found;
    # no middle near it does better.
    readings = of(dial)
    zone = minimum_zone_circle(readings)
    points = readings.points() - (zone.x_mm, zone.y_mm)
    away = np.hypot(*points.T)
    basis = np.column_stack((np.ones(len(away)), points / away[:, None]))
    one = np.ones((len(away), 1))
    found = optimize.linprog(
        (0, 0, 0, 2),
        A_ub=np.block([[basis, -one], [-basis, -one]]),
        b_ub=np.concatenate((away - 177.5, 177.5 - away)),
        bounds=[(None, None)] * 3 + [(0, None)],
        method="highs",
    )
    assert zone.total_mm == pytest.approx(found.fun, abs=1e-7)


@given(DIALS, st.floats(0, 360), st.floats(-1.5, 1.5), st.floats(-1.5, 1.5))
def test_turned_mirrored_and_off_centre(dial, turn, x, y):
    # Exact laws: how the shell is held or where the bar stands changes no deviation.
    readings = of(dial)
    turned = RadialReadings(
        along_deg=tuple((turn - a) % 360 for a in readings.along_deg), radius_mm=readings.radius_mm
    )
    for seen in (turned, moved(readings, x, y)):
        for before, after in zip(circles(readings), circles(seen), strict=True):
            # Two inscribed circles may be equally large, each with deviations of its own.
            if before.kind is not CircleKind.INSCRIBED:
                assert after.total_mm == pytest.approx(before.total_mm, abs=1e-7)
            assert after.radius_mm == pytest.approx(before.radius_mm, abs=1e-7)


@given(DIALS, st.floats(0.5, 3))
def test_scaled(dial, factor):
    readings = of(dial)
    larger = RadialReadings(
        along_deg=readings.along_deg, radius_mm=tuple(factor * r for r in readings.radius_mm)
    )
    for before, after in zip(circles(readings), circles(larger), strict=True):
        assert after.radius_mm == pytest.approx(factor * before.radius_mm, abs=1e-7)
        if before.kind is not CircleKind.INSCRIBED:
            assert after.total_mm == pytest.approx(factor * before.total_mm, abs=1e-7)


@given(DIALS)
def test_the_order_of_the_four(dial):
    # Exact law: no zone is less than the least, no circle round less than the smallest.
    squares, zone, round_it, inside = circles(of(dial))
    assert zone.total_mm <= min(squares.total_mm, round_it.total_mm, inside.total_mm) + 1e-9
    assert round_it.radius_mm <= zone.outer_mm + 1e-9
    assert inside.radius_mm >= zone.inner_mm - 1e-9
    assert sum(squares.deviations_mm) == pytest.approx(0, abs=1e-9)


def test_an_arc():
    # Geometry recovers the circle from 60 degrees of it; nothing is inscribed there.
    along = tuple(range(0, 65, 5))
    points = [(4 + 150 * math.cos(math.radians(a)), 150 * math.sin(math.radians(a))) for a in along]
    arc = RadialReadings(
        along_deg=tuple(math.degrees(math.atan2(y, x)) for x, y in points),
        radius_mm=tuple(math.hypot(x, y) for x, y in points),
    )
    found = least_squares_circle(arc)
    assert (found.x_mm, found.y_mm, found.radius_mm) == pytest.approx((4, 0, 150), abs=1e-7)
    assert roundness(arc).inscribed is None
    with pytest.raises(BadInput, match="arc"):
        inscribed_circle(arc)


def test_even_worn_to_an_oval():
    # 8 mm out of round, more than any shell that is still one.
    dial = tuple(2 * math.cos(math.radians(2 * 22.5 * i)) for i in range(16))
    assert minimum_zone_circle(of(dial)).total_mm == pytest.approx(4, abs=1e-9)
    assert circumscribed_circle(of(dial)).radius_mm == pytest.approx(179.5, abs=1e-9)


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        (lambda: of((0, 0, 0)), "too few"),
        (lambda: of((0, 0, 0, math.nan)), "no number"),
        (lambda: of((0, 0, 0, -200)), "not greater than 0"),
        (lambda: RadialReadings(along_deg=(0, 90, 180), radius_mm=(1, 1, 1, 1)), "not one reading"),
        (
            lambda: RadialReadings(along_deg=(0, 90, 180, 360), radius_mm=(1, 1, 1, 1)),
            "same place",
        ),
    ],
)
def test_what_is_refused(wrong, says):
    with pytest.raises(BadInput, match=says):
        wrong()

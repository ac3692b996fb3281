"""A plane through heights round the rim, and how sure its swing is."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.rim import between_stations_mm, rim_plane, swing_doubt_mm

SIXTEEN = tuple(22.5 * i for i in range(16))
UNEVEN = (0.0, 40.0, 130.0, 155.0, 260.0)


@given(st.floats(30.0, 900.0), st.floats(-9.0, 9.0), st.floats(-9.0, 9.0))
def test_a_plane_is_found_again(mean: float, cos: float, sin: float) -> None:
    # Exact law: heights made from a plane lie on it, at even and at uneven stations.
    for along in (SIXTEEN, UNEVEN):
        heights = [
            mean + cos * math.cos(math.radians(a)) + sin * math.sin(math.radians(a)) for a in along
        ]
        plane = rim_plane(along, heights)
        assert (plane.mean_mm, plane.cos_mm, plane.sin_mm) == pytest.approx(
            (mean, cos, sin), abs=1e-9
        )
        assert max(map(abs, plane.off_mm)) < 1e-9


@pytest.mark.parametrize("count", [3, 4, 8, 16, 64])
def test_doubt_of_the_swing_at_even_stations(count: int) -> None:
    # Closed form: the columns 1, cos, sin are orthogonal there, each of cos and sin with the sum
    # of squares n / 2.
    along = tuple(360.0 * i / count for i in range(count))
    plane = rim_plane(along, [200.0 + 0.7 * math.cos(math.radians(a - 33.0)) for a in along])
    assert swing_doubt_mm(plane, along, reading_mm=0.3) == pytest.approx(
        0.3 * math.sqrt(2.0 / count)
    )


@pytest.mark.parametrize("along", [SIXTEEN, UNEVEN])
def test_doubt_of_the_swing_by_trial(along: tuple[float, ...]) -> None:
    # Brute force: 4 000 drums with a swing of 5 mm read with a doubt of 0.05 each. The scatter of
    # a standard deviation from so many is 1.1 per cent; 5 are allowed.
    chance = np.random.default_rng(7)
    true = [200.0 + 5.0 * math.cos(math.radians(a - 33.0)) for a in along]
    swings = []
    for noise in chance.normal(0.0, 0.05, size=(4_000, len(along))):
        plane = rim_plane(along, np.asarray(true) + noise)
        swings.append(math.hypot(plane.cos_mm, plane.sin_mm))
    said = swing_doubt_mm(rim_plane(along, true), along, reading_mm=0.05)
    assert np.std(swings) == pytest.approx(said, rel=0.05)


def test_what_the_plane_leaves_over_counts() -> None:
    # Hand-worked: one of four readings 5 too high leaves 1.25 everywhere, one degree of freedom,
    # so 2.5 for a reading and 2.5 / sqrt(2) for the swing, which is itself 2.5.
    along = (0.0, 90.0, 180.0, 270.0)
    plane = rim_plane(along, (205.0, 200.0, 200.0, 200.0))
    assert math.hypot(plane.cos_mm, plane.sin_mm) == pytest.approx(2.5)
    assert swing_doubt_mm(plane, along, reading_mm=0.3) == pytest.approx(2.5 / math.sqrt(2.0))


def test_between_stations_straight_and_across_the_datum() -> None:
    # Hand-worked.
    along, height = (22.5, 112.5, 202.5, 292.5), (0.0, 1.0, 0.0, 2.0)
    found = [between_stations_mm(along, height, at_deg=a) for a in (22.5, 67.5, 337.5, 0.0, 360.0)]
    assert found == pytest.approx([0.0, 0.5, 1.0, 0.5, 0.5])


def test_a_swing_of_nothing_has_its_doubt_too() -> None:
    plane = rim_plane((0.0, 120.0, 240.0), (200.0, 200.0, 200.0))
    assert swing_doubt_mm(plane, (0.0, 120.0, 240.0), reading_mm=0.3) == pytest.approx(
        0.3 * math.sqrt(2.0 / 3.0)
    )

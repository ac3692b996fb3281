"""Out of round in the words of the bench, and readings held against each other."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput, Grade
from counterhoop.survey.circle_readings import RadialReadings
from counterhoop.survey.harmonics import harmonics, tells_odd_lobes
from counterhoop.survey.round_across import Diameters, across_from_caliper, across_from_radii
from counterhoop.survey.round_stations import equal_stations_deg
from counterhoop.survey.round_words import lug_marks_off_mm, pitch_split_cents, round_findings

LIMITS = {"end_says": "batter end", "care_mm": 3.0, "ask_mm": 6.0}


def shell(difference=2.0, lobes=0.0, count=16, high=30.0, x=0.0, y=0.0):
    """Return radial readings of an oval with three lobes, and caliper readings of it."""
    along = np.radians(equal_stations_deg(count))
    h = math.radians(high)

    def off(a):
        return difference / 4 * np.cos(2 * (a - h)) + lobes * np.cos(3 * a)

    dial = off(along) + x * np.cos(along) + y * np.sin(along)
    half = along[: count // 2]
    return (
        RadialReadings.from_dial(tuple(dial), zero_radius_mm=178.0),
        Diameters(
            along_deg=tuple(np.degrees(half)),
            diameter_mm=tuple(356.0 + off(half) + off(half + math.pi)),
        ),
    )


def caliper(*sizes):
    step = 180 / len(sizes)
    return Diameters(along_deg=tuple(step * i for i in range(len(sizes))), diameter_mm=sizes)


@given(st.floats(0.1, 4), st.floats(-1, 1), st.floats(0, 0.5), st.sampled_from([15, 16, 24]))
def test_radii_and_caliper_say_the_same(difference, x, lobes, count):
    # Independent: the caliper's diameters are made from the shape, not from its radii.
    radial, across = shell(difference, lobes=lobes, count=count, x=x, high=45.0)
    seen, read = across_from_radii(radial), across_from_caliper(across)
    if count % 2 == 0:
        assert seen.difference_mm == pytest.approx(read.difference_mm, abs=0.03)
        assert seen.mean_mm == pytest.approx(read.mean_mm, abs=0.02)
    assert seen.difference_mm == pytest.approx(difference, abs=0.05 + 0.05 * difference)


def test_lug_marks_against_the_way_along_an_oval():
    # Independent: the way along an oval of 356 mm, 4 mm out, summed in small steps.
    a = np.linspace(0, 2 * math.pi, 200001)
    r = 178 + np.cos(2 * a)
    way = np.concatenate(([0], np.cumsum(np.hypot(np.diff(r * np.cos(a)), np.diff(r * np.sin(a))))))
    assert np.abs(way - way[-1] * a / (2 * math.pi)).max() == pytest.approx(
        lug_marks_off_mm(4.0), abs=0.01
    )


def test_pitch_split_against_a_membrane_worked_out():
    # Independent: the two lowest odd waves of an oval membrane, by least squares on its rim
    # (Bessel functions times cosines that must vanish there), 10 mm out on 356.
    from scipy.optimize import minimize_scalar
    from scipy.special import jv

    around = np.linspace(0, 2 * math.pi, 80, endpoint=False)
    rim = 1 + 10 / 4 / 178 * np.cos(2 * around)

    def left(k, shape):
        table = np.column_stack([jv(n, k * rim) * shape(n * around) for n in (1, 3, 5)])
        inner = np.column_stack([jv(n, 0.5 * k) * shape(n * around) for n in (1, 3, 5)])
        size = np.linalg.norm(inner[:, 0])
        others = np.linalg.lstsq(table[:, 1:], -table[:, 0], rcond=None)[0]
        return np.linalg.norm(table[:, 0] + table[:, 1:] @ others) / size

    low, high = (
        minimize_scalar(
            lambda k, s=shape: left(k, s), bounds=(3.7, 3.95), method="bounded",
            options={"xatol": 1e-9},
        ).x
        for shape in (np.cos, np.sin)
    )  # fmt: skip
    assert 1200 * math.log2(high / low) == pytest.approx(
        pitch_split_cents(10, mean_mm=356), rel=0.02
    )


@pytest.mark.parametrize(
    ("off", "grade", "remedy"),
    [(2, Grade.NOTE, ""), (4, Grade.TAKE_CARE, "Try the head"), (7, Grade.TAKE_CARE, "Get help")],
)
def test_grades(off, grade, remedy):
    # Limits: common practice, no source.
    said, odd = round_findings(across_from_caliper(caliper(356, 356 + off)), **LIMITS)
    assert said.grade is grade
    assert remedy in said.remedy
    assert odd.code == "odd-lobes-not-seen"
    assert not said.too_close


def test_words():
    [said, _] = round_findings(across_from_caliper(caliper(356.0, 358.4)), **LIMITS)
    assert said.says == "Batter end is 2.4 mm out of round, from 2 diameters."
    [said, _] = round_findings(across_from_caliper(caliper(356.0, 360.0)), **LIMITS)
    assert "4.0 mm out of round: 360.0 mm across at 90 degrees, 356.0 mm at 0," in said.says
    [said, _] = round_findings(across_from_caliper(caliper(356.0, 359.05)), **LIMITS)
    assert said.too_close
    assert said.says.endswith(": too close to call, measure again.")


def test_the_workshops_own_limits_decide():
    across = across_from_caliper(caliper(356.0, 358.0))
    [said, _] = round_findings(across, end_says="batter end", care_mm=1.0, ask_mm=1.5)
    assert "help" in said.remedy


def test_odd_lobes_are_said():
    radial, across = shell(0.0, lobes=0.5, count=30)
    assert across_from_caliper(across).difference_mm == pytest.approx(0, abs=1e-9)
    waves = harmonics(radial.along_deg, radial.radius_mm)
    said = round_findings(across_from_radii(radial), waves=waves, **LIMITS)[-1]
    assert said.code == "odd-lobes"
    assert said.measured == pytest.approx(1.0, abs=1e-3)
    assert "3 lobes" in said.says


def test_nothing_is_said_of_lobes_that_are_not_there():
    radial, _ = shell(2.0, lobes=0.0, count=30)
    waves = harmonics(radial.along_deg, radial.radius_mm, reading_doubt_mm=0.01)
    [said] = round_findings(across_from_radii(radial), waves=waves, **LIMITS)
    assert said.code == "out-of-round"


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: caliper(356.0),
        lambda: caliper(356.0, -1.0),
        lambda: Diameters(along_deg=(0, 180), diameter_mm=(356, 356)),
    ],
)
def test_what_is_refused(wrong):
    with pytest.raises(BadInput):
        wrong()


def test_four_radii_tell_no_three_lobes():
    """Three lobes at four stations are 0.5, 0, -0.5... and look like a bar off the middle."""
    radial, _ = shell(0.0, lobes=0.5, count=4)
    waves = harmonics(radial.along_deg, radial.radius_mm)
    [_, said] = round_findings(across_from_radii(radial), waves=waves, **LIMITS)
    assert said.code == "odd-lobes-not-seen"
    assert said.says == "So few radii of the batter end cannot tell three or five lobes."


@pytest.mark.parametrize(("count", "tells"), [(4, False), (6, False), (7, True)])
def test_seven_stations_tell_three_lobes(count, tells):
    """Nyquist: more than two stations to a wave."""
    along = equal_stations_deg(count)
    assert tells_odd_lobes(harmonics(along, (178.0,) * count)) is tells


def test_a_dial_knows_differences_to_a_hundredth_and_sizes_to_a_tenth():
    # 4 cos 15 degrees: no station stands on the oval's own line, which lies at 30.
    radial, _ = shell(4.0, count=16)
    said = round_findings(across_from_radii(radial), **LIMITS)[0].says
    assert said.startswith("Batter end is 3.86 mm out of round: 357.9 mm across at 22 degrees,")

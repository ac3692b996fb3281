"""Least engagement against worked values of the federal handbook's formula."""

from __future__ import annotations

import math

import pytest

from counterhoop.errors import BadInput
from counterhoop.standards.engagement import least_engagement_mm
from counterhoop.standards.thread_geometry import (
    internal_minor_mm,
    pitch_diameter_mm,
    stress_area_mm2,
)
from counterhoop.standards.threads import Thread, all_threads, find_thread


def test_basic_sizes() -> None:
    """Source: FED-STD-H28/2B formula (engineersedge.com; Machinery's Handbook, 24th ed., as
    quoted), worked by hand: 12-24 0.1200 in = 0.556 D; M5 2.912 mm = 0.582 D."""
    unc, m5 = find_thread("12-24"), find_thread("M5")
    assert least_engagement_mm(unc) / 25.4 == pytest.approx(0.1200, abs=6e-5)
    assert least_engagement_mm(unc) / unc.major_mm == pytest.approx(0.556, abs=6e-4)
    assert least_engagement_mm(m5) == pytest.approx(2.912, abs=6e-4)
    assert least_engagement_mm(m5) / m5.major_mm == pytest.approx(0.582, abs=6e-4)


def test_limits_of_class_2() -> None:
    """12-24 2A/2B, Kn 0.1810 and Es 0.1845 in (from memory): 0.1550 in, 0.72 D."""
    unc = find_thread("12-24")
    got = least_engagement_mm(
        unc, internal_minor_most_mm=25.4 * 0.1810, pitch_diameter_least_mm=25.4 * 0.1845
    )
    assert got / 25.4 == pytest.approx(0.1550, abs=6e-5)
    assert got / unc.major_mm == pytest.approx(0.72, abs=0.005)


@pytest.mark.parametrize("thread", all_threads(), ids=lambda thread: thread.designation)
def test_thread_sheared_there_is_twice_the_bar_pulled(thread: Thread) -> None:
    """The formula's own law: shear area of the nut's thread at Kn = 2 x stress area."""
    length = least_engagement_mm(thread)
    kn, es = internal_minor_mm(thread), pitch_diameter_mm(thread)
    turns = length / thread.pitch_mm
    slope = math.tan(math.radians(thread.angle_deg / 2))
    shear = math.pi * turns * kn * (thread.pitch_mm / 2 + slope * (es - kn))
    assert shear == pytest.approx(2 * stress_area_mm2(thread), rel=1e-12)
    assert 0.4 * thread.major_mm < length < 0.75 * thread.major_mm


@pytest.mark.parametrize(
    ("minor_mm", "pitch_mm"), [(0.0, 4.0), (4.6, 4.5), (4.0, 9.0), (float("nan"), 4.5)]
)
def test_limits_that_cannot_be(minor_mm: float, pitch_mm: float) -> None:
    with pytest.raises(BadInput, match="cannot have"):
        least_engagement_mm(
            find_thread("M5"), internal_minor_most_mm=minor_mm, pitch_diameter_least_mm=pitch_mm
        )

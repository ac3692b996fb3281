"""Threads that pass for each other and do not fit."""

from __future__ import annotations

import itertools

import pytest

from counterhoop.standards.threads import all_threads, find_thread
from counterhoop.standards.unlike_threads import unlike


@pytest.mark.parametrize(
    ("first", "second", "verdict", "major_mm", "pitch_mm"),
    [
        ("12-24", "12-24 UNC", "same", 0.0, 0.0),
        ("M6", "M6x1", "same", 0.0, 0.0),
        ("12-24", "7/32-24", "look-alike", 0.070, 0.0),
        ("10-32", "M5", "look-alike", 0.174, 0.00625),
        ("3/16-24", "10-24", "look-alike", 0.064, 0.0),
        ("12-24", "12-28", "different", 0.0, -0.1512),
        ("M6", "M6x0.75", "different", 0.0, -0.25),
        ("M6", "1/4-20", "different", 0.35, 0.27),
        ("M4", "8-32", "different", 0.166, 0.094),
        ("12-24", "M5", "different", -0.486, -0.258),
    ],
)
def test_pairs(first: str, second: str, verdict: str, major_mm: float, pitch_mm: float) -> None:
    """Differences worked by hand from the basic sizes (ASME B1.1, ISO 261)."""
    found = unlike(find_thread(first), find_thread(second))
    assert found.verdict == verdict
    assert found.major_apart_mm == pytest.approx(major_mm, abs=6e-4)
    assert found.pitch_apart_mm == pytest.approx(pitch_mm, abs=6e-4)
    assert found.angle_apart_deg == 0.0


def test_says_both_figures() -> None:
    says = unlike(find_thread("M6"), find_thread("M6x0.75")).says
    assert says == (
        "M6 and M6x0.75 are different: major 6 mm both, pitch 1 and 0.75 mm, flanks 60 deg both"
    )


def test_the_order_of_two_threads_does_not_matter() -> None:
    for one, other in itertools.combinations(all_threads(), 2):
        there, back = unlike(one, other), unlike(other, one)
        assert there.verdict == back.verdict != "same"
        assert there.major_apart_mm == -back.major_apart_mm

"""Ears against lugs: evenly spaced ones agree as often as both counts share a divisor."""

from __future__ import annotations

import math

import pytest

from counterhoop.development.surface import Skin, Surface
from counterhoop.scheme.ears import agreeing

SKIN = Surface(skin=Skin.OLD, circumference_mm=1110.0)


def even(count, start=0.0):
    return [(start + 360.0 * k / count) % 360.0 for k in range(count)]


@pytest.mark.parametrize("lugs", range(4, 13))
@pytest.mark.parametrize("ears", range(4, 13))
def test_as_many_agree_as_the_greatest_common_divisor(lugs, ears):
    """Exact law: the lugs under an ear form the common subgroup of both spacings."""
    found = agreeing(even(lugs, 7.0), ears=ears, surface=SKIN, within_mm=0.8)
    assert len(found.kept) == math.gcd(lugs, ears)
    assert found.lugs_off == lugs - len(found.kept)
    assert found.lugs_new == ears - len(found.kept)


def test_a_lug_off_its_spacing_does_not_agree():
    row = even(8)
    row[4] += 2.0
    found = agreeing(row, ears=8, surface=SKIN, within_mm=0.8)
    assert found.kept == (0, 1, 2, 3, 5, 6, 7)


def test_one_ear_serves_one_lug():
    """Two lugs nearer than the tolerance cannot both hang on one ear."""
    found = agreeing([0.0, 0.1, 180.0], ears=2, surface=SKIN, within_mm=0.8)
    assert len(found.kept) == 2

"""The air between two heads by finite elements: another method, no shapes, no counting.

Truth: scikit-fem, see ``drum_by_elements``. The air outside, where there is any, is the same.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from drum_by_elements import pitches_by_elements
from toms import cents, drum

from counterhoop.heads.ends import Outside, outside_of
from counterhoop.heads.modes import modes_of
from counterhoop.heads.stiffness import Stiffness

TERMS = 12
TOMS = [drum(), drum(14, 5.5), drum(12, 8, batter=1500.0, resonant=900.0), drum(20, 16)]


def outside(shell, around):
    """Of each head alone; the elements know no air that both move outside."""
    own = outside_of(around, TERMS, shell.depth_m / shell.radius_m).batter
    return Outside(own, own, np.zeros_like(own))


def none():
    return Outside(*(np.zeros((TERMS, TERMS)) for _ in range(3)))


def lowest_of_both(shell, around, air, **how):
    ours = [mode.hz for mode in modes_of(Stiffness(shell, around, TERMS, air))][:3]
    elements = pitches_by_elements(shell, around, outside=air, near_hz=250.0, **how)
    return ours, [hz for hz in elements if hz > 1.0][:3]


@pytest.mark.parametrize("around", [0, 1])
@pytest.mark.parametrize(
    "shell", [TOMS[2], *(pytest.param(tom, marks=pytest.mark.full) for tom in (*TOMS[:2], TOMS[3]))]
)
def test_two_heads_and_the_air_between_to_a_fifth_of_a_cent(shell, around):
    for air in (outside(shell, around), none()):
        ours, elements = lowest_of_both(shell, around, air)
        assert [cents(a, b) for a, b in zip(ours, elements, strict=True)] == pytest.approx(
            [0.0] * 3, abs=0.2
        )


@pytest.mark.full
@pytest.mark.parametrize("around", [0, 1, 2, 3])
def test_finer_elements_come_no_less_close(around):
    for shell in TOMS:
        air = outside(shell, around)
        ours, elements = lowest_of_both(shell, around, air, cells=(48, 32))
        assert [cents(a, b) for a, b in zip(ours, elements, strict=True)] == pytest.approx(
            [0.0] * 3, abs=0.2
        )


@pytest.mark.parametrize("around", [0, pytest.param(1, marks=pytest.mark.full)])
def test_the_elements_could_disagree(around):
    """A shell a centimetre deeper, or air without weight outside, is told at once."""
    shell = drum()
    air = outside(shell, around)
    ours, _ = lowest_of_both(shell, around, air)
    _, deeper = lowest_of_both(replace(shell, depth_m=shell.depth_m + 0.01), around, air)
    _, bare = lowest_of_both(shell, around, none())
    assert max(abs(cents(a, b)) for a, b in zip(ours, deeper, strict=True)) > 1.0
    assert max(abs(cents(a, b)) for a, b in zip(ours, bare, strict=True)) > 50.0


def test_coarse_elements_are_worse():
    shell = TOMS[0]
    air = outside(shell, 0)
    off = []
    for cells in ((3, 2), (24, 16)):
        pairs = zip(*lowest_of_both(shell, 0, air, cells=cells), strict=True)
        off.append(max(abs(cents(a, b)) for a, b in pairs))
    assert off[0] > 10.0 * off[1]

"""The axis from how much of two pitches each tap calls up.

Truth: amplitudes written from the two shapes of a head with two lobes, a hand that errs and noise,
all drawn here; nothing is heard.
"""

from __future__ import annotations

import numpy as np
import pytest
from taps import apart_deg, rods

from counterhoop.listen.read_round_rim import ASTRAY
from counterhoop.listen.rim_axis import AxisFit, fit_axis


def drawn(count: int, seed: int, *, hand_deg: float = 3.0, near=None) -> tuple[float, AxisFit]:
    """Return an axis by chance and what is made of taps round it; ``near`` is the rod of each."""
    chance = np.random.default_rng([count, seed])
    axis = chance.uniform(0.0, np.pi)
    phone = axis + chance.choice([-1.0, 1.0]) * np.radians(chance.uniform(20.0, 70.0))
    told = np.radians(rods(count))
    at = told[list(near) if near else slice(None)]
    at = at + np.radians(hand_deg) * chance.standard_normal(count)
    strength = chance.uniform(0.5, 1.0, count) * np.exp(2j * np.pi * chance.uniform(size=count))
    low = np.sin(at - axis) * np.sin(phone - axis)
    high = np.cos(at - axis) * np.cos(phone - axis)
    size = 10.0 ** (-chance.uniform(25.0, 50.0) / 20.0)
    noise = size / np.sqrt(2.0) * (chance.standard_normal((2, count, 2)) @ [1.0, 1j])
    read = fit_axis(
        strength[:, None] * np.stack([low, high], axis=1) + noise.T,
        np.repeat(size**2 * np.eye(2)[None], count, axis=0).astype(complex),
        along_deg=rods(count), place=[0] * count,
    )  # fmt: skip
    return float(np.degrees(axis)), read


@pytest.mark.parametrize(
    "seeds", [range(1), pytest.param(range(15), marks=pytest.mark.full)], ids=["few", "many"]
)
def test_the_doubt_of_the_axis_holds_the_errors_of_a_hand(seeds):
    """A normal error is within its doubt in 68 of 100 cases, and within twice that in 95."""
    scores = []
    for count in range(5, 13):
        for seed in seeds:
            axis, read = drawn(count, seed)
            axes = [read.axis_deg, *([read.mirror_deg] if read.mirrored else [])]
            scores.append(min(apart_deg(one, axis) for one in axes) / read.axis_doubt_deg)
            assert read.turning < ASTRAY
    slack = 2.0 / np.sqrt(len(scores))
    assert np.sqrt(np.mean(np.square(scores))) == pytest.approx(1.0, abs=slack)
    assert np.mean(np.array(scores) < 1.0) > 0.68 - slack
    assert np.mean(np.array(scores) < 2.0) > 0.95 - slack / 2.0


def test_a_phone_on_a_still_line_is_no_sign_of_a_rod_passed_over():
    """Amplitudes of a clean recording, off by half a hundredth as a glide not quite fitted does."""
    for count in (6, 8, 12):
        chance = np.random.default_rng(count)
        at = np.radians(rods(count))
        heard = np.stack([0.01 * np.sin(at - 1.0), np.cos(at - 1.0)], axis=1)
        bent = 0.005 / np.sqrt(2.0) * (chance.standard_normal((count, 2, 2)) @ [1.0, 1j])
        read = fit_axis(
            heard + bent, np.repeat(1e-6 * np.eye(2)[None], count, axis=0).astype(complex),
            along_deg=rods(count), place=[0] * count,
        )  # fmt: skip
        assert read.turning < ASTRAY / 2.0


@pytest.mark.full
def test_a_rod_passed_over_and_another_tapped_twice_is_mostly_seen():
    found = [
        drawn(8, seed, near=[0, 1, 1, 2, 3, 4, 5, 7])[1].turning > ASTRAY for seed in range(10)
    ]
    assert sum(found) >= 8

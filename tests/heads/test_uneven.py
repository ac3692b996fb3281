"""The (1,1) pair at first order and the pitch round the rim.

Truth: the exact law for any shape of the mode, by sums over the disc; figures worked out apart
from this code for a 12 in head of 10 mil film and a pressed hoop; brute force for what a phone
hears.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from counterhoop.heads.film_field import FilmField
from counterhoop.heads.head import film_head
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.modes import modes_around
from counterhoop.heads.rim_load import RimLoad, Wave, load_of_rods
from counterhoop.heads.uneven import Doublet, doublet, doublet_of, pitch_heard, pitch_near

LEAN = st.floats(0.001, 0.15)
PLACE = st.floats(0.0, 360.0)
PASSED = {1: 1.0, 2: 0.864, 3: 0.385, 4: 0.121, 5: 0.043, 6: 0.018, 7: 0.0, 8: 0.0}
"""A pressed steel hoop; see ``test_hoop``."""


def cents(hz: float, of: float) -> float:
    return 1200.0 * math.log2(hz / of)


def swung_stretch(field: FilmField, shape, axis_rad: float) -> float:
    """Twice the energy of ``R(r) cos(th - axis)``, summed over the disc of radius 1."""
    nodes, weights = np.polynomial.legendre.leggauss(24)
    r, turn = (nodes + 1.0) / 2.0, np.arange(48) * 2.0 * np.pi / 48
    rr, tt, rt = field.at(r[:, None], turn[None, :])
    out = shape.deriv()(r)[:, None] * np.cos(turn - axis_rad)
    side = -(shape(r) / r)[:, None] * np.sin(turn - axis_rad)
    power = rr * out**2 + tt * side**2 + 2.0 * rt * out * side
    return float((power.sum(axis=1) * r * weights).sum())


@given(
    st.lists(st.floats(-1.0, 1.0), min_size=1, max_size=4),
    st.floats(0.01, 0.3), st.sampled_from(("stuck", "slips")), st.floats(0.1, 0.45),
)  # fmt: skip
def test_the_split_is_half_the_lean_whatever_the_shape_from_centre_to_rim(parts, lean, held, nu):
    """So the air, which bends the shape, and how the film is held change nothing."""
    assume(max(map(abs, parts)) > 0.1)
    shape = np.polynomial.Polynomial([0.0, 1.0, -1.0]) * np.polynomial.Polynomial(parts)
    waves = (Wave(lobes=2, high_n_per_m=lean, tight_deg=0.0),)
    even = FilmField(edge=RimLoad(mean_n_per_m=1.0), radius_m=1.0)
    uneven = FilmField(
        edge=RimLoad(mean_n_per_m=1.0, waves=waves), radius_m=1.0, held=held, poisson=nu
    )
    base = swung_stretch(even, shape, 0.0)
    high, low = (swung_stretch(uneven, shape, axis) for axis in (0.0, np.pi / 2.0))
    assert high / base - 1.0 == pytest.approx(lean / 2.0, rel=1e-6)
    assert low / base - 1.0 == pytest.approx(-lean / 2.0, rel=1e-6)
    pair = doublet(1.0, lean=lean, tight_deg=0.0)
    assert pair.high_hz - pair.low_hz == pytest.approx((high - low) / base / 2.0, rel=1e-6)


@given(st.sampled_from((1, 3, 4, 5, 6)), st.floats(0.0, 90.0))
def test_no_other_wave_is_felt(lobes, axis_deg):
    """For an odd number of lobes, and for 4 and 6, the sum over the disc is nought."""
    shape = np.polynomial.Polynomial([0.0, 1.0, -0.3, -0.7])
    field = FilmField(
        edge=RimLoad(
            mean_n_per_m=1.0, waves=(Wave(lobes=lobes, high_n_per_m=0.2, tight_deg=11.0),)
        ),
        radius_m=1.0,
    )
    even = FilmField(edge=RimLoad(mean_n_per_m=1.0), radius_m=1.0)
    axis = math.radians(axis_deg)
    assert swung_stretch(field, shape, axis) == pytest.approx(swung_stretch(even, shape, axis))
    pair = doublet_of(field.edge, even_hz=220.0)
    assert (pair.low_hz, pair.high_hz) == (220.0, 220.0)


@pytest.mark.parametrize(
    ("resonant_n_per_m", "off"), [(None, 0.02), (2000.0, 0.02), (1500.0, 0.05), (1300.0, 0.05)]
)
def test_the_air_and_another_head_take_off_what_their_share_says(resonant_n_per_m, off):
    """A two-lobed tension stretches every shape by ``1 +- lean / 2`` of what the head does (see
    above), so that the split is ``lean`` times the slope of log pitch over log tension: here by
    differences of the whole drum with its air, two heads of the same film among them."""
    film = film_head(254e-6)

    def pair_of_heads(batter_n_per_m):
        drum = HeadedShell(
            radius_m=0.1524, depth_m=0.2032, batter=film, batter_n_per_m=batter_n_per_m,
            resonant=None if resonant_n_per_m is None else film, resonant_n_per_m=resonant_n_per_m,
        )  # fmt: skip
        return modes_around(drum, around=1, up_to_hz=300.0)

    drums = [pair_of_heads(1500.0 * times) for times in (0.999, 1.0, 1.001)]
    carried = max(range(len(drums[1])), key=lambda number: drums[1][number].batter_share)
    low, here, high = (found[carried] for found in drums)
    slope = math.log(high.hz / low.hz) / math.log(1.001 / 0.999)
    pair = doublet(here.hz, lean=0.02, tight_deg=0.0, batter_share=here.batter_share)
    assert (pair.high_hz - pair.low_hz) / here.hz == pytest.approx(0.02 * slope, rel=off)


@pytest.mark.parametrize(("lean", "split"), [(0.05, 43.3), (0.10, 86.6)])
def test_splits_in_cents(lean, split):
    assert doublet(220.0, lean=lean, tight_deg=0.0).split_cents == pytest.approx(split, abs=0.06)


@pytest.mark.parametrize(
    ("rods", "near"),
    [(6, (26.9, 8.2, 8.2, 26.9, 8.2, 8.2)), (8, (20.2, 10.8, 1.5, 10.8, 20.2)),
     (5, (32.3, 5.2, 21.9, 21.9, 5.2)), (10, (16.1, 11.0, 2.6, 2.6, 11.0, 16.1))],
)  # fmt: skip
def test_one_rod_a_tenth_more(rods, near):
    """In cents near each rod: opposite rods answer alike. Worked out to first order, so that at
    a tenth the logarithm takes off up to half a cent."""
    at = [rod * 360.0 / rods for rod in range(rods)]
    one = load_of_rods([1.1, *[1.0] * (rods - 1)], along_deg=at, radius_m=0.1524)
    even_hz = 220.0 * math.sqrt(1.0 + 0.1 / rods)
    pair = doublet_of(one.passed_on(PASSED.__getitem__), even_hz=even_hz)
    found = [cents(pitch_near(pair, along_deg=here), 220.0) for here in at[: len(near)]]
    assert found == pytest.approx(near, abs=0.6)


@given(LEAN, PLACE, PLACE)
def test_half_a_turn_on_it_sounds_the_same(lean, axis_deg, here_deg):
    pair = doublet(220.0, lean=lean, tight_deg=axis_deg)
    there = pitch_near(pair, along_deg=here_deg + 180.0)
    assert there == pytest.approx(pitch_near(pair, along_deg=here_deg), rel=1e-12)
    assert 0.0 <= pair.tight_deg < 180.0


@given(LEAN, PLACE, PLACE, PLACE)
def test_what_turns_with_the_drum_and_with_a_mirror(lean, axis_deg, here_deg, turn_deg):
    plain = pitch_near(doublet(220.0, lean=lean, tight_deg=axis_deg), along_deg=here_deg)
    for turned, there in (
        (axis_deg + turn_deg, here_deg + turn_deg),
        (turn_deg - axis_deg, turn_deg - here_deg),
    ):
        pair = doublet(220.0, lean=lean, tight_deg=turned)
        assert pitch_near(pair, along_deg=there) == pytest.approx(plain, rel=1e-9)


@given(LEAN, PLACE)
def test_less_tension_on_an_axis_is_more_across_it(lean, axis_deg):
    loose = doublet(220.0, lean=-lean, tight_deg=axis_deg)
    tight = doublet(220.0, lean=lean, tight_deg=axis_deg + 90.0)
    assert loose.split_cents == tight.split_cents
    assert math.cos(math.radians(2 * (loose.tight_deg - tight.tight_deg))) == pytest.approx(1.0)


@given(LEAN, PLACE, PLACE)
def test_all_phones_together_hear_the_law(lean, axis_deg, tap_deg):
    """Power from phones all round adds up to the energies that the tap gave."""
    pair = doublet(220.0, lean=lean, tight_deg=axis_deg)
    struck = pair.swings(tap_deg)
    powers = np.zeros(2)
    for phone in range(0, 360, 30):
        powers += [(a * b) ** 2 for a, b in zip(struck, pair.swings(phone), strict=True)]
    centre = float(powers @ [pair.low_hz, pair.high_hz] / powers.sum())
    assert pitch_near(pair, along_deg=tap_deg) == pytest.approx(centre, rel=1e-12)


@given(LEAN, PLACE, PLACE)
def test_a_phone_between_the_axes_hears_the_law(lean, axis_deg, tap_deg):
    pair = doublet(220.0, lean=lean, tight_deg=axis_deg)
    heard = pitch_heard(pair, tap_deg=tap_deg, phone_deg=axis_deg + 45.0)
    assert heard == pytest.approx(pitch_near(pair, along_deg=tap_deg), rel=1e-9)


@pytest.mark.parametrize(("tap", "phone"), [(10.0, 100.0), (200.0, 35.0), (60.0, 60.0)])
def test_a_phone_hears_the_middle_of_the_power(tap, phone):
    """Brute force: the centre of the power of a long tone of both modes."""
    pair = Doublet(mean_hz=220.0, split_cents=60.0, tight_deg=20.0)
    time = np.arange(80_000) / 4000.0
    tone = sum(
        a * b * np.cos(2.0 * np.pi * round(hz, 1) * time)
        for hz, a, b in zip(
            (pair.low_hz, pair.high_hz), pair.swings(tap), pair.swings(phone), strict=True
        )
    )
    power = np.abs(np.fft.rfft(tone)) ** 2
    centre = float(power @ np.fft.rfftfreq(len(tone), 1.0 / 4000.0) / power.sum())
    assert pitch_heard(pair, tap_deg=tap, phone_deg=phone) == pytest.approx(centre, abs=0.06)


def test_a_phone_that_goes_along_hears_a_steeper_pattern():
    """At 22.5 degrees: 0.7071 / (1 - 0.25) of half the split, worked by hand."""
    pair = Doublet(mean_hz=220.0, split_cents=20.0, tight_deg=0.0)
    half = (pair.high_hz - pair.low_hz) / 2.0
    heard = pitch_heard(pair, tap_deg=22.5, phone_deg=22.5)
    assert (heard - 220.0) / half == pytest.approx(0.9428, abs=1e-4)
    assert (pitch_near(pair, along_deg=22.5) - 220.0) / half == pytest.approx(0.7071, abs=1e-4)


def test_on_an_axis_a_phone_hears_one_mode_or_none():
    pair = Doublet(mean_hz=220.0, split_cents=20.0, tight_deg=0.0)
    for tap in (0.0, 30.0, 60.0):
        heard = pitch_heard(pair, tap_deg=tap, phone_deg=0.0)
        assert heard == pytest.approx(pair.high_hz, rel=1e-12)
    assert pitch_heard(pair, tap_deg=90.0, phone_deg=0.0) is None

"""A drum struck and heard.

Truth: the response at rest, which all modes together must give (partial fractions, exact); the
mass of a head in a vacuum (exact); a figure worked out elsewhere for Berger's law; symmetry; and
numpy's spectrum of the finished sound.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterhoop.heads.air import Air
from counterhoop.heads.decays import decay_per_s, typical_t60_s
from counterhoop.heads.head import Head, film_head
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.modes import modes, modes_around
from counterhoop.heads.moved_mass import moved_kg, round_rad
from counterhoop.heads.ringing import Bend, Ringing, Struck
from counterhoop.heads.shapes import head_norms, head_zeros
from counterhoop.heads.strike import Blow, Ear, Lobes, muted, rise_n_per_m, struck

RATE_HZ = 8000
NO_AIR = Air(density_kg_per_m3=1e-9, sound_m_per_s=1e6, celsius=20.0)
THICK, THIN = film_head(254e-6), film_head(190.5e-6)
TOM = HeadedShell(
    radius_m=0.15, depth_m=0.2, batter=THICK, batter_n_per_m=1800.0,
    resonant=THIN, resonant_n_per_m=2300.0,
)  # fmt: skip
OPEN = HeadedShell(radius_m=0.15, depth_m=0.2, batter=THICK, batter_n_per_m=1800.0)
ANGLES = st.floats(0.0, 360.0)


@cache
def ways_of(drum):
    return modes(drum, up_to_hz=600.0)


def loudness(stroke, around):
    return sum(abs(one.amplitude) for one in stroke.ringings if one.name.startswith(f"({around},"))


# --- masses ------------------------------------------------------------------------------------


def test_without_air_a_mode_weighs_what_its_shape_says():
    """``sigma a^2 integral psi^2``, worked by hand; what pulls on the two ends is nothing then."""
    drum = replace(TOM, air=NO_AIR, batter_n_per_m=2000.0)
    mode = next(m for m in modes_around(drum, around=1) if m.batter_share > 0.5)
    square = float(head_norms(1, 8) @ np.asarray(mode.batter_shape) ** 2)
    want = THICK.mass_kg_per_m2 * 0.15**2 * math.pi * square
    assert moved_kg(drum, mode) == pytest.approx(want, rel=1e-5)


@pytest.mark.parametrize("drum", [TOM, OPEN], ids=["two heads", "open"])
@pytest.mark.parametrize("around", [1, 2])
def test_all_modes_together_give_the_head_at_rest(drum, around):
    """Under a steady push the air does nothing: ``sum q q' / (m w^2) = 1 / K``, exact."""
    terms = 4
    found = modes_around(drum, around=around, up_to_hz=6000.0, terms=terms)
    total = sum(
        mode.batter_shape[0] ** 2
        * round_rad(around)
        / (moved_kg(drum, mode) * (2.0 * math.pi * mode.hz) ** 2)
        for mode in found
    )
    stiff = drum.batter_n_per_m * head_zeros(around, terms)[0] ** 2 * head_norms(around, terms)[0]
    assert total == pytest.approx(1.0 / stiff, rel=3e-3)


def test_that_sum_would_show_a_missing_mode():
    found = modes_around(TOM, around=1, up_to_hz=6000.0, terms=4)
    shares = [
        mode.batter_shape[0] ** 2 / (moved_kg(TOM, mode) * (2.0 * math.pi * mode.hz) ** 2)
        for mode in found
    ]
    assert max(shares) / sum(shares) > 0.5


# --- glide -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("tension", "middle_mm", "cents"),
    [(2500, 1, 8), (2500, 2, 33), (2500, 4, 126), (1500, 1, 14), (1500, 2, 55), (1500, 4, 200)],
)
def test_a_head_that_swings_is_sharp_by_bergers_law(tension, middle_mm, cents):
    """12 in, 10 mil, lowest mode: cents worked out by another script, as sqrt(1 + dT / T)."""
    drum = HeadedShell(
        radius_m=0.1524, depth_m=0.2, batter=THICK, batter_n_per_m=float(tension), air=NO_AIR
    )
    low = next(mode for mode in modes_around(drum, around=0) if mode.circles == 1)
    amplitude_m = middle_mm * 1e-3 / abs(sum(low.batter_shape))
    rise = rise_n_per_m(THICK, low, amplitude_m=amplitude_m, drum=drum)
    assert 600.0 * math.log2(1.0 + rise / tension) == pytest.approx(cents, abs=1.0)


def test_the_start_is_sharp_and_settles_twice_as_fast_as_the_tone_falls():
    blow = Blow(impulse_n_s=0.1)
    stroke = struck(OPEN, ways_of(OPEN), blow=blow, ear=Ear())
    low = min(stroke.ringings, key=lambda one: one.hz)
    # The lowest mode bends the pitch most.
    most = max(stroke.bends, key=lambda bend: bend.share)
    assert most.fall_per_s == pytest.approx(2.0 * low.decay_per_s)
    twice = struck(OPEN, ways_of(OPEN), blow=replace(blow, impulse_n_s=0.2), ear=Ear())
    for soft, hard in zip(stroke.bends, twice.bends, strict=True):
        assert hard.share == pytest.approx(4.0 * soft.share)


def test_calf_bends_by_nothing_that_could_be_said():
    drum = replace(OPEN, batter=Head(mass_kg_per_m2=0.35, calf=True))
    assert struck(drum, ways_of(drum), blow=Blow(), ear=Ear()).bends == ()


def test_a_gliding_tone_turns_at_its_pitch():
    """The pitch ``f (1 + sum s exp(-b t))`` added up in small steps by the trapezium rule."""
    bends = (Bend(share=0.04, fall_per_s=8.0), Bend(share=0.01, fall_per_s=20.0))
    one = Ringing(hz=150.0, decay_per_s=0.0, amplitude=1.0)
    stroke = Struck(ringings=(one,), bends=bends)
    at_s = np.arange(2 * RATE_HZ) / RATE_HZ
    pitch = 150.0 * (1.0 + 0.04 * np.exp(-8.0 * at_s) + 0.01 * np.exp(-20.0 * at_s))
    turns = np.concatenate([[0.0], np.cumsum((pitch[1:] + pitch[:-1]) / 2.0 / RATE_HZ)])
    sound = stroke.sound(seconds=2.0, rate_hz=RATE_HZ)
    np.testing.assert_allclose(sound, np.sin(2.0 * np.pi * turns), atol=1e-5)
    assert stroke.sharp_cents == pytest.approx(84.47, abs=0.01)


# --- what is heard -----------------------------------------------------------------------------


def test_the_spectrum_shows_the_models_pitches():
    """Peaks of numpy's spectrum of the whole sound, soft blow, against the modes."""
    stroke = struck(
        TOM, ways_of(TOM), blow=Blow(out=0.7, impulse_n_s=0.002), ear=Ear(along_deg=20.0)
    )
    sound = stroke.sound(seconds=4.0, rate_hz=RATE_HZ)
    spectrum = np.abs(np.fft.rfft(sound * np.hanning(len(sound)), 8 * len(sound)))
    hz = np.fft.rfftfreq(8 * len(sound), 1 / RATE_HZ)
    loudest = sorted(stroke.ringings, key=lambda one: -abs(one.amplitude) / one.decay_per_s)
    for one in loudest[:2]:
        near = np.abs(hz - one.hz) < 4.0
        assert hz[near][np.argmax(spectrum[near])] == pytest.approx(one.hz, abs=0.2)


def test_decays_are_measured_back():
    """The loudness of two windows of the sound, against the decay of the mode."""
    stroke = struck(TOM, ways_of(TOM), blow=Blow(impulse_n_s=0.002), ear=Ear(out=0.0))
    low = stroke.ringings[0]
    sound = Struck(ringings=(low,)).sound(seconds=2.0, rate_hz=RATE_HZ)
    early, late = (float(np.sqrt(np.mean(part**2))) for part in np.split(sound, 2))
    assert math.log(early / late) == pytest.approx(low.decay_per_s, rel=1e-2)
    assert math.log(1000.0) / low.decay_per_s == pytest.approx(typical_t60_s(ways_of(TOM)[0]))


def test_on_the_axis_only_round_modes_are_heard_and_struck():
    from_rim = struck(TOM, ways_of(TOM), blow=Blow(out=0.8), ear=Ear(out=0.0))
    in_middle = struck(TOM, ways_of(TOM), blow=Blow(out=0.0), ear=Ear(out=0.6))
    for stroke in (from_rim, in_middle):
        assert loudness(stroke, 0) > 0.0
        assert loudness(stroke, 1) == loudness(stroke, 2) == 0.0


def test_a_tap_on_a_nodal_line_silences_one_of_the_two():
    lobes = Lobes(split_cents=40.0, axis_deg=30.0)

    def at(along_deg):
        stroke = struck(
            TOM, ways_of(TOM), blow=Blow(out=0.8, along_deg=along_deg),
            ear=Ear(along_deg=75.0), lobes=lobes,
        )  # fmt: skip
        batter = [mode.hz for mode in ways_of(TOM) if mode.around == 1 and mode.batter_share > 0.9]
        return [one for one in stroke.ringings if abs(1200 * math.log2(one.hz / batter[0])) < 25]

    flat, sharp = at(75.0)
    assert 1200.0 * math.log2(sharp.hz / flat.hz) == pytest.approx(40.0, rel=0.05)
    (only,) = at(30.0)
    assert only.hz == pytest.approx(sharp.hz)
    (only,) = at(120.0)
    assert only.hz == pytest.approx(flat.hz)


@settings(max_examples=20)
@given(tap=ANGLES, ear=ANGLES, axis=ANGLES, turn=ANGLES)
def test_a_drum_turned_with_hand_and_phone_sounds_the_same(tap, ear, axis, turn):
    def heard(by):
        stroke = struck(
            TOM, ways_of(TOM), blow=Blow(out=0.8, along_deg=tap + by),
            ear=Ear(along_deg=ear + by), lobes=Lobes(split_cents=30.0, axis_deg=axis + by),
        )  # fmt: skip
        return stroke.sound(seconds=0.05, rate_hz=2000)

    np.testing.assert_allclose(heard(0.0), heard(turn), atol=1e-7)


@settings(max_examples=20)
@given(tap=ANGLES, ear=ANGLES, axis=ANGLES)
def test_a_drum_in_a_mirror_and_an_axis_the_other_way_round_sound_the_same(tap, ear, axis):
    def heard(sign, more=0.0):
        stroke = struck(
            TOM, ways_of(TOM), blow=Blow(out=0.8, along_deg=sign * tap),
            ear=Ear(along_deg=sign * ear),
            lobes=Lobes(split_cents=30.0, axis_deg=sign * axis + more),
        )  # fmt: skip
        return stroke.sound(seconds=0.05, rate_hz=2000)

    np.testing.assert_allclose(heard(1.0), heard(-1.0), atol=1e-7)
    np.testing.assert_allclose(heard(1.0), heard(1.0, 180.0), atol=1e-7)


def test_no_split_is_the_limit_of_a_small_one():
    blow, ear = Blow(out=0.8, along_deg=10.0), Ear(along_deg=70.0)
    even = struck(TOM, ways_of(TOM), blow=blow, ear=ear)
    lobes = Lobes(split_cents=1e-6, axis_deg=33.0)
    nearly = struck(TOM, ways_of(TOM), blow=blow, ear=ear, lobes=lobes)
    np.testing.assert_allclose(
        even.sound(seconds=0.3, rate_hz=2000), nearly.sound(seconds=0.3, rate_hz=2000), atol=1e-5
    )


def test_equal_heads_are_heard_as_a_pair_and_a_cloth_takes_it_away():
    """12 x 8 in, 7.5 mil, 2000 N/m: 67 cents computed elsewhere, with a simpler air outside."""
    twins = HeadedShell(
        radius_m=0.1524, depth_m=0.2032, batter=THIN, batter_n_per_m=2000.0,
        resonant=THIN, resonant_n_per_m=2000.0,
    )  # fmt: skip
    low, high = [mode for mode in ways_of(twins) if (mode.around, mode.circles) == (1, 1)]
    assert 1200.0 * math.log2(high.hz / low.hz) == pytest.approx(67.0, abs=5.0)
    blow, ear = Blow(out=0.8), Ear()
    both = struck(twins, [low, high], blow=blow, ear=ear)
    first, second = (abs(one.amplitude) for one in both.ringings)
    assert first == pytest.approx(second, rel=0.2)
    quiet = muted(twins)
    pair = [mode for mode in ways_of(quiet) if (mode.around, mode.circles) == (1, 1)]
    batter, other = sorted(pair, key=lambda mode: -mode.batter_share)
    assert batter.batter_share > 0.97
    assert decay_per_s(other, other_muted=True) > 8.0 * decay_per_s(batter, other_muted=True)


def test_a_longer_touch_is_duller_and_nothing_breaks_where_both_sides_pass_nought():
    def high_over_low(contact_s):
        blow = Blow(out=0.3, contact_s=contact_s)
        ringings = struck(TOM, ways_of(TOM), blow=blow, ear=Ear()).ringings
        high = sum(abs(one.amplitude) for one in ringings if one.hz > 400.0)
        return high / abs(ringings[0].amplitude)

    assert high_over_low(0.002) > 1.5 * high_over_low(0.007) > 0.0
    hz = ways_of(TOM)[0].hz
    at = [
        struck(TOM, ways_of(TOM)[:1], blow=Blow(contact_s=share / (2.0 * hz)), ear=Ear())
        for share in (1.0 - 1e-4, 1.0, 1.0 + 1e-4)
    ]
    before, there, after = (stroke.ringings[0].amplitude for stroke in at)
    assert before == pytest.approx(there, rel=1e-3)
    assert after == pytest.approx(there, rel=1e-3)

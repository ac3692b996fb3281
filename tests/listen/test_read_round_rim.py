"""Taps round the rim, read together.

Truth: sounds written from their formula (``synthetic``), which knows nothing of the package, and
exact laws: turning, mirroring, loudness, order.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from synthetic import Rim, Slide, Tone, rung
from taps import COMPANY, apart_deg, rods, tapped

from counterhoop.errors import BadInput
from counterhoop.listen.read_round_rim import read_round_rim
from counterhoop.listen.sound import Sound

GLIDE = Slide(share=0.03, tau_s=0.12)
UNEVEN = Rim(split_cents=25.0, axis_deg=35.0, phone_deg=70.0, others=COMPANY)
EVEN = replace(UNEVEN, split_cents=0.0)
FEW = settings(max_examples=4, deadline=None, derandomize=True)


class TwoHeads(Rim):
    """Two even heads: both pitches lie the same way, in one proportion at every tap."""

    def tones(self, along_deg, *, strength=1.0):
        size = strength * np.cos(np.radians(along_deg - self.phone_deg))
        pair = zip((self.flat_hz, self.sharp_hz), (1.0, 0.7), strict=True)
        return (*(Tone(hz=hz, amplitude=part * size) for hz, part in pair), *self.others)


class TwoUnevenHeads(Rim):
    """Two pairs, 67 cents from one to the other."""

    def tones(self, along_deg, *, strength=1.0):
        pair = Rim.tones(self, along_deg, strength=strength)
        higher = [replace(tone, hz=tone.hz * 2.0 ** (67.0 / 1200.0)) for tone in pair[:2]]
        return (*pair, *higher)


@pytest.mark.parametrize("count", range(3, 13))
def test_mean_split_and_axis_come_back_through_glide_noise_and_other_modes(count):
    split, axis, phone = ((30, 20, 55), (12, 100, 50), (60, 75, 110))[count % 3]
    rim = Rim(split_cents=split, axis_deg=axis, phone_deg=phone, others=COMPANY)
    sound, taps = tapped(rim, rods(count), slide=GLIDE, seed=count)
    read = read_round_rim(sound, taps)
    assert read.quality == "good"
    assert read.split_cents == pytest.approx(split, abs=0.7)
    assert 1200 * np.log2(read.mean_hz / rim.mean_hz) == pytest.approx(0.0, abs=0.7)
    axes = [read.axis_deg] + ([] if read.mirror_deg is None else [read.mirror_deg])
    assert min(apart_deg(found, axis) for found in axes) < 3.0 * read.axis_doubt_deg
    assert (read.mirror_deg is not None) == (count == 4)


@pytest.mark.parametrize("phone", [110.0, 20.0])
def test_four_rods_and_a_known_place_of_the_phone_tell_the_axis_from_its_mirror(phone):
    rim = replace(UNEVEN, phone_deg=phone)
    read = read_round_rim(*tapped(rim, rods(4)), phone_deg=[phone])
    assert apart_deg(read.axis_deg, 35.0) < 3.0 * read.axis_doubt_deg
    assert read.mirror_deg is None
    assert read.ask == ()


def test_pitch_near_each_rod_follows_the_two_lobed_law():
    read = read_round_rim(*tapped(UNEVEN, rods(8)))
    for tap in read.taps:
        law = 12.5 * np.cos(2 * np.radians(tap.along_deg - 35.0))
        assert tap.cents == pytest.approx(law, abs=1.0)
        assert read.cents_at(tap.along_deg) == pytest.approx(law, abs=1.0)


def test_doubts_are_as_large_as_the_errors():
    """Over many noises the error over its doubt must spread by about 1: neither boast nor fear."""
    scores = []
    for seed in range(8):
        read = read_round_rim(*tapped(UNEVEN, rods(5), snr_db=22.0, slide=GLIDE, seed=seed))
        mean_cents = read.mean_doubt_hz * 1200 / np.log(2) / 220
        scores.append(
            [
                (read.split_cents - 25.0) / read.split_doubt_cents,
                1200 * np.log2(read.mean_hz / 220) / mean_cents,
            ]
        )
    spread = np.sqrt(np.mean(np.square(scores), axis=0))
    assert np.all(spread > 0.4)
    assert np.all(spread < 1.8)


@cache
def five_taps():
    return tapped(UNEVEN, rods(5), seed=2)


@cache
def five_read():
    return read_round_rim(*five_taps())


# --- laws --------------------------------------------------------------------------------------


@FEW
@given(st.floats(0.0, 180.0))
def test_turning_the_drum_turns_the_axis_and_nothing_else(turn):
    was = five_read()
    sound, taps = five_taps()
    now = read_round_rim(sound, [replace(tap, along_deg=tap.along_deg + turn) for tap in taps])
    assert apart_deg(now.axis_deg, was.axis_deg + turn) < 0.01
    assert now.split_cents == pytest.approx(was.split_cents, abs=1e-6)


def test_the_mirror_image_of_the_drum_has_the_mirrored_axis():
    sound, taps = five_taps()
    was = five_read()
    now = read_round_rim(sound, [replace(tap, along_deg=-tap.along_deg) for tap in taps])
    assert apart_deg(now.axis_deg, -was.axis_deg) < 0.01
    assert now.split_cents == pytest.approx(was.split_cents, abs=1e-6)


@FEW
@given(st.floats(1e-3, 30.0))
def test_loudness_changes_nothing(loudness):
    was = five_read()
    now = read_round_rim(*tapped(UNEVEN, rods(5), seed=2, loudness=loudness))
    assert now.split_cents == pytest.approx(was.split_cents, abs=1e-3)
    assert now.split_doubt_cents == pytest.approx(was.split_doubt_cents, rel=1e-2)
    assert apart_deg(now.axis_deg, was.axis_deg) < 0.01


@FEW
@given(st.permutations(range(5)))
def test_the_order_of_the_taps_does_not_matter_when_their_rods_are_said(order):
    sound, taps = five_taps()
    was = five_read()
    now = read_round_rim(sound, [taps[at] for at in order])
    assert now.split_cents == pytest.approx(was.split_cents, abs=1e-3)
    assert apart_deg(now.axis_deg, was.axis_deg) < 0.01
    assert [tap.rod for tap in now.taps] == [at + 1 for at in order]


def test_a_window_of_a_recording_reads_like_the_whole():
    sound, taps = five_taps()
    later = [
        replace(t, stroke=replace(t.stroke, starts_s=t.stroke.starts_s + 60.0,
                                  ends_s=t.stroke.ends_s + 60.0))
        for t in taps
    ]  # fmt: skip
    now = read_round_rim(replace(sound, starts_s=60.0), later)
    assert now.split_cents == pytest.approx(five_read().split_cents, abs=1e-3)


# --- what may be asked for ---------------------------------------------------------------------


def test_an_even_head_from_one_place_asks_for_another_and_then_is_bounded():
    one = tapped(EVEN, rods(6), seed=3)
    first = read_round_rim(*one)
    assert first.split_cents is None
    assert first.split_below_cents is None
    assert "45 degrees" in first.ask[0]
    other = tapped(replace(EVEN, phone_deg=115.0), rods(6), seed=4)
    both = read_round_rim(*one, also=[other])
    assert both.ask == ()
    assert both.split_cents is None
    assert 0.5 < both.split_below_cents < 8.0


def test_a_split_of_the_bound_that_is_named_is_found():
    """The bound is checked against the finder itself: half as much again is seen from 20 deg."""
    places = [tapped(replace(EVEN, phone_deg=p), rods(6), seed=3 + p) for p in (55, 100)]
    below = read_round_rim(*places[0], also=places[1:]).split_below_cents
    rim = replace(EVEN, split_cents=1.5 * below)
    seen = [tapped(replace(rim, phone_deg=p), rods(6), seed=3 + p) for p in (55, 100)]
    assert read_round_rim(*seen[0], also=seen[1:]).split_cents is not None


def test_a_phone_on_a_still_line_is_told_to_move_and_then_hears_both_pitches():
    still = tapped(replace(UNEVEN, phone_deg=35.0), rods(6), seed=3)
    first = read_round_rim(*still)
    assert first.quality == "poor"
    assert "45 degrees" in first.ask[0]
    moved = tapped(replace(UNEVEN, phone_deg=80.0), rods(6), seed=4)
    both = read_round_rim(*still, also=[moved])
    assert both.split_cents == pytest.approx(25.0, abs=0.7)
    assert apart_deg(both.axis_deg, 35.0) < 3.0 * both.axis_doubt_deg
    assert {tap.place for tap in both.taps} == {0, 1}


@pytest.mark.parametrize("count", [5, 6, 8])
def test_two_heads_that_sound_together_are_known_from_an_uneven_one(count):
    rim = TwoHeads(split_cents=67.0, phone_deg=70.0, others=COMPANY)
    read = read_round_rim(*tapped(rim, rods(count), slide=GLIDE))
    assert read.coupled_pair
    assert read.axis_deg is None
    assert "Mute the other head" in read.ask[0]


def test_two_uneven_heads_are_muted_first_too():
    rim = TwoUnevenHeads(mean_hz=215.0, split_cents=25.0, axis_deg=35.0, phone_deg=70.0)
    read = read_round_rim(*tapped(rim, rods(8), slide=GLIDE))
    assert read.quality == "poor"
    assert "other head" in read.ask[0]


@pytest.mark.parametrize("count", [5, 6, 8])
def test_an_uneven_head_is_not_taken_for_two(count):
    rim = replace(UNEVEN, split_cents=67.0)
    assert not read_round_rim(*tapped(rim, rods(count), slide=GLIDE)).coupled_pair


@pytest.mark.parametrize("seed", range(4))
def test_noise_alone_is_no_reading(seed):
    sound, taps = tapped(UNEVEN, rods(6))
    noise = np.random.default_rng(seed).standard_normal(len(sound.samples))
    read = read_round_rim(replace(sound, samples=noise), taps)
    assert read.quality == "none"
    assert read.mean_hz is None
    assert read.ask[0].startswith("No reading")


def test_dropped_taps_are_passed_over_and_said():
    sound, taps = tapped(UNEVEN, rods(8))
    taps[2] = replace(taps[2], stroke=replace(taps[2].stroke, dropped="It is clipped."))
    read = read_round_rim(sound, taps)
    assert read.taps[2].says == "It is clipped."
    assert read.taps[2].hz is None
    assert read.split_cents == pytest.approx(25.0, abs=0.7)
    assert any("rod 3 " in sentence for sentence in read.says)


LOUD_LOWEST = (Tone(hz=132.0, amplitude=3.0), Tone(hz=306.0, amplitude=0.1))
"""(0,1) 10 dB louder than (1,1), and (2,1) faint: an open drum, the phone well away from it."""


@pytest.mark.parametrize("count", [3, 6, 8])
def test_a_lowest_tone_that_is_louder_is_not_taken_for_an_even_head(count):
    """(0,1) is the same at every tap; read as (1,1) it would say that nothing need be turned."""
    rim = replace(UNEVEN, others=LOUD_LOWEST)
    read = read_round_rim(*tapped(rim, rods(count), slide=GLIDE, snr_db=40.0))
    assert 1200 * np.log2(read.mean_hz / rim.mean_hz) == pytest.approx(0.0, abs=1.0)
    assert read.split_cents == pytest.approx(25.0, abs=1.0)


def test_where_only_the_lowest_tone_is_heard_nothing_is_read():
    silent = replace(UNEVEN, others=LOUD_LOWEST[:1])
    sound, taps = tapped(silent, rods(6), slide=GLIDE)
    read = read_round_rim(sound, taps, near_hz=132.0)
    assert read.mean_hz is None
    assert "lowest tone" in read.ask[0]


def test_another_drum_that_rings_along_is_not_taken_for_an_even_head():
    """It is louder than the head and starts as chance will have it; the head's own is read."""
    sound, taps = tapped(UNEVEN, rods(6), snr_db=40.0)
    along, chance = np.zeros_like(sound.samples), np.random.default_rng(4)
    for tap, phase in zip(taps, chance.uniform(0.0, 2.0 * np.pi, 6), strict=True):
        stranger = Tone(hz=160.0, amplitude=2.0, decay_per_s=2.5, phase_rad=float(phase))
        rings = rung(stranger, rate_hz=sound.rate_hz)
        first = round(tap.stroke.starts_s * sound.rate_hz)
        along[first : first + len(rings)] += rings
    read = read_round_rim(replace(sound, samples=sound.samples + along), taps)
    assert read.split_cents == pytest.approx(25.0, abs=1.0)
    assert apart_deg(read.axis_deg, 35.0) < 3.0 * read.axis_doubt_deg


@pytest.mark.parametrize("passed_over", [1, 4, 6])
def test_taps_taken_for_their_neighbours_have_no_axis(passed_over):
    """One rod of eight is passed over and nobody says so: all after it are one too early."""
    along = rods(8)
    sound, taps = tapped(UNEVEN, along[:passed_over] + along[passed_over + 1 :], seed=6)
    read = read_round_rim(
        sound, [replace(t, along_deg=a) for t, a in zip(taps, along, strict=False)]
    )
    assert read.quality == "poor"
    assert read.axis_deg is None
    assert any("passed over" in said for said in read.says)
    # How far apart the two pitches are has nothing to do with where they were tapped.
    assert read.split_cents == pytest.approx(25.0, abs=0.7)


def test_two_taps_are_too_few_and_none_are_refused():
    sound, taps = tapped(UNEVEN, rods(8))
    assert read_round_rim(sound, taps[:2]).quality == "none"
    with pytest.raises(BadInput, match="no taps"):
        read_round_rim(sound, [])


def test_strokes_outside_the_recording_are_no_reading():
    sound, taps = tapped(UNEVEN, rods(4))
    short = Sound(samples=sound.samples[:4000], rate_hz=sound.rate_hz)
    assert read_round_rim(short, taps).quality == "none"


@pytest.mark.parametrize(
    "seeds", [range(4), pytest.param(range(4, 60), marks=pytest.mark.full)], ids=["few", "many"]
)
def test_no_split_is_invented_on_an_even_head(seeds):
    """Glides, decays and noise drawn by the seed; an even head has one pitch."""
    for seed in seeds:
        chance = np.random.default_rng(seed)
        rim = replace(EVEN, decay_per_s=float(chance.uniform(3.0, 10.0)))
        slide = Slide(
            share=float(chance.uniform(0.0, 0.06)), tau_s=float(chance.uniform(0.05, 0.2))
        )
        snr_db = float(chance.uniform(15.0, 40.0))
        sound, taps = tapped(rim, rods(6), snr_db=snr_db, slide=slide, seed=seed)
        assert read_round_rim(sound, taps).split_cents is None, seed

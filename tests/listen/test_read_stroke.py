"""One stroke read: against the bound of the whole model, pairs found and not invented, refusals."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from synthetic import Slide, Tone, noise_of, pair, rung, single

from counterhoop.listen.bound import least_doubt_hz
from counterhoop.listen.glide import Course
from counterhoop.listen.read_stroke import StrokeReading, read_stroke
from counterhoop.listen.settle import FIRST_S
from counterhoop.listen.sound import Sound
from counterhoop.listen.strokes import Stroke

RATE_HZ = 8000
SECONDS = 1.5
CELLS = [
    (hz, decay, share, snr_db)
    for hz in (100.0, 220.0)
    for decay in (2.8, 4.0, 7.0)
    for share in (0.0, 0.02, 0.06, 0.12)
    for snr_db in (20.0, 30.0, 40.0)
]


def read(sound: np.ndarray, *, near_hz: float | None = None) -> StrokeReading:
    stroke = Stroke(number=1, starts_s=0.0, ends_s=len(sound) / RATE_HZ)
    return read_stroke(Sound(samples=sound, rate_hz=RATE_HZ), stroke, near_hz=near_hz)


@dataclass(frozen=True)
class Cell:
    """Errors of many readings of one truth, over the bound of the sound that is used."""

    over_bound: float
    worst_cents: float
    bound_cents: float
    unread: int


def cell(hz: float, decay: float, share: float, snr_db: float, *, count: int) -> Cell:
    tone = Course(hz=hz, decay_per_s=decay, share=share, tau_s=1.0 / (2.0 * decay))
    bound = least_doubt_hz(
        tone, amplitude=1.0, noise_variance=0.5 / 10.0 ** (snr_db / 10.0), rate_hz=2000.0,
        seconds=SECONDS, since_s=FIRST_S,
    )  # fmt: skip
    errors, unread = [], 0
    for seed in range(count):
        sound = single(
            hz, decay_per_s=decay, snr_db=snr_db, slide=Slide(share=share, tau_s=tone.tau_s),
            phase_rad=2.4 * seed, seed=seed, seconds=SECONDS, rate_hz=RATE_HZ,
        )  # fmt: skip
        reading = read(sound)
        if reading.settled is None:
            unread += 1
        else:
            errors.append(reading.settled.hz - hz)
    rms = math.sqrt(np.mean(np.square(errors)))
    return Cell(
        over_bound=rms / bound,
        worst_cents=1731.0 * rms / hz,
        bound_cents=1731.0 * bound / hz,
        unread=unread,
    )


def test_settled_pitch_is_as_near_as_one_and_a_half_times_the_bound_allows() -> None:
    # The bound is checked in test_bound.py. Few sounds of a few cells; all of them below.
    cells = [cell(*CELLS[at], count=10) for at in (2, 16, 20, 27, 43, 52)]
    assert math.sqrt(np.mean([c.over_bound**2 for c in cells])) <= 1.5
    assert max(c.worst_cents for c in cells if c.bound_cents <= 0.6) <= 1.0
    assert sum(c.unread for c in cells) <= 1


@pytest.mark.full
def test_settled_pitch_is_near_the_bound_over_the_whole_grid() -> None:
    cells = {at: cell(*at, count=30) for at in CELLS}
    # 30 sounds give a root mean square to 13 %.
    assert {at: c for at, c in cells.items() if c.over_bound > 1.5} == {}
    assert math.sqrt(np.mean([c.over_bound**2 for c in cells.values()])) <= 1.15
    assert max(c.worst_cents for c in cells.values() if c.bound_cents <= 0.6) <= 1.0
    assert sum(c.unread for c in cells.values()) <= 0.02 * 30 * len(CELLS)


def test_a_peak_of_noise_beside_a_quick_tone_does_not_take_its_glide_away() -> None:
    # Exact law: the noise peaks at 80 Hz as it happens. Kept out of the band, it cost so long a
    # filter that the first quarter of a second, and the glide with it, was lost: 8 times the bound.
    slide = Slide(share=0.06, tau_s=1.0 / 14.0)
    sound = single(
        100.0, decay_per_s=7.0, snr_db=30.0, slide=slide, phase_rad=2.4 * 27, seed=27,
        seconds=SECONDS, rate_hz=RATE_HZ,
    )  # fmt: skip
    settled = read(sound).settled
    assert settled is not None
    assert settled.hz == pytest.approx(100.0, abs=3.0 * 0.027)


def soft_taps(count: int) -> list[StrokeReading]:
    """Return readings of single tones and of two that beat, none of which glides."""
    chance = np.random.default_rng(7)
    readings = []
    for seed in range(count):
        hz, decay = chance.uniform(70.0, 300.0), chance.uniform(2.3, 6.0)
        snr_db, phases = chance.uniform(20.0, 40.0), chance.uniform(0.0, 6.3, 2)
        if seed % 3:
            sound = single(
                hz, decay_per_s=decay, snr_db=snr_db, phase_rad=phases[0], seed=seed,
                rate_hz=RATE_HZ,
            )  # fmt: skip
        else:
            sound = pair(
                hz, apart_hz=4.0, decay_per_s=decay, snr_db=snr_db, seed=seed, rate_hz=RATE_HZ,
                phases_rad=(phases[0], phases[1]),
            )  # fmt: skip
        readings.append(read(sound))
    return readings


def wrongly_said(readings: list[StrokeReading]) -> list[StrokeReading]:
    return [
        one for one in readings if one.settled is None or (one.glide and one.glide.cents > 30.0)
    ]


def test_no_soft_tap_is_refused_or_said_to_fall() -> None:
    assert wrongly_said(soft_taps(9)) == []


@pytest.mark.full
def test_no_soft_tap_of_many_is_refused_or_said_to_fall() -> None:
    assert wrongly_said(soft_taps(90)) == []


def found_pairs(count: int) -> float:
    chance = np.random.default_rng(5)
    found = 0
    for seed in range(count):
        decay, share = (2.8, 4.0)[seed % 2], (0.0, 0.04, 0.1)[seed % 3]
        sound = pair(
            (100.0, 180.0)[seed // 2 % 2], apart_hz=2.0, decay_per_s=decay, snr_db=20.0, seed=seed,
            phases_rad=(chance.uniform(0.0, 6.3), chance.uniform(0.0, 6.3)),
            slide=Slide(share=share, tau_s=1.0 / (2.0 * decay)), rate_hz=RATE_HZ,
        )  # fmt: skip
        found += any(abs(p.beat_hz - 2.0) < 0.2 for p in read(sound).pairs)
    return found / count


def invented_pairs(count: int) -> float:
    chance = np.random.default_rng(6)
    invented = 0
    for seed in range(count):
        decay = chance.uniform(2.3, 10.0)
        slide = Slide(
            share=chance.uniform(0.0, 0.12), tau_s=chance.uniform(0.7, 1.4) / (2.0 * decay)
        )
        sound = single(
            chance.uniform(65.0, 300.0), decay_per_s=decay, snr_db=chance.uniform(15.0, 60.0),
            slide=slide, phase_rad=chance.uniform(0.0, 6.3), seed=seed, rate_hz=RATE_HZ,
        )  # fmt: skip
        invented += bool(read(sound).pairs)
    return invented / count


def test_pairs_two_hertz_apart_are_found_and_gliding_tones_are_no_pairs() -> None:
    assert found_pairs(20) >= 0.95
    assert invented_pairs(25) == 0.0


@pytest.mark.full
def test_pairs_are_found_and_not_invented_at_full_counts() -> None:
    assert found_pairs(200) >= 0.95
    assert invented_pairs(300) < 0.02


@settings(max_examples=15)
@given(louder_db=st.floats(-40.0, 10.0), silent_s=st.floats(0.0, 0.2))
def test_loudness_and_where_the_stroke_lies_change_nothing(
    louder_db: float, silent_s: float
) -> None:
    # Exact law: the reading scales with the sound and moves with it, to a sample.
    sound = single(140.0, snr_db=40.0, slide=Slide(share=0.03, tau_s=0.12), rate_hz=RATE_HZ)
    ahead = round(silent_s * RATE_HZ)
    moved = np.concatenate([np.zeros(ahead), sound]) * 10.0 ** (louder_db / 20.0)
    stroke = Stroke(number=1, starts_s=ahead / RATE_HZ, ends_s=len(moved) / RATE_HZ)
    one = read(sound).settled
    other = read_stroke(Sound(samples=moved, rate_hz=RATE_HZ), stroke).settled
    assert one is not None
    assert other is not None
    assert other.hz == pytest.approx(one.hz, abs=1e-5)
    assert other.amplitude == pytest.approx(one.amplitude * 10.0 ** (louder_db / 20.0), rel=1e-4)


def test_the_lowest_tone_is_read_though_another_is_louder_and_the_wish_may_be_another() -> None:
    tones = (
        Tone(hz=85.0, amplitude=0.4, decay_per_s=3.0),
        Tone(hz=140.0),
        Tone(hz=190.0, amplitude=0.3, decay_per_s=6.0),
    )
    clean = rung(*tones, rate_hz=RATE_HZ, slide=Slide(share=0.03, tau_s=0.12))
    sound = clean + noise_of(len(clean), snr_db=45.0, seed=2, rate_hz=RATE_HZ)
    reading = read(sound)
    assert reading.settled is not None
    assert reading.settled.hz == pytest.approx(85.0, abs=0.05)
    assert [round(tone.hz) for tone in reading.partials] == [85, 140, 190]
    assert any("loudest" in sentence for sentence in reading.says)
    asked = read(sound, near_hz=142.0)
    assert asked.settled is not None
    assert asked.settled.hz == pytest.approx(140.0, abs=0.05)


def test_no_reading_rather_than_a_wrong_one() -> None:
    noise = np.random.default_rng(4).standard_normal(2 * RATE_HZ)
    dying = noise * np.exp(-6.0 * np.arange(len(noise)) / RATE_HZ)
    hum = np.sin(2.0 * np.pi * 100.0 * np.arange(2 * RATE_HZ) / RATE_HZ)
    for sound in (noise, dying, hum, np.zeros(2 * RATE_HZ)):
        reading = read(sound)
        assert reading.settled is None
        assert reading.quality == "none"
        assert reading.refusal.endswith(".")


def test_a_short_or_dropped_stroke_says_why() -> None:
    sound = single(140.0, rate_hz=RATE_HZ)
    assert "let each one ring" in read(sound[: RATE_HZ // 10]).refusal
    stroke = Stroke(number=3, starts_s=0.0, ends_s=1.0, dropped="Stroke 3 is clipped.")
    said = read_stroke(Sound(samples=sound, rate_hz=RATE_HZ), stroke)
    assert said.refusal == "Stroke 3 is clipped."
    assert said.settled is None

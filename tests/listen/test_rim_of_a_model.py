"""From the pull of each rod to sound, and back to advice.

Truth: the drum as ``heads`` computes it, struck near every rod with one phone beside it, its
(1,1) split by the rods' pulls. The odd part of the pulls must not come back, and must be said to
be unknown.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from synthetic import in_a_row
from taps import apart_deg, rods, taps_at

from counterhoop.heads.head import film_head
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.modes import batter_lug_mode, modes
from counterhoop.heads.rank import SURE, pitch_matrix
from counterhoop.heads.rim_load import load_of_rods
from counterhoop.heads.strike import Blow, Ear, Lobes, muted, struck
from counterhoop.heads.uneven import Doublet, doublet_of
from counterhoop.heads.wav import wav_bytes
from counterhoop.listen.advice import advise
from counterhoop.listen.advice_words import ODD, ODD_THREE, OPPOSITE
from counterhoop.listen.decode import decode
from counterhoop.listen.read_round_rim import read_round_rim
from counterhoop.listen.round_rim import RimReading, Tap
from counterhoop.listen.sound import Sound
from counterhoop.listen.strokes import find_strokes

RATE_HZ = 8000
DRUM = HeadedShell(
    radius_m=0.15, depth_m=0.2, batter=film_head(254e-6), batter_n_per_m=1800.0,
    resonant=film_head(190.5e-6), resonant_n_per_m=2300.0,
)  # fmt: skip
PULL_N = 300.0


@cache
def muted_modes():
    return modes(muted(DRUM), up_to_hz=600.0)


def truth_of(pulls_n, along_deg) -> Doublet:
    """The pair that these pulls make of an even head."""
    edge = load_of_rods(pulls_n, radius_m=DRUM.radius_m, along_deg=along_deg)
    return doublet_of(edge, even_hz=batter_lug_mode(muted(DRUM)).hz)


def heard(pair: Doublet, along_deg, *, phone_deg: float, seed: int, snr_db: float = 30.0):
    lobes = Lobes(split_cents=pair.split_cents, axis_deg=pair.tight_deg)
    strokes = [
        struck(
            muted(DRUM), muted_modes(), other_muted=True, lobes=lobes,
            blow=Blow(out=0.85, along_deg=along, impulse_n_s=0.03),
            ear=Ear(out=0.6, along_deg=phone_deg),
        ).sound(seconds=1.5, rate_hz=RATE_HZ)
        for along in along_deg
    ]  # fmt: skip
    samples, starts = in_a_row(strokes, every_s=1.6, rate_hz=RATE_HZ)
    loud = max(float(np.abs(stroke).max()) for stroke in strokes)
    noise = np.random.default_rng(seed).standard_normal(len(samples))
    # White up to half the rate; the ratio counts what of it lies below 1 kHz.
    size = loud / np.sqrt(2.0) * 10.0 ** (-snr_db / 20.0) * np.sqrt(RATE_HZ / 2.0 / 1000.0)
    return Sound(samples=samples + size * noise, rate_hz=RATE_HZ), taps_at(along_deg, starts)


def pulls_of(count: int) -> list[float]:
    spread = np.random.default_rng(40 + count).uniform(-0.09, 0.09, count)
    return [float(PULL_N * (1.0 + part)) for part in spread]


def read_drum(count: int) -> tuple[Doublet, RimReading]:
    along = rods(count)
    pair = truth_of(pulls_of(count), along)
    phone = pair.tight_deg + 40.0
    sound, taps = heard(pair, along, phone_deg=phone, seed=count)
    near = batter_lug_mode(muted(DRUM)).hz
    return pair, read_round_rim(sound, taps, near_hz=near, phone_deg=[phone])


@pytest.mark.parametrize("count", range(3, 13))
def test_the_two_lobed_part_of_uneven_rods_comes_back_and_the_rest_is_said_to_be_unknown(count):
    pair, read = read_drum(count)
    split = (batter_lug_mode(muted(DRUM)).batter_share) * pair.split_cents
    assert read.split_cents == pytest.approx(split, abs=2.0)
    assert apart_deg(read.axis_deg, pair.tight_deg) < 3.0 * read.axis_doubt_deg + 1e-6
    assert read.axis_doubt_deg < 12.0
    along = rods(count)
    advice = advise(read, rods=count, rod_deg=along, even_enough_cents=2.0, film=False)
    assert advice.unknown[0] == (ODD_THREE if count == 3 else ODD if count % 2 else OPPOSITE)
    matrix = pitch_matrix(along)
    told = np.linalg.pinv(matrix, rcond=SURE) @ matrix @ pulls_of(count)
    shares = np.array([one.share for one in advice.pattern])
    assert float(shares @ (told - told.mean())) < 0.0, "every share works against its part"
    assert all(one.turns is None for one in advice.pattern), "no turn is known for this drum yet"
    if count % 2 == 0:
        half = count // 2
        assert np.array_equal(shares[:half], shares[half:]), "opposite rods are turned alike"


def test_a_very_clean_recording_shows_no_third_pitch():
    """Its glide is the sum of several, which a tone that dies faster in the same place explains."""
    pair = Doublet(mean_hz=245.86, split_cents=30.0, tight_deg=40.0)
    read = read_round_rim(*heard(pair, rods(5), phone_deg=60.0, seed=5, snr_db=55.0))
    assert read.ask == ()
    assert read.quality == "good"


@pytest.mark.parametrize("count", [5, 6, 8])
def test_pulls_that_only_differ_between_opposite_rods_are_even_to_the_ear(count):
    """The odd part splits nothing, whatever its size: first order, exact."""
    along = rods(count)
    lean = 0.15 * np.cos(np.radians(np.array(along) - 20.0))
    pair = truth_of(list(PULL_N * (1.0 + lean)), along)
    assert pair.split_cents < 1e-6


@pytest.mark.parametrize(
    ("count", "way"), [(5, "both"), (6, "both"), (8, "both"), (8, "down"), (10, "up")]
)
def test_turning_what_is_advised_evens_the_drum(count, way):
    """Turned by amounts that one calibrated drum would take, the modelled split closes."""
    along = rods(count)
    pulls = np.array(pulls_of(count))
    pair = truth_of(list(pulls), along)
    read = RimReading(
        mean_hz=pair.mean_hz, mean_doubt_hz=0.01, split_cents=pair.split_cents,
        split_doubt_cents=0.1, axis_deg=pair.tight_deg, axis_doubt_deg=1.0, quality="good",
    )  # fmt: skip
    advice = advise(read, rods=count, rod_deg=along, even_enough_cents=1.0, film=False, way=way)
    shares = np.array([one.share for one in advice.pattern])
    best = min(
        truth_of(list(pulls + PULL_N * amount * shares), along).split_cents
        for amount in np.linspace(0.0, 0.3, 61)
    )
    assert best < 0.35 * pair.split_cents


def test_a_file_of_taps_is_read_from_its_bytes_to_the_advice():
    """Nothing is told of where the strokes are, nor of the pitch; 16 bits, a phone at 50 deg."""
    along = rods(8)
    pulls = [PULL_N * (1.0 + 0.06 * np.cos(2.0 * np.radians(at - 90.0))) for at in along]
    pair = truth_of(pulls, along)
    sound, _ = heard(pair, along, phone_deg=50.0, seed=8)
    loud = float(np.abs(sound.samples).max())
    read_back = decode(wav_bytes(0.5 * sound.samples / loud, rate_hz=RATE_HZ))
    strokes = find_strokes(read_back)
    assert len(strokes) == 8
    taps = [
        Tap(rod=at + 1, along_deg=along[at], stroke=stroke) for at, stroke in enumerate(strokes)
    ]
    read = read_round_rim(read_back, taps)
    assert read.split_cents == pytest.approx(pair.split_cents, abs=2.0)
    assert apart_deg(read.axis_deg, pair.tight_deg) < 3.0 * read.axis_doubt_deg
    assert all(type(tap.hz) is float for tap in read.taps if tap.hz is not None)
    said = advise(read, rods=8, rod_deg=along).sentences
    assert any(s.startswith("Rods 1 and 5 read low: tighten both") for s in said)
    assert any(s.startswith("Rods 3 and 7 read sharp: slacken both") for s in said)

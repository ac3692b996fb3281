"""One stroke read: where it settles, how it got there, what else rings, what beats."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from counterhoop.listen.close_pair import find_pair, partials_of
from counterhoop.listen.glide import Course
from counterhoop.listen.heterodyne import Band, thinned
from counterhoop.listen.noise import noise_under
from counterhoop.listen.overtones import overtones
from counterhoop.listen.partial import ClosePair, Glide, Partial, levelled
from counterhoop.listen.refine import Fit, refine
from counterhoop.listen.settle import FIRST_S, bands_of, settle
from counterhoop.listen.sought import Peak, peaks_of
from counterhoop.listen.sound import Sound
from counterhoop.listen.strokes import Stroke

Quality = Literal["good", "fair", "poor", "none"]

UP_TO_HZ = 850.0
LONGEST_S, SHORTEST_S = 2.5, 0.2
NEAR_SHARE = 0.12
HIGHEST_LOWEST_HZ = 500.0
# A tone weaker than this, by energy, is not taken for the lowest of the drum.
WEAKEST_DB = -16.0
# Rings on after all else, as the string of a fan, a hum or another drum in the room does.
_HUM_DECAY = 0.4
SURE_DB, SURE_CENTS = 13.0, 6.0
CLEAR_DB, CLEAR_CENTS = 18.0, 2.0
# Dead within a third of a second: too short to show whether the pitch had settled.
QUICK_DECAY = 20.0
# A glide is said from so many times its own doubt. A pitch falls and never rises: on one side this
# is as rare as three doubts on either, once in 340.
SHOWN_DOUBTS = 2.75
_PAIR_ASKED_DB = 26.0
_MOST_TRIED = 4
_STAYS, _ENDED_ON = 0.08, 0.03


@dataclass(frozen=True, slots=True, kw_only=True)
class StrokeReading:
    """What one stroke says.

    Attributes
    ----------
    stroke : Stroke
        Which.
    settled : Partial or None
        The lowest tone, once it has stopped gliding; None where none is sure.
    partials : tuple of Partial
        All that was found, from low to high, the settled one among them.
    glide : Glide or None
        How the settled tone came down to its pitch, where it did.
    pairs : tuple of ClosePair
        Tones that beat.
    noise_db : float
        Level of the quietest part over the loudest.
    quality : {"good", "fair", "poor", "none"}
        Of the settled pitch.
    says : tuple of str
        What should be known beside it, a sentence each.
    refusal : str
        Why there is no reading; "" where there is one.
    """

    stroke: Stroke
    settled: Partial | None = None
    partials: tuple[Partial, ...] = ()
    glide: Glide | None = None
    pairs: tuple[ClosePair, ...] = ()
    noise_db: float = 0.0
    quality: Quality = "none"
    says: tuple[str, ...] = ()
    refusal: str = ""


def read_stroke(sound: Sound, stroke: Stroke, *, near_hz: float | None = None) -> StrokeReading:
    """Read one stroke.

    Parameters
    ----------
    sound, stroke : Sound, Stroke
        The recording, and where in it.
    near_hz : float, optional
        Where the pitch is expected, to an eighth; else the lowest sure tone is read.

    Returns
    -------
    StrokeReading
        With ``refusal`` where nothing is sure: no reading rather than a wrong one.
    """
    if stroke.dropped:
        return StrokeReading(stroke=stroke, refusal=stroke.dropped)
    ends_s = min(stroke.ends_s, stroke.starts_s + LONGEST_S)
    whole = sound.between(stroke.starts_s, ends_s)
    if len(whole) < SHORTEST_S * sound.rate_hz:
        return StrokeReading(
            stroke=stroke,
            refusal=f"This stroke is over in {len(whole) / sound.rate_hz:.2f} s: let each one ring"
            " for two seconds before the next.",
        )
    samples, rate_hz = thinned(whole, rate_hz=sound.rate_hz, up_to_hz=UP_TO_HZ)
    noise_db = noise_under(samples, rate_hz=rate_hz)
    peaks = peaks_of(samples, rate_hz=rate_hz)
    lead = _lowest(samples, rate_hz, peaks, near_hz)
    if isinstance(lead, str):
        clumps = overtones(samples, rate_hz=rate_hz, peaks=peaks)
        return StrokeReading(
            stroke=stroke,
            partials=levelled([tone for clump in clumps for tone in clump.partials]),
            pairs=tuple(clump.pair for clump in clumps if clump.pair),
            noise_db=noise_db,
            refusal=lead,
        )
    return _reading(stroke, samples, rate_hz, peaks, lead, noise_db)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lead:
    """The lowest tone, or the two tones it turned out to be."""

    peak: Peak
    band: Band
    fit: Fit
    pair: ClosePair | None


def _lowest(
    samples: NDArray[np.float64], rate_hz: float, peaks: Sequence[Peak], near_hz: float | None
) -> _Lead | str:
    """Return the lowest sure tone, or why there is none."""
    asked = [
        peak
        for peak in peaks
        if (
            peak.hz < HIGHEST_LOWEST_HZ and peak.energy_db > WEAKEST_DB
            if near_hz is None
            else abs(peak.hz / near_hz - 1.0) < NEAR_SHARE
        )
    ]
    if not asked:
        return (
            "Nothing rings here that could be the pitch of a drum."
            if near_hz is None
            else f"Nothing rings near {near_hz:.0f} Hz."
        )
    loudness = float(np.sum(samples[round(FIRST_S * rate_hz) :] ** 2)) / rate_hz
    for peak in asked[:_MOST_TRIED]:
        found = settle(samples, rate_hz=rate_hz, peak=peak, peaks=peaks)
        if found is None:
            continue
        band, fit = found
        if fit.decay_per_s[0] < _HUM_DECAY or _is_of_another(fit, peak, peaks):
            continue
        pair, asked_db = None, _PAIR_ASKED_DB
        for around in bands_of(samples, rate_hz, peak, peaks):
            if fit.explained_db >= asked_db:
                break
            pair = find_pair(around, begin=fit.course(0))
            if pair:
                band, fit = around, _together(around, pair) or fit
                break
            # Where one tone will do, a neighbour has hidden no second one.
            asked_db = CLEAR_DB
        if pair or (_sure(peak, fit) and _energy_db(fit, loudness) > WEAKEST_DB):
            return _Lead(peak=peak, band=band, fit=fit, pair=pair)
        stayed = abs(fit.hz[0] / peak.hz - 1.0) < _STAYS
        if (stayed and peak.energy_db > -10.0) or near_hz is not None:
            return (
                f"The lowest tone, near {peak.hz:.0f} Hz, is not clear enough to be read: snare"
                " wires, another drum that rings with it, or too short a sound. Wires off, the"
                " other head muted, a soft tap, and let it ring."
            )
    return "No tone here is clear enough to be taken for the lowest of the drum."


def _together(band: Band, pair: ClosePair) -> Fit | None:
    """Return both tones of a pair as they run: what one tone seems to glide is their beat."""
    return refine(
        band,
        tones=[
            Course(
                hz=tone.hz,
                decay_per_s=tone.decay_per_s,
                share=0.0,
                tau_s=1.0 / (2.0 * tone.decay_per_s),
            )
            for tone in (pair.low, pair.high)
        ],
    )


def _is_of_another(fit: Fit, peak: Peak, peaks: Sequence[Peak]) -> bool:
    """Tell whether a fit that began at a weak peak ended on a stronger one beside it.

    One that ended between the two is on neither: its peak was not read, and may be the lowest.
    """
    nearest = min(peaks, key=lambda other: abs(other.hz - fit.hz[0]))
    there = abs(fit.hz[0] / nearest.hz - 1.0) < _ENDED_ON
    return there and nearest is not peak and nearest.level_db > peak.level_db


def _sure(peak: Peak, fit: Fit) -> bool:
    return (
        fit.explained_db >= SURE_DB
        and _cents(fit.hz_doubt[0], fit.hz[0]) <= SURE_CENTS
        and 0.85 < fit.hz[0] / peak.hz < 1.05
    )


def _energy_db(fit: Fit, loudness: float) -> float:
    """Return the energy of a tone over that of the stroke, both from when the stick is off."""
    decay = fit.decay_per_s[0]
    own = abs(fit.amplitudes[0]) ** 2 / (4.0 * decay) * math.exp(-2.0 * decay * FIRST_S)
    return 10.0 * math.log10(max(own, 1e-30) / max(loudness, 1e-30))


def _cents(doubt_hz: float, hz: float) -> float:
    return 1200.0 / math.log(2.0) * doubt_hz / hz


def _reading(
    stroke: Stroke,
    samples: NDArray[np.float64],
    rate_hz: float,
    peaks: Sequence[Peak],
    lead: _Lead,
    noise_db: float,
) -> StrokeReading:
    clumps = overtones(
        samples, rate_hz=rate_hz, peaks=peaks, lead=lead.peak, course=lead.fit.course(0)
    )
    own = (lead.pair.low, lead.pair.high) if lead.pair else partials_of(lead.fit)
    partials = levelled([*own, *(tone for clump in clumps for tone in clump.partials)])
    most = max(own, key=lambda tone: tone.amplitude)
    settled = next(tone for tone in partials if tone.hz == most.hz)
    pairs = ([lead.pair] if lead.pair else []) + [clump.pair for clump in clumps if clump.pair]
    doubt = _cents(settled.hz_doubt, settled.hz)
    quality: Quality = "poor"
    if doubt <= CLEAR_CENTS:
        clear = lead.pair is not None or lead.fit.explained_db >= CLEAR_DB
        quality = "good" if clear and settled.decay_per_s < QUICK_DECAY else "fair"
    return StrokeReading(
        stroke=stroke,
        settled=settled,
        partials=partials,
        glide=_glide(lead.fit),
        pairs=tuple(pairs),
        noise_db=noise_db,
        quality=quality,
        says=_says(settled, partials, lead),
    )


def _glide(fit: Fit) -> Glide | None:
    """Return the glide, where the sound shows one."""
    if fit.share < SHOWN_DOUBTS * fit.share_doubt:
        return None
    return Glide(cents=1200.0 * math.log2(1.0 + fit.share), tau_s=fit.tau_s)


def _says(settled: Partial, partials: Sequence[Partial], lead: _Lead) -> tuple[str, ...]:
    said = []
    loudest = max(partials, key=lambda tone: tone.level_db)
    if loudest.hz > 1.1 * settled.hz and loudest.level_db > settled.level_db + 3.0:
        said.append(
            f"The loudest tone is near {loudest.hz:.0f} Hz, the lowest near {settled.hz:.0f} Hz."
        )
    glide = _glide(lead.fit)
    if glide and glide.cents > 60.0 and lead.band.starts_s < 0.3:
        said.append(
            f"The pitch falls by about {glide.cents:.0f} cents as the stroke dies: tap more softly."
        )
    return tuple(said)

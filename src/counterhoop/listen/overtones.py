"""What rings above the lowest tone: clumps of tones with its glide, and which of them beat."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.listen.close_pair import DECAYS, FARTHEST_HZ, find_pair, partials_of
from counterhoop.listen.glide import Course, straightened
from counterhoop.listen.heterodyne import Band, band_around
from counterhoop.listen.high_resolution import poles_of
from counterhoop.listen.partial import ClosePair, Partial
from counterhoop.listen.refine import Fit, refine
from counterhoop.listen.sought import Peak

SINCE_S = 0.04
MOST_CLUMPS, MOST_TONES = 4, 3
OWN_LOW, OWN_HIGH = 0.86, 1.2
_WEAKEST_DB, _FEWEST = -24.0, 24
_STEPS = 10
# What is left beyond this is how the model is wrong, not another tone.
_ENOUGH_DB = 25.0
_WORTH_ASKING = 2.0
# A further tone must take this much off what is left.
_WORTH_DB = 3.0
_EXPLAINED_DB, _DOUBT_SHARE = 8.0, 0.004
_ALIVE_DECAYS = (0.4, 60.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Clump:
    """Tones within a band, and the pair among them if two beat."""

    partials: tuple[Partial, ...]
    pair: ClosePair | None


def overtones(
    samples: NDArray[np.float64],
    *,
    rate_hz: float,
    peaks: Sequence[Peak],
    lead: Peak | None = None,
    course: Course | None = None,
) -> tuple[Clump, ...]:
    """Return the tones beside the lowest.

    Parameters
    ----------
    samples : ndarray, shape (n,)
        One stroke from its start.
    rate_hz : float
        Of them.
    peaks, lead : Peak
        All that was seen, and the lowest tone among it if it was read.
    course : Course, optional
        How the lowest tone runs: all tones of a head glide alike, as its tension does.
    """
    course = course or Course(hz=0.0, decay_per_s=3.0, share=0.0, tau_s=0.15)
    low, high = (OWN_LOW * lead.hz, OWN_HIGH * lead.hz) if lead else (0.0, 0.0)
    rest = [peak for peak in peaks if not low < peak.hz < high and peak.energy_db > _WEAKEST_DB]
    done: list[tuple[float, float]] = []
    clumps = []
    for peak in sorted(rest, key=lambda peak: -peak.energy_db - peak.level_db):
        if len(done) == MOST_CLUMPS:
            break
        if any(least < peak.hz < most for least, most in done):
            continue
        half = max(12.0, 0.07 * peak.hz)
        beside = [
            other.hz
            for other in rest
            if abs(other.hz - peak.hz) < 0.7 * half and other.level_db > peak.level_db - 15.0
        ]
        middle = (min(beside) + max(beside)) / 2.0
        done.append((middle - half, middle + half))
        band = band_around(
            samples, rate_hz=rate_hz, centre_hz=middle, half_width_hz=half, edge_hz=1.2 * half
        ).after(SINCE_S)
        if len(band.values) < _FEWEST:
            continue
        clump = _clump(band, course, half)
        if clump:
            clumps.append(clump)
    return tuple(clumps)


def _clump(band: Band, course: Course, half: float) -> Clump | None:
    fit = _fewest_tones(band, course)
    if fit is None or fit.explained_db < _EXPLAINED_DB:
        return None
    asked = _worth_asking(fit)
    pair = find_pair(band, begin=asked[0], two=asked) if asked else None
    tones = (pair.low, pair.high) if pair else partials_of(fit)
    # Beside a tone whose glide is not quite known, tones that die at once seem to be there.
    main = max(tones, key=lambda tone: tone.amplitude**2 / tone.decay_per_s)
    kept = tuple(
        tone
        for tone in tones
        if tone.hz_doubt < _DOUBT_SHARE * tone.hz
        and _ALIVE_DECAYS[0] < tone.decay_per_s < _ALIVE_DECAYS[1]
        and abs(tone.hz - band.centre_hz) < half
        and tone.decay_per_s < DECAYS * main.decay_per_s
    )
    return Clump(partials=kept, pair=pair) if kept else None


def _worth_asking(fit: Fit) -> list[Course]:
    """Return the two strongest tones, where they may be a pair."""
    if len(fit.hz) < 2:
        return []
    energy = np.abs(fit.amplitudes) ** 2 / np.array(fit.decay_per_s)
    one, other = (fit.course(int(at)) for at in np.argsort(-energy)[:2])
    decays = sorted((one.decay_per_s, other.decay_per_s))
    near = abs(one.hz - other.hz) < FARTHEST_HZ
    return [one, other] if near and decays[1] < _WORTH_ASKING * DECAYS * decays[0] else []


def _fewest_tones(band: Band, course: Course) -> Fit | None:
    """Return the fit of as many tones as pay for themselves, with the glide as it is known."""
    straight = straightened(band, share=course.share, tau_s=course.tau_s)
    best: Fit | None = None
    for count in range(1, MOST_TONES + 1):
        try:
            hz, decay = poles_of(straight, rate_hz=band.rate_hz, count=count)
        except np.linalg.LinAlgError:
            break
        tones = [
            Course(
                hz=band.centre_hz + float(f),
                decay_per_s=float(np.clip(d, *_ALIVE_DECAYS)),
                share=course.share,
                tau_s=course.tau_s,
            )
            for f, d in zip(hz, decay, strict=True)
        ]
        fit = refine(band, tones=tones, glide_free=False, steps=_STEPS)
        if fit is None:
            break
        if best and 10.0 * math.log10(best.left / max(fit.left, 1e-30)) < _WORTH_DB:
            break
        best = fit
        if fit.explained_db > _ENOUGH_DB:
            break
    return best

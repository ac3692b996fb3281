"""What rings above the lowest tone: clumps of tones with its glide, and which of them beat."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from counterhoop.listen.close_pair import (
    BESIDE_DB,
    BETTER_DB,
    DECAYS,
    better_db,
    find_pair,
    partials_of,
    while_it_rings,
)
from counterhoop.listen.glide import Course, straightened
from counterhoop.listen.heterodyne import Band, band_around
from counterhoop.listen.high_resolution import poles_of
from counterhoop.listen.partial import ClosePair, Partial
from counterhoop.listen.refine import Fit, refine
from counterhoop.listen.sought import Peak

SINCE_S = 0.04
# The higher, the denser tones lie: a band that grew with the pitch would hold ever more of them.
WIDEST_HZ = 25.0
# Above the lowest, tones further apart than this are two modes rather than the halves of one.
APART_HZ = 10.0
MOST_CLUMPS, MOST_TONES = 7, 4
OWN_LOW, OWN_HIGH = 0.86, 1.2
_WEAKEST_DB, _FEWEST = -24.0, 24
_STEPS, _FREED_STEPS = 10, 12
_MOST_ASKED = 2
# What is left beyond this is how the model is wrong, not another tone.
_ENOUGH_DB = 25.0
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
        half = min(max(12.0, 0.07 * peak.hz), WIDEST_HZ)
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
    pair, beside = _pair_among(band, fit)
    tones = (pair.low, pair.high, *beside) if pair else partials_of(fit)
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


def _pair_among(band: Band, fit: Fit) -> tuple[ClosePair | None, tuple[Partial, ...]]:
    """Return two neighbours that beat, the strongest two that do, and the tones beside them."""
    for glide_free in (False, True)[: len(fit.hz) - 1]:
        seen = _glide_free(band, fit) if glide_free else fit
        if glide_free and seen is fit:
            break
        heard = [
            abs(amplitude) ** 2 * math.exp(-2.0 * decay * band.starts_s) / decay
            for amplitude, decay in zip(seen.amplitudes, seen.decay_per_s, strict=True)
        ]
        by_pitch = sorted(range(len(heard)), key=lambda at: seen.hz[at])
        near = [two for two in pairwise(by_pitch) if seen.hz[two[1]] - seen.hz[two[0]] < APART_HZ]
        for two in sorted(near, key=lambda two: -min(heard[at] for at in two))[:_MOST_ASKED]:
            beside = [at for at in by_pitch if at not in two]
            pair = find_pair(
                band,
                begin=seen.course(max(two, key=lambda at: heard[at])),
                two=[seen.course(at) for at in two],
                beside=[seen.course(at) for at in beside],
            )
            if pair:
                whole = partials_of(seen)
                return pair, tuple(whole[by_pitch.index(at)] for at in beside)
    return None, ()


def _glide_free(band: Band, fit: Fit) -> Fit:
    """Return the fit with its glide set free, less the tones that stood in for it.

    Beside a tone that glides otherwise than the lowest does, one that dies at once seems to be
    there; as loud as it would have been at the start it is the strongest of all.
    """
    band = while_it_rings(band, fit)
    free = refine(band, tones=[fit.course(at) for at in range(len(fit.hz))], steps=_FREED_STEPS)
    # A head's pitch falls as it dies: where it seems to rise that stands in for something else.
    if free is None or free.share < 0.0:
        return fit
    while len(free.hz) > 2:
        fastest = int(np.argmax(free.decay_per_s))
        rest = [free.course(at) for at in range(len(free.hz)) if at != fastest]
        fewer = refine(band, tones=rest, steps=_FREED_STEPS)
        if fewer is None or (
            fewer.explained_db < _ENOUGH_DB and better_db(free, fewer) >= BETTER_DB
        ):
            break
        free = fewer
    return free


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
        if best:
            more = count - len(best.hz)
            if better_db(fit, best) < more * BESIDE_DB:
                # Of three alike the second pays only once the third is there.
                if count > 2:
                    break
                continue
        best = fit
        if fit.explained_db > _ENOUGH_DB:
            break
    return best

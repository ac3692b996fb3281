"""Whether two tones beat in a band, or one tone only looks as if: the evidence asked for."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from counterhoop.listen.glide import Course, first_guess, straightened
from counterhoop.listen.heterodyne import Band
from counterhoop.listen.high_resolution import poles_of
from counterhoop.listen.partial import ClosePair, Partial, levelled
from counterhoop.listen.refine import Fit, refine

LATER_S = 0.1
BETTER_DB = 6.0
LEVELS_DB = 18.0
DECAYS = 3.0
NEAREST_HZ, FARTHEST_HZ = 0.6, 16.0
SAME_HZ, SAME_SHARE = 0.25, 0.10
_APART_HZ = (2.0, 4.0)
_FIRST_STEPS = 6
_FEWEST = 24


def find_pair(band: Band, *, begin: Course, two: Sequence[Course] = ()) -> ClosePair | None:
    """Return two tones of a band that beat, where the evidence for them is there.

    Parameters
    ----------
    band : Band
        Around a tone.
    begin : Course
        That tone as one, with its glide.
    two : sequence of Course, optional
        Where two tones may be, if that was seen already.

    Notes
    -----
    A tone that glides, or whose decay is not quite even, is explained better by two tones than
    by one whenever a method is asked for two. So all of this is asked for: two tones leave at
    least 6 dB less unexplained than one does, from the first moment and from a tenth of a second
    later; both times they are the same two; they are within 18 dB, and neither dies three times
    as fast as the other; and they have time to beat at least once before they are gone.
    """
    first = _two(band, begin, two)
    if first is None:
        return None
    later_band = band.after(band.starts_s + LATER_S)
    if len(later_band.values) < _FEWEST:
        return None
    later = _two(later_band, begin, [first[0].course(0), first[0].course(1)])
    if later is None:
        return None
    (found, better_db), (again, better_again_db) = first, later
    apart, apart_again = found.hz[1] - found.hz[0], again.hz[1] - again.hz[0]
    middle, middle_again = sum(found.hz) / 2.0, sum(again.hz) / 2.0
    same = max(SAME_HZ, SAME_SHARE * apart)
    if abs(apart - apart_again) > same or abs(middle - middle_again) > same:
        return None
    low, high = partials_of(found)
    least_db = min(better_db, better_again_db)
    return ClosePair(
        low=low,
        high=high,
        beat_hz=apart,
        better_db=least_db,
        says=(
            f"Two tones {apart:.1f} Hz apart beat here; two leave {least_db:.0f} dB less of the"
            " sound unexplained than one, from the start and again a tenth of a second later."
        ),
    )


def partials_of(fit: Fit) -> tuple[Partial, ...]:
    """Return the tones of a fit, from low to high; levels over the strongest of them."""
    return levelled(
        [
            Partial(
                hz=fit.hz[at],
                hz_doubt=fit.hz_doubt[at],
                decay_per_s=fit.decay_per_s[at],
                decay_doubt=fit.decay_doubt[at],
                level_db=0.0,
                amplitude=abs(fit.amplitudes[at]),
                phase_rad=float(np.angle(fit.amplitudes[at])),
            )
            for at in range(len(fit.hz))
        ]
    )


def _two(band: Band, begin: Course, two: Sequence[Course]) -> tuple[Fit, float] | None:
    """Return the fit of two tones and by how much it is better, where they pass as a pair."""
    guess = first_guess(band)
    one = refine(band, tones=[begin])
    if one is None:
        return None
    # A few steps tell which start leads somewhere.
    starts = [*([two] if two else []), *_starts(band, (begin, one.course(0), guess))]
    tried = [refine(band, tones=start, steps=_FIRST_STEPS) for start in starts]
    promising = sorted((fit for fit in tried if fit), key=lambda fit: fit.left)[:2]
    done = [refine(band, tones=[fit.course(0), fit.course(1)]) for fit in promising]
    best = min((fit for fit in done if fit), key=lambda fit: fit.left, default=None)
    if not best:
        return None
    if _better_db(best, one) < BETTER_DB or not _alike(band, best):
        return None
    # The one tone must have had its best chance too.
    again = refine(band, tones=[guess])
    better_db = min(_better_db(best, fit) for fit in (one, again) if fit)
    return (_ordered(best), better_db) if better_db >= BETTER_DB else None


def _better_db(two: Fit, one: Fit) -> float:
    return 10.0 * math.log10(one.left / max(two.left, 1e-30))


def _starts(band: Band, singles: Sequence[Course]) -> Iterator[list[Course]]:
    for course in singles:
        straight = straightened(band, share=course.share, tau_s=course.tau_s)
        try:
            hz, decay = poles_of(straight, rate_hz=band.rate_hz, count=2)
        except np.linalg.LinAlgError:
            continue
        yield [
            Course(
                hz=band.centre_hz + float(hz[at]),
                decay_per_s=float(np.clip(decay[at], 0.5, 40.0)),
                share=course.share,
                tau_s=course.tau_s,
            )
            for at in (0, 1)
        ]
    single = singles[-1]
    for apart in _APART_HZ:
        yield [
            Course(
                hz=single.hz + way * apart / 2.0,
                decay_per_s=single.decay_per_s,
                share=single.share,
                tau_s=single.tau_s,
            )
            for way in (-1.0, 1.0)
        ]


def _alike(band: Band, two: Fit) -> bool:
    """Tell whether two tones pass as a pair, judged where the band starts."""
    apart = abs(two.hz[1] - two.hz[0])
    fast, slow = max(two.decay_per_s), min(two.decay_per_s)
    levels = [
        abs(amplitude) * math.exp(-decay * band.starts_s)
        for amplitude, decay in zip(two.amplitudes, two.decay_per_s, strict=True)
    ]
    if min(levels) <= 0.0 or slow <= 0.0:
        return False
    # Both must still be there for about one beat: a slower beat is a decay that bends.
    lasts = min(len(band.values) / band.rate_hz, math.log(1000.0) / fast)
    return (
        NEAREST_HZ <= apart <= FARTHEST_HZ
        and apart * lasts >= 0.8
        and fast / slow < DECAYS
        and 20.0 * math.log10(max(levels) / min(levels)) < LEVELS_DB
        and math.hypot(*two.hz_doubt) < 0.25 * apart
    )


def _ordered(two: Fit) -> Fit:
    if two.hz[0] <= two.hz[1]:
        return two
    return replace(
        two,
        hz=two.hz[::-1],
        hz_doubt=two.hz_doubt[::-1],
        decay_per_s=two.decay_per_s[::-1],
        decay_doubt=two.decay_doubt[::-1],
        amplitudes=two.amplitudes[::-1],
    )

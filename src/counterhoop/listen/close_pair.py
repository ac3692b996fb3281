"""Whether two tones beat in a band, or one tone only looks as if: the evidence asked for."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from operator import itemgetter

import numpy as np
from numpy.typing import NDArray

from counterhoop.listen.glide import Course, ahead_s, first_guess, straightened
from counterhoop.listen.heterodyne import Band
from counterhoop.listen.high_resolution import poles_of
from counterhoop.listen.partial import ClosePair, Partial, levelled
from counterhoop.listen.refine import Fit, refine

LATER_S = 0.1
BETTER_DB = 6.0
# Each tone beside may be one too many: it paid for itself with so much.
BESIDE_DB = 3.0
LEVELS_DB = 18.0
DECAYS = 3.0
NEAREST_HZ, FARTHEST_HZ = 0.6, 16.0
SAME_HZ, SAME_SHARE = 0.25, 0.10
_APART_HZ = (2.0, 4.0)
_FIRST_STEPS, _LAST_STEPS = 6, 30
_FEWEST = 24
# What one tone leaves less of has no second within 18 dB.
_EXPLAINED_DB = LEVELS_DB + 8.0
# A tone this far below a pair does not blur it.
FAINT_DB = 20.0


def find_pair(
    band: Band, *, begin: Course, two: Sequence[Course] = (), beside: Sequence[Course] = ()
) -> ClosePair | None:
    """Return two tones of a band that beat, where the evidence for them is there.

    Parameters
    ----------
    band : Band
        Around a tone.
    begin : Course
        That tone as one, with its glide.
    two : sequence of Course, optional
        Where two tones may be, if that was seen already.
    beside : sequence of Course, optional
        Other tones in the band. They are fitted with one tone and with two alike: what they
        leave unexplained would else drown the evidence, or pass for it.

    Notes
    -----
    A tone that glides, or whose decay is not quite even, is explained better by two tones than
    by one whenever a method is asked for two. So all of this is asked for: two tones leave at
    least 6 dB less unexplained than one does, from the first moment and from a tenth of a second
    later, or sooner where they have lost half by then; both times they are the same two; they are
    within 18 dB, and neither dies three times as fast as the other; and they have time to beat at
    least once before they are gone. It is asked of the time and of the pitches at which they
    ring: noise after it and beside them would only dilute it, the more the sooner they die. From
    the first moment 3 dB more are asked for every tone beside.
    """
    heard = refine(band, tones=[*(two or [begin]), *beside], steps=1)
    band = while_it_rings(band, heard) if heard else band
    first = _two(band, begin, two, beside)
    if first is None:
        return None
    found, by_db = first
    if by_db < BETTER_DB + BESIDE_DB * len(beside):
        return None
    half_s = math.log(2.0) / min(found.decay_per_s[:2])
    later_band = band.after(band.starts_s + min(LATER_S, half_s))
    if len(later_band.values) < _FEWEST:
        return None
    still = _still_heard(found, later_band.starts_s)
    later = _two(later_band, begin, [found.course(0), found.course(1)], still)
    if later is None:
        return None
    again, by_again_db = later
    apart, apart_again = found.hz[1] - found.hz[0], again.hz[1] - again.hz[0]
    middle, middle_again = sum(found.hz[:2]) / 2.0, sum(again.hz[:2]) / 2.0
    same = max(SAME_HZ, SAME_SHARE * apart)
    if abs(apart - apart_again) > same or abs(middle - middle_again) > same:
        return None
    low, high = partials_of(_only(found, (0, 1)))
    least_db = min(by_db, by_again_db)
    return ClosePair(
        low=low,
        high=high,
        beat_hz=apart,
        better_db=least_db,
        says=(
            f"Two tones {apart:.1f} Hz apart beat here; two leave {least_db:.0f} dB less of the"
            " sound unexplained than one, from the start and again a little later."
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


def while_it_rings(band: Band, fit: Fit) -> Band:
    """Return a band as long as the tones of its fit are louder than its last quarter."""
    last = band.values[-len(band.values) // 4 :]
    quiet = math.sqrt(float(np.mean(np.abs(last) ** 2)))
    lasts = [
        math.log(abs(amplitude) / quiet) / decay
        for amplitude, decay in zip(fit.amplitudes, fit.decay_per_s, strict=True)
        if abs(amplitude) > quiet > 0.0
    ]
    if not lasts:
        return band
    keep = max(max(lasts) - band.starts_s, LATER_S + (_FEWEST + 1) / band.rate_hz)
    return replace(band, values=band.values[: math.ceil(keep * band.rate_hz)])


def _still_heard(fit: Fit, since_s: float) -> list[Course]:
    """Return the tones beside a pair that are not far below it by then."""
    level = [
        abs(amplitude) * math.exp(-decay * since_s)
        for amplitude, decay in zip(fit.amplitudes, fit.decay_per_s, strict=True)
    ]
    least = min(level[:2]) * 10.0 ** (-FAINT_DB / 20.0)
    return [fit.course(at) for at in range(2, len(level)) if level[at] > least]


def _two(
    band: Band, begin: Course, two: Sequence[Course], beside: Sequence[Course]
) -> tuple[Fit, float] | None:
    """Return the fit of two tones and by how much it is better, where they pass as a pair.

    Two tones with the glide that is known already need pass only against one whose glide is free.
    Where others ring beside them two tones are not looked for but only where they were seen.
    """
    if two:
        seen = refine(band, tones=[*two, *beside], glide_free=False, steps=_FIRST_STEPS)
        passed = _passed(band, seen, [begin, *beside])
        if passed or beside:
            return passed
    one = refine(band, tones=[begin])
    if one is None or one.explained_db > _EXPLAINED_DB:
        return None
    # A few steps tell which start leads somewhere.
    starts = [*([two] if two else []), *_starts(band, (begin, one.course(0), first_guess(band)))]
    tried = [refine(band, tones=start, steps=_FIRST_STEPS) for start in starts]
    promising = sorted((fit for fit in tried if fit), key=lambda fit: fit.left)[:2]
    done = [refine(band, tones=[fit.course(0), fit.course(1)]) for fit in promising]
    best = min((fit for fit in done if fit), key=lambda fit: fit.left, default=None)
    return _passed(band, best, [one.course(0)])


def _passed(band: Band, two: Fit | None, one: Sequence[Course]) -> tuple[Fit, float] | None:
    """Return two tones and by how much they are better than one, where they pass as a pair."""
    if not two or not _alike(band, two):
        return None
    # The one tone must have its best chance; where a few steps do, the rest are saved.
    others = [two.course(at) for at in range(2, len(two.hz))]
    least_db = math.inf
    for steps in (_FIRST_STEPS, _LAST_STEPS):
        for tones in (one, [first_guess(_without(band, two, since=2)), *others]):
            fit = refine(band, tones=tones, steps=steps)
            if fit:
                least_db = min(least_db, _better_near_db(band, two, fit))
            if least_db < BETTER_DB:
                return None
    return _ordered(two), least_db


def _without(band: Band, fit: Fit, *, since: int) -> Band:
    """Return a band with the tones of its fit taken out, from a number on."""
    ran = _ran(band, fit)
    values = band.values
    for at in range(since, len(fit.hz)):
        turned = 2.0 * np.pi * (fit.hz[at] * ran - band.centre_hz * band.times_s)
        fade = np.exp(-fit.decay_per_s[at] * band.times_s)
        values = values - fit.amplitudes[at] * fade * np.exp(1j * turned)
    return replace(band, values=values)


def _ran(band: Band, fit: Fit) -> NDArray[np.float64]:
    times = band.times_s
    return times + ahead_s(times, share=fit.share, tau_s=fit.tau_s)


def _better_near_db(band: Band, two: Fit, one: Fit) -> float:
    """Return by how much two tones leave less than one does, near to them.

    What one tone leaves of two lies where they are. Noise and other tones elsewhere in the band
    are the same in both, and would only hide it: the more the wider the band.
    """
    middle = sum(two.hz[:2]) / 2.0
    back = np.exp(-2j * np.pi * (middle * _ran(band, two) - band.centre_hz * band.times_s))
    steps = max(1, round(band.rate_hz / (2.0 * FARTHEST_HZ)))
    left = [
        np.convolve(_without(band, fit, since=0).values * back, np.ones(steps), "valid")
        for fit in (one, two)
    ]
    most, least = (float(np.vdot(part, part).real) for part in left)
    return 10.0 * math.log10(most / max(least, 1e-30))


def better_db(more: Fit, fewer: Fit) -> float:
    """Return by how much more tones leave less of a band unexplained than fewer do."""
    return 10.0 * math.log10(fewer.left / max(more.left, 1e-30))


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
    fast, slow = max(two.decay_per_s[:2]), min(two.decay_per_s[:2])
    levels = [
        abs(amplitude) * math.exp(-decay * band.starts_s)
        for amplitude, decay in zip(two.amplitudes[:2], two.decay_per_s[:2], strict=True)
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
        and math.hypot(*two.hz_doubt[:2]) < 0.25 * apart
    )


def _ordered(two: Fit) -> Fit:
    if two.hz[0] <= two.hz[1]:
        return two
    return _only(two, (1, 0, *range(2, len(two.hz))))


def _only(fit: Fit, which: Sequence[int]) -> Fit:
    """Return a fit with these tones of it, in this order."""
    chosen = itemgetter(*which)
    return replace(
        fit,
        hz=chosen(fit.hz),
        hz_doubt=chosen(fit.hz_doubt),
        decay_per_s=chosen(fit.decay_per_s),
        decay_doubt=chosen(fit.decay_doubt),
        amplitudes=chosen(fit.amplitudes),
    )

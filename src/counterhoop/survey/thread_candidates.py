"""Which threads a reading may be, with odds.

Each listed thread is held against the reading by Bayes' rule, every thread equally likely
beforehand. Doubts are half-widths of rectangular distributions, u = a/sqrt(3) (JCGM 100:2008,
4.3.7). An external thread measures up to 2 per cent under its basic size by tolerance and wear
(a published tapping guide), every share of that as likely as another.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.standards.threads import Thread, all_threads
from counterhoop.survey.thread_reading import ThreadReading

WORN_SHARE = 0.02
PITCH_ERROR_SHARE = 0.002
"""Lead error of a rod that was pulled for years. Common practice, no source."""
COUNTS = ((0, 0.90), (-1, 0.07), (1, 0.03))
"""How often a count is right, one short (nine taken for ten) or one over. Common practice, no
source."""
WORTH_NAMING = 0.001
ALIKE_SHARE = 0.05
"""Candidates with at least this share of the leader's odds are not told apart."""
_FAR = 6.0
_UNLISTED = 1 / 7.0 / 1.15 / 15.0
"""Density of a thread of no table: outside 2 to 9 mm, pitch 0.35 to 1.5 mm, 15 deg of flanks."""
_ROOT_2 = math.sqrt(2.0)
_ROOT_3 = math.sqrt(3.0)
_ROOT_2_PI = math.sqrt(2.0 * math.pi)


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One thread that fits, with its odds (0 to 1) and the count by which it fits."""

    thread: Thread
    odds: float
    threads_counted: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadOdds:
    """What a reading may be.

    Attributes
    ----------
    reading : ThreadReading
        As given.
    candidates : tuple of Candidate
        Likeliest first; those under a thousandth are left out.
    unlisted_odds : float
        Of a thread that is in no table here.
    """

    reading: ThreadReading
    candidates: tuple[Candidate, ...]
    unlisted_odds: float

    @property
    def alike(self) -> tuple[Candidate, ...]:
        """The leader and those that this reading cannot tell from it."""
        if not self.candidates:
            return ()
        least = ALIKE_SHARE * self.candidates[0].odds
        return tuple(found for found in self.candidates if found.odds >= least)

    @property
    def shares(self) -> dict[str, float]:
        """Odds of the leader and its look-alikes by name, over every count that they fit by."""
        shares: dict[str, float] = {}
        for found in self.alike:
            name = found.thread.designation
            shares[name] = shares.get(name, 0.0) + found.odds
        return dict(sorted(shares.items(), key=lambda item: -item[1]))

    @property
    def unknown(self) -> bool:
        """It is more likely a thread of no table here, or a slip, than any that is listed."""
        return not self.candidates or self.unlisted_odds > 0.5

    @property
    def miscounted(self) -> bool:
        """More likely than not the threads were counted wrong."""
        pitch = self.reading.pitch
        return (
            pitch is not None
            and sum(
                found.odds for found in self.candidates if found.threads_counted != pitch.threads
            )
            > 0.5
        )


def identify_thread(
    reading: ThreadReading, *, threads: tuple[Thread, ...] | None = None
) -> ThreadOdds:
    """Return the threads that a reading may be, likeliest first.

    Valid for external threads from 2 to 9 mm; a nut or an insert has no outside to measure.

    Parameters
    ----------
    reading : ThreadReading
        Outside diameter, with pitch and flanks as far as they were read.
    threads : tuple of Thread, optional
        Instead of every listed thread.

    Examples
    --------
    >>> from counterhoop.survey.thread_reading import PitchReading
    >>> found = identify_thread(
    ...     ThreadReading(outside_mm=5.44, pitch=PitchReading(length_mm=10.6), angle_deg=60)
    ... )
    >>> found.candidates[0].thread.designation
    '12-24 UNC'
    """
    fits = []
    u_outside = reading.outside_doubt_mm / _ROOT_3
    for thread in all_threads() if threads is None else threads:
        fit = _outside(thread, reading.outside_mm, u_outside)
        if fit and reading.angle_deg is not None:
            fit *= _bell(reading.angle_deg - thread.angle_deg, reading.angle_doubt_deg / _ROOT_3)
        if fit:
            fits += [(fit * share, thread, counted) for share, counted in _pitches(thread, reading)]
    unlisted = _UNLISTED * (1.0 if reading.angle_deg is not None else 15.0)
    unlisted *= 1.15 if reading.pitch is None else 1.0 / reading.pitch.threads
    whole = unlisted + sum(fit for fit, _, _ in fits)
    fits.sort(key=lambda item: -item[0])
    return ThreadOdds(
        reading=reading,
        candidates=tuple(
            Candidate(thread=thread, odds=fit / whole, threads_counted=counted)
            for fit, thread, counted in fits
            if fit >= WORTH_NAMING * whole
        ),
        unlisted_odds=unlisted / whole,
    )


def _outside(thread: Thread, outside_mm: float, u_mm: float) -> float:
    under_mm = WORN_SHARE * thread.major_mm
    over = (outside_mm - thread.major_mm) / u_mm
    under = (outside_mm - thread.major_mm + under_mm) / u_mm
    if over > _FAR or under < -_FAR:
        return 0.0
    return 0.5 * (math.erf(under / _ROOT_2) - math.erf(over / _ROOT_2)) / under_mm


def _pitches(thread: Thread, reading: ThreadReading) -> list[tuple[float, int | None]]:
    pitch = reading.pitch
    if pitch is None:
        return [(1.0, None)]
    found: list[tuple[float, int | None]] = []
    for off, share in COUNTS[:1] if pitch.by_gauge else COUNTS:
        counted = pitch.threads + off
        length_mm = counted * thread.pitch_mm
        if length_mm:
            u_mm = math.hypot(pitch.doubt_mm / _ROOT_3, PITCH_ERROR_SHARE * length_mm)
            fit = _bell(pitch.length_mm - length_mm, u_mm)
            if fit:
                found.append((fit * (1.0 if pitch.by_gauge else share), counted))
    return found


def _bell(off: float, u: float) -> float:
    apart = off / u
    return math.exp(-0.5 * apart * apart) / (u * _ROOT_2_PI) if abs(apart) < _FAR else 0.0

"""Pitches as they are said: a note with its octave and cents, or Hz, never finer than the ear."""

from __future__ import annotations

import math

from counterhoop.errors import BadInput
from counterhoop.quantities.pitch import A4_HZ

EAR_CENTS = 5.0
"""Nobody tells a drum's pitch finer: trained ears tell steady tones of 100 Hz 9 cents apart."""
MOST_MOVED_CENTS = 24_000.0
"""Twenty octaves: all that there is."""
_NAMES = ("C", "C#", "D", "Eb", "E", "F", "F#", "G", "G#", "A", "Bb", "B")
_A4_STEPS = 57
"""Semitones from C0 to A4."""


def cents(hz: float, *, above_hz: float) -> float:
    """Return how far one pitch lies above another: 1200 to the octave.

    Examples
    --------
    >>> cents(220.0, above_hz=110.0), round(cents(98.0, above_hz=110.0))
    (1200.0, -200)
    """
    _check_hz(hz)
    _check_hz(above_hz)
    return 1200.0 * math.log2(hz / above_hz)


def moved_hz(hz: float, *, cents: float) -> float:
    """Return the pitch so many cents higher.

    Examples
    --------
    >>> moved_hz(110.0, cents=1200.0)
    220.0
    """
    if not abs(cents) <= MOST_MOVED_CENTS:
        raise BadInput("further than any two pitches", given=cents, wanted="cents")
    return float(hz * 2.0 ** (cents / 1200.0))


def print_note(hz: float, *, resolution_cents: float = EAR_CENTS, a4_hz: float = A4_HZ) -> str:
    """Print the nearest note and how far off it is; ``parse_pitch`` reads it again.

    Parameters
    ----------
    hz : float
        The pitch.
    resolution_cents : float
        What the ear or the reading tells; 100 and more leave the cents out.
    a4_hz : float
        What notes are named by.

    Examples
    --------
    >>> print_note(98.0), print_note(93.0), print_note(93.0, resolution_cents=100)
    ('G2', 'F#2 +10 cents', 'F#2')
    """
    _check(hz, resolution_cents)
    above = cents(hz, above_hz=a4_hz) / 100.0 + _A4_STEPS
    step = math.floor(above + 0.5)
    octave, name = divmod(step, 12)
    note = f"{_NAMES[name]}{octave}"
    if resolution_cents >= 100.0:
        return note
    off = _nearest(100.0 * (above - step), _step(resolution_cents))
    return f"{note} {off:+g} cents" if off else note


def print_hz(hz: float, *, resolution_cents: float = EAR_CENTS) -> str:
    """Print Hz no finer than so many cents are at that pitch.

    Examples
    --------
    >>> print_hz(98.2), print_hz(254.87), print_hz(61.13), print_hz(98.2, resolution_cents=0.5)
    ('98 Hz', '255 Hz', '61.2 Hz', '98.2 Hz')
    """
    _check(hz, resolution_cents)
    step = _step(hz * (2.0 ** (resolution_cents / 1200.0) - 1.0))
    places = max(0, -math.floor(math.log10(step)))
    shown = f"{_nearest(hz, step):.{places}f}"
    return f"{shown.rstrip('0').rstrip('.') if '.' in shown else shown} Hz"


def print_pitch(hz: float, *, resolution_cents: float = EAR_CENTS, a4_hz: float = A4_HZ) -> str:
    """Print a pitch both ways.

    Examples
    --------
    >>> print_pitch(110.0), print_pitch(93.0)
    ('A2 (110 Hz)', 'F#2 +10 cents (93 Hz)')
    """
    note = print_note(hz, resolution_cents=resolution_cents, a4_hz=a4_hz)
    return f"{note} ({print_hz(hz, resolution_cents=resolution_cents)})"


def print_cents(cents: float, *, up: bool = False) -> str:
    """Print how far two pitches are apart, in whole cents; ``up`` rounds up, as bounds are.

    Examples
    --------
    >>> print_cents(20.7), print_cents(1.2), print_cents(0.3), print_cents(0.3, up=True)
    ('21 cents', '1 cent', 'less than 1 cent', '1 cent')
    """
    whole = max(1, math.ceil(cents)) if up else math.floor(cents + 0.5)
    if not whole:
        return "less than 1 cent"
    return f"{whole} cent{'' if whole == 1 else 's'}"


def print_semitones(cents: float) -> str:
    """Print how far two pitches are apart, to a quarter of a semitone and without its sign.

    Examples
    --------
    >>> print_semitones(323.0), print_semitones(-98.0), print_semitones(55.0), print_semitones(4.0)
    ('3 1/4 semitones', '1 semitone', '1/2 of a semitone', 'less than 1/4 of a semitone')
    """
    quarters = math.floor(abs(cents) / 25.0 + 0.5)
    if not quarters:
        return "less than 1/4 of a semitone"
    whole, part = divmod(quarters, 4)
    fraction = {0: "", 1: "1/4", 2: "1/2", 3: "3/4"}[part]
    if not whole:
        return f"{fraction} of a semitone"
    return f"{whole} {fraction}".strip() + f" semitone{'' if quarters == 4 else 's'}"


def _check_hz(hz: float) -> None:
    if not (math.isfinite(hz) and hz > 0.0):
        raise BadInput("no pitch at all", given=hz, wanted="Hz above nothing")


def _check(hz: float, resolution_cents: float) -> None:
    _check_hz(hz)
    if not (math.isfinite(resolution_cents) and resolution_cents > 0.0):
        raise BadInput("the finest step must be above zero", given=resolution_cents, wanted="5")


def _step(finest: float) -> float:
    """The next coarser of 1, 2 or 5, with its tens."""
    tens = 10.0 ** math.floor(math.log10(finest) + 1e-12)
    return next(tens * first for first in (1, 2, 5, 10) if tens * first >= finest * (1 - 1e-12))


def _nearest(value: float, step: float) -> float:
    return math.floor(value / step + 0.5) * step

"""Taps near each rod with the phone in one place, and what they say together."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from counterhoop.listen.partial import Partial
from counterhoop.listen.strokes import Stroke

Quality = Literal["good", "fair", "poor", "none"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tap:
    """One tap near a rod.

    Attributes
    ----------
    rod : int
        Its number, from 1; 0 for a tap between rods.
    along_deg : float
        Where it was, along the shell.
    stroke : Stroke
        When it was, in the recording.
    """

    rod: int
    along_deg: float
    stroke: Stroke


@dataclass(frozen=True, slots=True, kw_only=True)
class TapReading:
    """How much of the two pitches one tap called up.

    Attributes
    ----------
    rod, along_deg : int, float
        Of the tap.
    place : int
        Of the phone, from 0, in the order of the recordings.
    hz, cents : float or None
        The pitch near the rod, as an ear beside it takes it: both pitches, weighted by the power
        that each has there; and how far that is from the middle one. None where nothing was heard.
    low, high : complex
        What the phone got of the lower and the higher pitch, at the stroke.
    says : str
        Why this tap was left out; "" where it was used.
    """

    rod: int
    along_deg: float
    place: int = 0
    hz: float | None = None
    cents: float | None = None
    low: complex = 0j
    high: complex = 0j
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RimReading:
    """What the taps say together: the middle pitch and one two-lobed pattern, and nothing else.

    Attributes
    ----------
    mean_hz, mean_doubt_hz : float or None
        The pitch midway between the two, and its standard doubt. None: no reading.
    split_cents, split_doubt_cents : float or None
        How far the two pitches are apart. None where only one was found.
    split_below_cents : float or None
        Where only one was found: two further apart than this would have shown.
    axis_deg, axis_doubt_deg : float or None
        Where the head is tightest, 0 to 180 along the shell: it reads sharp there and straight
        across. None where the split is not known or its axis is lost in doubt.
    mirror_deg : float or None
        Where the axis may lie as well, after taps that were all quarters of a turn apart.
    poles : tuple of Partial
        The lower and the higher pitch, shared by all taps; one where only one was found.
    taps : tuple of TapReading
        In the order given.
    coupled_pair : bool
        The two pitches are those of two heads and not of an uneven one.
    ask : tuple of str
        What to do before anything is turned, a sentence each.
    says : tuple of str
        What was noticed, a sentence each.
    quality : {"good", "fair", "poor", "none"}
        How far to trust it.
    """

    mean_hz: float | None = None
    mean_doubt_hz: float | None = None
    split_cents: float | None = None
    split_doubt_cents: float | None = None
    split_below_cents: float | None = None
    axis_deg: float | None = None
    axis_doubt_deg: float | None = None
    mirror_deg: float | None = None
    poles: tuple[Partial, ...] = ()
    taps: tuple[TapReading, ...] = ()
    coupled_pair: bool = False
    ask: tuple[str, ...] = ()
    says: tuple[str, ...] = ()
    quality: Quality = "none"

    def cents_at(self, along_deg: float) -> float | None:
        """Return how far the pitch near a place is from the middle one, by the two-lobed law.

        Examples
        --------
        >>> RimReading(split_cents=20.0, axis_deg=30.0).cents_at(30.0)
        10.0
        """
        if self.split_cents is None or self.axis_deg is None:
            return None
        turn = math.radians(along_deg - self.axis_deg)
        return self.split_cents / 2.0 * math.cos(2.0 * turn)

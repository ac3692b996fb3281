"""The (1,1) mode of an unevenly tensioned head: two pitches, each with its axis."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.heads.believed import believed
from counterhoop.heads.rim_load import RimLoad

CENTS_PER_UNIT = 1200.0 / math.log(2.0)
"""Cents of a pitch that is sharp by its own height, to first order."""
_SILENT = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class Doublet:
    """The two (1,1) modes of a head.

    Attributes
    ----------
    mean_hz : float
        Half-way between them.
    split_cents : float
        From the lower to the higher one, 0 or more.
    tight_deg : float
        Tight axis, 0 up to 180 along: the higher mode swings most on it, and the lower one has
        its nodal line there.
    """

    mean_hz: float
    split_cents: float
    tight_deg: float

    @property
    def low_hz(self) -> float:
        """The mode that swings across the tight axis."""
        return 2.0 * self.mean_hz / (1.0 + math.exp(self.split_cents / CENTS_PER_UNIT))

    @property
    def high_hz(self) -> float:
        """The mode that swings on the tight axis."""
        return 2.0 * self.mean_hz - self.low_hz

    def swings(self, along_deg: float) -> tuple[float, float]:
        """Return how far the lower and the higher mode swing near a place on the rim, -1 to 1."""
        turn = math.radians(along_deg - self.tight_deg)
        return math.sin(turn), math.cos(turn)


def doublet(even_hz: float, *, lean: float, tight_deg: float, batter_share: float = 1.0) -> Doublet:
    """Return the (1,1) modes of a head whose tension is a little uneven.

    Parameters
    ----------
    even_hz : float
        Pitch of (1,1) with the same mean tension all round, air included.
    lean : float
        Height of the two-lobed wave of the tension at the edge over the mean tension; at
        0.2 the mean is 3 cents too high and the split half a cent too small, at 0.1 a quarter
        of that.
    tight_deg : float
        Where along that wave is highest; the place half-way round is as good.
    batter_share : float
        Share of the uneven head in the mode, as ``Mode`` has it: 1 where the other head is muted
        or missing.

    Notes
    -----
    To first order the pair lies at ``1 -+ lean / 4``, whatever the shape of the mode from the
    centre to the rim, however the film is held along the edge, and for all other waves of the
    tension: of these a mode with m nodal diameters feels the one of 2 m lobes alone. With air and
    another head each goes by ``lean / 2`` times the slope of log pitch over log tension; half the
    share of the head stands in for that slope, too large by 2 % where the head moves alone and
    by 5 % where both share the mode.

    Examples
    --------
    >>> pair = doublet(220.0, lean=0.05, tight_deg=30)
    >>> round(pair.low_hz, 2), round(pair.high_hz, 2), round(pair.split_cents, 1)
    (217.25, 222.75, 43.3)
    """
    believed(even_hz, where="even_hz", least=0.1, most=1e6, unit="Hz")
    believed(lean, where="lean", least=-2.0, most=2.0, unit="of the mean")
    aside = batter_share * abs(lean) / 4.0
    low, high = 1.0 - aside, 1.0 + aside
    return Doublet(
        mean_hz=even_hz,
        split_cents=1200.0 * math.log2(high / low),
        tight_deg=(tight_deg + (90.0 if lean < 0.0 else 0.0)) % 180.0,
    )


def doublet_of(edge: RimLoad, *, even_hz: float, batter_share: float = 1.0) -> Doublet:
    """Return the (1,1) modes by the tension at the edge; see ``doublet``.

    Parameters
    ----------
    edge : RimLoad
        Tension at the edge: the load of the rods as the hoop passes it on.
    even_hz : float
        Pitch with that mean tension all round.
    batter_share : float
        As in ``doublet``.

    Examples
    --------
    >>> from counterhoop.heads.rim_load import load_of_rods
    >>> rods = load_of_rods([440, 400, 400, 400, 400, 400], radius_m=0.1524,
    ...                     along_deg=[0, 60, 120, 180, 240, 300])
    >>> pair = doublet_of(rods, even_hz=220.0)
    >>> round(pair.split_cents, 1), round(pair.tight_deg, 6)
    (28.4, 0.0)
    """
    wave = edge.wave(2)
    return doublet(
        even_hz,
        lean=wave.high_n_per_m / edge.mean_n_per_m,
        tight_deg=wave.tight_deg,
        batter_share=batter_share,
    )


def pitch_near(pair: Doublet, *, along_deg: float) -> float:
    """Return the pitch near a place on the rim, in Hz.

    Both modes, weighed with the energy that a tap there gives to each: the mean and
    ``split / 2 cos 2 (along - axis)``. It is what a phone half-way between the two axes hears on
    the whole, and the law that is spoken of round the rim.
    """
    low, high = pair.swings(along_deg)
    return low**2 * pair.low_hz + high**2 * pair.high_hz


def pitch_heard(pair: Doublet, *, tap_deg: float, phone_deg: float) -> float | None:
    """Return the pitch of a tap as a phone hears it, both modes weighed with their power, in Hz.

    Parameters
    ----------
    pair : Doublet
        What sounds.
    tap_deg, phone_deg : float
        Where along the tap is and the phone, both off the centre.

    Returns
    -------
    float or None
        None where neither mode is heard.

    Notes
    -----
    A phone that goes with the taps hears ``cos 2x / (1 - sin^2 2x / 2)`` in the place of
    ``cos 2x``: the pattern looks steeper, its axis stays. One on an axis hears but one mode.
    """
    struck, caught = pair.swings(tap_deg), pair.swings(phone_deg)
    low, high = ((a * b) ** 2 for a, b in zip(struck, caught, strict=True))
    if low + high < _SILENT:
        return None
    return (low * pair.low_hz + high * pair.high_hz) / (low + high)

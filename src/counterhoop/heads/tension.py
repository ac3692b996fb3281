"""The tension of a head from its pitch near the rim, and back."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from counterhoop.errors import BadInput
from counterhoop.heads.air import Air, air_at
from counterhoop.heads.believed import MOST_N_PER_M, believed, believed_pull
from counterhoop.heads.head import Head
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.mode import Standing
from counterhoop.heads.modes import TERMS
from counterhoop.heads.shapes import Floats, air_zeros, head_norms, head_zeros
from counterhoop.heads.stiffness import Stiffness
from counterhoop.quantities.print_pitch import EAR_CENTS, print_hz

SLACKEST_N_PER_M, TIGHTEST_N_PER_M = 500.0, 6000.0
"""Outside this no head of a drum is played. Common practice, no source."""
PRINTED_N_PER_M = 50.0
"""No tension is told finer from a pitch that is heard."""
OtherEnd = Literal["muted", "open", "sounds"]
"""What the other end does: a head under a cloth, no head, a head that rings along."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeardTension:
    """A tension, as far as a pitch tells it.

    Attributes
    ----------
    hz : float
        The pitch near the rim.
    n_per_m, doubt_n_per_m : float
        Tension, and what the ear and a muted head that is not quite still leave open.
    usual : bool
        Whether heads are played so.
    standing : Standing
        What the reckoning was checked against.
    says : str
        In a sentence.
    """

    hz: float
    n_per_m: float
    doubt_n_per_m: float
    usual: bool
    standing: Standing
    says: str


def tension_from_pitch(
    hz: float,
    *,
    radius_m: float,
    depth_m: float,
    head: Head,
    end: OtherEnd = "muted",
    other: Head | None = None,
    other_n_per_m: float | None = None,
    doubt_cents: float = EAR_CENTS,
    air: Air | None = None,
) -> HeardTension:
    """Return the tension of the head whose (1,1) is heard.

    Parameters
    ----------
    hz : float
        Pitch of a tap near the rim, at a lug: not of a stroke in the middle.
    radius_m, depth_m : float
        Of the shell at its bearing edge; between its ends.
    head : Head
        The one that is tapped.
    end : {"muted", "open", "sounds"}
        What the other end does. Under a cloth it is taken to stand still.
    other, other_n_per_m : Head, float, optional
        The head that rings along, and its tension: for "sounds" only.
    doubt_cents : float
        How well the pitch is known.
    air : Air, optional
        20 degrees if left out.

    Raises
    ------
    BadInput
        For a pitch at which the air in the shell sloshes across: no head's own.

    Notes
    -----
    At a known pitch ``K - w^2 M(w)`` is linear in the tension, so that it is an eigenvalue and
    nothing is searched for.

    Examples
    --------
    >>> from counterhoop.heads.head import film_head
    >>> tom = dict(radius_m=0.1524, depth_m=0.2032, head=film_head(254e-6))
    >>> print(tension_from_pitch(220.0, **tom).says)
    220 Hz near the rim is about 1500 N/m.
    """
    if not (math.isfinite(hz) and hz > 0.0):
        raise BadInput("no pitch at all", where="pitch", given=hz)
    believed(doubt_cents, where="doubt_cents", least=0.0, most=1200.0, unit="cents")
    air = air or air_at()
    shell = _shell(radius_m, depth_m, head, air, end, other, other_n_per_m)
    n_per_m = _tension(Stiffness(shell, 1, TERMS), hz, end)
    doubt = n_per_m * 2.0 * math.log(2.0) / 1200.0 * doubt_cents
    if end == "muted":
        opened = _shell(radius_m, depth_m, head, air, "open", None, None)
        doubt = math.hypot(doubt, _tension(Stiffness(opened, 1, TERMS), hz, "open") - n_per_m)
    usual = SLACKEST_N_PER_M <= n_per_m <= TIGHTEST_N_PER_M
    return HeardTension(
        hz=hz,
        n_per_m=n_per_m,
        doubt_n_per_m=doubt,
        usual=usual,
        standing=Standing.UNCHECKED if end == "open" else Standing.CHECKED,
        says=_says(hz, n_per_m, usual=usual, doubt_cents=doubt_cents, calf=head.calf),
    )


def rim_hz(
    n_per_m: float,
    *,
    radius_m: float,
    depth_m: float,
    head: Head,
    end: Literal["muted", "open"] = "muted",
    air: Air | None = None,
) -> float:
    """Return the pitch near the rim of a head with that tension; see ``tension_from_pitch``.

    Examples
    --------
    >>> from counterhoop.heads.head import film_head
    >>> round(rim_hz(1000.0, radius_m=0.1524, depth_m=0.2032, head=film_head(254e-6)))
    180
    """
    from scipy.optimize import brentq

    believed_pull(n_per_m)
    shell = _shell(radius_m, depth_m, head, air or air_at(), end, None, None)
    stiffness = Stiffness(shell, 1, TERMS)
    # Towards the pitch at which the air sloshes any tension is reached.
    high = _slosh_hz(shell) * (1.0 - 1e-9)
    low = 1e-4 * high

    def over(hz: float) -> float:
        return math.log(_tension(stiffness, hz, end) / n_per_m)

    return float(brentq(over, low, high, xtol=1e-9, rtol=1e-13))


def print_tension(n_per_m: float) -> str:
    """Print a tension as a heard pitch tells it.

    Examples
    --------
    >>> print_tension(1478.2)
    '1500 N/m'
    """
    believed(n_per_m, where="tension", least=0.0, most=MOST_N_PER_M, unit="N/m")
    return f"{math.floor(n_per_m / PRINTED_N_PER_M + 0.5) * PRINTED_N_PER_M:.0f} N/m"


def _shell(
    radius_m: float, depth_m: float, head: Head, air: Air, end: OtherEnd,
    other: Head | None, other_n_per_m: float | None,
) -> HeadedShell:  # fmt: skip
    if end == "sounds" and (other is None or other_n_per_m is None):
        raise BadInput("which head rings along, and how tight, is not said", where="other")
    if end == "muted":
        other, other_n_per_m = head, SLACKEST_N_PER_M
    elif end == "open":
        other, other_n_per_m = None, None
    return HeadedShell(
        radius_m=radius_m, depth_m=depth_m, batter=head, batter_n_per_m=1.0, resonant=other,
        resonant_n_per_m=other_n_per_m, air=air,
    )  # fmt: skip


def _slosh_hz(shell: HeadedShell) -> float:
    return float(air_zeros(1, 1)[0]) * shell.air.sound_m_per_s / (2.0 * math.pi * shell.radius_m)


def _tension(stiffness: Stiffness, hz: float, end: OtherEnd) -> float:
    shell = stiffness.drum
    if hz >= _slosh_hz(shell):
        raise _sloshes(hz)
    dynamic = stiffness.at(hz)
    zeros, norms = head_zeros(1, TERMS), head_norms(1, TERMS)
    per_tension = zeros**2 * norms
    own = shell.batter_n_per_m * np.diag(per_tension) - dynamic[:TERMS, :TERMS]
    if end != "muted":
        across = dynamic[:TERMS, TERMS:]
        own = own + across @ np.linalg.solve(dynamic[TERMS:, TERMS:], across.T)
    scale = 1.0 / np.sqrt(per_tension)
    values, vectors = np.linalg.eigh(scale[:, None] * own * scale[None, :])
    chosen = float(values[_most(vectors)]) if end == "sounds" else float(values[-1])
    if not chosen > 0.0:
        raise _sloshes(hz)
    return chosen


def _most(vectors: Floats) -> int:
    """Which of them moves most as the plain (1,1)."""
    return int(np.argmax(np.abs(vectors[0])))


def _sloshes(hz: float) -> BadInput:
    return BadInput(
        "no head of this size has that pitch near the rim", where="pitch", given=print_hz(hz),
        step="Is it a higher tone, or the other head?",
    )  # fmt: skip


def _says(hz: float, n_per_m: float, *, usual: bool, doubt_cents: float, calf: bool) -> str:
    heard = print_hz(hz, resolution_cents=max(doubt_cents, 1.0))
    told = print_tension(n_per_m)
    if not usual:
        return (
            f"{heard} near the rim would be about {told}: heads are played at "
            f"{SLACKEST_N_PER_M:.0f} to {TIGHTEST_N_PER_M:.0f}. Is it this head's pitch near a "
            "lug, and not a higher tone of it or the other head?"
        )
    today = ", today: calf goes with the weather" if calf else ""
    return f"{heard} near the rim is about {told}{today}."

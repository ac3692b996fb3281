"""A drum struck and heard: from its modes to damped tones.

A sketch, and said to be one wherever it is heard: pitches are the model's, decays are typical, and
how loud each mode is at a phone follows from a head in a wall and the air close above it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from counterhoop.heads.decays import decay_per_s
from counterhoop.heads.head import Head
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.mode import Mode
from counterhoop.heads.moved_mass import moved_kg, round_rad
from counterhoop.heads.ringing import Bend, Ringing, Struck
from counterhoop.heads.shapes import Floats, head_norms, head_zeros

CLOTH_KG_PER_M2 = 1.5
"""A folded hand towel. Common practice, no source."""
_SOUNDS = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Blow:
    """Where and how a head is struck.

    Attributes
    ----------
    out : float
        From the middle, as a share of the radius.
    along_deg : float
        Along the shell.
    impulse_n_s : float
        Force times time; a soft tap of a finger is about 0.02, a stroke of a stick 0.1 to 0.3.
    contact_s : float
        How long the stick touches the head.
    """

    out: float = 0.0
    along_deg: float = 0.0
    impulse_n_s: float = 0.1
    contact_s: float = 0.004


@dataclass(frozen=True, slots=True, kw_only=True)
class Ear:
    """Where the phone is: as for a blow, and how far above the head."""

    out: float = 0.6
    along_deg: float = 0.0
    above_m: float = 0.06


@dataclass(frozen=True, slots=True, kw_only=True)
class Lobes:
    """Two-lobed unevenness of the batter head: the split of its (1,1), and its tight axis."""

    split_cents: float = 0.0
    axis_deg: float = 0.0


EVEN = Lobes()


def struck(
    drum: HeadedShell,
    modes: Sequence[Mode],
    *,
    blow: Blow,
    ear: Ear,
    lobes: Lobes = EVEN,
    other_muted: bool = False,
) -> Struck:
    """Return what a blow on the batter head rings with at a phone.

    Parameters
    ----------
    drum : HeadedShell
        What is struck; with a cloth on the other head see ``muted``.
    modes : sequence of Mode
        Of this drum, as ``modes`` returns them.
    blow, ear : Blow, Ear
        Where it is struck and where it is heard.
    lobes : Lobes
        Splits modes with one nodal diameter, as far as the batter head carries them.
    other_muted : bool
        Whether what the other head carries dies at once.

    Notes
    -----
    A blow of impulse ``P`` that lasts ``c`` as half a sine starts a mode of mass ``m`` with the
    amplitude ``P s / (m w)`` times ``cos(w c / 2) / (1 - (w c / pi)^2)``. Close above a head
    whose ripples are shorter than sound is, the pressure falls as ``exp(-j z / a)`` and is
    ``rho w^2 a / j`` times the movement below: Laplace's equation over a wall. Tension rises by
    Berger's law, see ``rise_n_per_m``; its bend is common to all modes, to first order.
    """
    stretch = 2.0 * drum.batter_n_per_m
    ringings: list[Ringing] = []
    bends: list[Bend] = []
    for mode in modes:
        decay = decay_per_s(mode, other_muted=other_muted)
        hit = _shape_at(mode, out=blow.out)
        amplitude_m = _started_m(drum, mode, blow=blow) * hit
        loudness = _pressure_pa_per_m(drum, mode, ear=ear) * amplitude_m
        swings = 0.0
        for hz, there, heard in _ways(mode, blow=blow, ear=ear, lobes=lobes):
            swings += (there * amplitude_m) ** 2
            sounds = loudness * there * heard
            if abs(sounds) > _SOUNDS:
                name = mode.name
                ringings.append(Ringing(hz=hz, decay_per_s=decay, amplitude=sounds, name=name))
        rise = rise_n_per_m(drum.batter, mode, amplitude_m=math.sqrt(swings), drum=drum)
        if rise > 0.0:
            bends.append(Bend(share=rise / stretch, fall_per_s=2.0 * decay))
    return Struck(ringings=tuple(sorted(ringings, key=lambda one: one.hz)), bends=tuple(bends))


def muted(drum: HeadedShell) -> HeadedShell:
    """Return the drum with a folded cloth on its other head, which grows heavy by it."""
    if drum.resonant is None:
        return drum
    heavy = drum.resonant.mass_kg_per_m2 + CLOTH_KG_PER_M2
    return replace(drum, resonant=replace(drum.resonant, mass_kg_per_m2=heavy))


def rise_n_per_m(head: Head, mode: Mode, *, amplitude_m: float, drum: HeadedShell) -> float:
    """Return by how much tension rises while a mode swings, on the mean over a swing.

    Notes
    -----
    ``E h / (1 - nu^2) / 4`` times the squared slope's mean over the head: H. M. Berger, Journal
    of Applied Mechanics 22 (1955) 465 (from memory). Calf and film of unknown thickness: none.
    """
    if head.stiffness_n_per_m is None:
        return 0.0
    n = len(mode.batter_shape)
    slopes = head_zeros(mode.around, n) ** 2 * head_norms(mode.around, n)
    square = float(slopes @ np.asarray(mode.batter_shape) ** 2) * round_rad(mode.around)
    mean = square * (amplitude_m / drum.radius_m) ** 2 / math.pi
    return head.stiffness_n_per_m / (1.0 - head.poisson**2) / 4.0 * mean


def _ways(
    mode: Mode, *, blow: Blow, ear: Ear, lobes: Lobes
) -> Iterator[tuple[float, float, float]]:
    """Pitch, and the cosine at blow and ear, of the one or two ways a mode lies."""
    there, heard = math.radians(blow.along_deg), math.radians(ear.along_deg)
    if mode.around != 1 or lobes.split_cents == 0.0:
        yield mode.hz, 1.0, math.cos(mode.around * (there - heard))
        return
    axis = math.radians(lobes.axis_deg)
    half = lobes.split_cents / 2400.0 * mode.batter_share
    yield mode.hz * 2.0**-half, math.sin(there - axis), math.sin(heard - axis)
    yield mode.hz * 2.0**half, math.cos(there - axis), math.cos(heard - axis)


def _waves_at(mode: Mode, *, out: float) -> Floats:
    from scipy.special import jv

    zeros = head_zeros(mode.around, len(mode.batter_shape))
    return np.asarray(np.asarray(mode.batter_shape) * jv(mode.around, zeros * out))


def _shape_at(mode: Mode, *, out: float) -> float:
    return float(_waves_at(mode, out=out).sum())


def _started_m(drum: HeadedShell, mode: Mode, *, blow: Blow) -> float:
    w = 2.0 * math.pi * mode.hz
    turns = w * blow.contact_s / math.pi
    # Both sides of the fraction pass nought together at one half-turn.
    softened = (
        math.pi / 4.0
        if math.isclose(turns, 1.0, abs_tol=1e-6)
        else math.cos(math.pi * turns / 2.0) / (1.0 - turns**2)
    )
    return blow.impulse_n_s * softened / (moved_kg(drum, mode) * w)


def _pressure_pa_per_m(drum: HeadedShell, mode: Mode, *, ear: Ear) -> float:
    per_radius = head_zeros(mode.around, len(mode.batter_shape))
    below = _waves_at(mode, out=ear.out)
    near = np.exp(-per_radius * ear.above_m / drum.radius_m) * drum.radius_m / per_radius
    w = 2.0 * math.pi * mode.hz
    return float(drum.air.density_kg_per_m3 * w**2 * (below @ near))

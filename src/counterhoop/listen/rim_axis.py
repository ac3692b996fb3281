"""Which way the head is tight, from how much of two pitches each tap calls up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

HAND_RAD = np.radians(3.0)
"""How closely a hand taps where it means to: common practice, no source."""
PHONE_RAD = np.radians(10.0)
"""How closely one says where a phone lay: common practice, no source."""
FITTED = 0.01
"""Of a tap: no amplitude is known more closely, since no head glides quite as it is fitted.

[computed: strokes of the model, whose glide is the sum of several, a phone on a still line]"""
SAME_RAD = np.sin(np.radians(2.0))
AS_WELL = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class AxisFit:
    """How two shared pitches turn round the rim.

    Attributes
    ----------
    axis_deg, axis_doubt_deg : float
        Antinode of the higher pitch, 0 to 180, and its standard doubt.
    mirrored : bool
        Another axis, mirrored in a tap, explains the taps as well.
    mirror_deg : float
        That axis.
    heard : ndarray, shape (places,)
        Angle whose cosine is the share of the higher pitch at each place of the phone and whose
        sine that of the lower one; radians, 0 to pi/2.
    turning, still : float
        What is left by amplitudes that turn round the rim, and by amplitudes in one proportion at
        all taps; mean squares against the doubts, about 1 where they explain the taps.
    """

    axis_deg: float
    axis_doubt_deg: float
    mirrored: bool
    mirror_deg: float
    heard: Floats
    turning: float
    still: float


def fit_axis(
    amplitudes: Complexes,
    spread: Complexes,
    *,
    nudges: Complexes | None = None,
    along_deg: Sequence[float],
    place: Sequence[int],
    phone_deg: Sequence[float | None] = (),
) -> AxisFit:
    """Fit the axis to the amplitudes of the lower and the higher pitch.

    Parameters
    ----------
    amplitudes : ndarray of complex, shape (k, 2)
        Of the lower and the higher pitch, one row a tap; how hard each tap was does not matter.
    spread : ndarray of complex, shape (k, 2, 2)
        Their covariance, tap by tap.
    nudges : ndarray of complex, shape (q, k, 2), optional
        Errors that all amplitudes may share, each of the size of its standard doubt.
    along_deg, place : sequence of length k
        Where each tap was, and at which place the phone then lay, from 0.
    phone_deg : sequence, optional
        Where those places are along the shell, as far as known; only used to choose between two
        axes that explain the taps as well.

    Notes
    -----
    A tap at ``t`` heard by a phone at ``p`` calls up ``cos(t - a) cos(p - a)`` of the higher
    pitch and ``sin(t - a) sin(p - a)`` of the lower one, times its strength: the two shapes of a
    head whose tension has two lobes. The factors of the phone are left free. Taps that are all
    quarters of a turn apart cannot tell an axis from its mirror image.
    """
    model = _Turning(amplitudes, spread, np.radians(np.asarray(along_deg, float)), place)
    model.allow_for_hand(model.hollows()[0])
    # The hand's error widens the hollow, so the choice of it is made again.
    best, *others = model.hollows()
    rival = next((at for at in others if model.misfit(at) < model.misfit(best) + AS_WELL), None)
    told = 0.0
    if rival is not None:
        told = model.beside_phone(rival, phone_deg) - model.beside_phone(best, phone_deg)
        if told < 0.0:
            best, rival = rival, best
    known = abs(told) > PHONE_RAD
    mirror = best if rival is None else rival
    free = max(1, 2 * len(amplitudes) - len(best))
    slopes = model.slopes(best)
    covariance = np.linalg.pinv(slopes.T @ slopes, hermitian=True)
    loose = max(1.0, model.misfit(best) / free)
    moved = np.array([
        (covariance @ slopes.T @ model.across(model.direction(best), nudge))[0]
        for nudge in (np.zeros((0, *amplitudes.shape)) if nudges is None else nudges)
    ])  # fmt: skip
    doubt = float(np.degrees(np.sqrt(covariance[0, 0] * loose + np.sum(moved**2))))
    return AxisFit(
        axis_deg=float(np.degrees(best[0]) % 180.0),
        # Taps on the still lines alone hide what the hand adds.
        axis_doubt_deg=max(doubt, float(np.degrees(HAND_RAD / np.sqrt(len(amplitudes))))),
        mirrored=rival is not None and not known,
        mirror_deg=float(np.degrees(mirror[0]) % 180.0),
        heard=np.arctan(np.abs(np.tan(best[1 : 1 + model.places]))),
        turning=model.misfit(best) / free,
        still=model.still(best) / free,
    )


class _Turning:
    """Parameters: the axis, then an angle for each place (shares), then a phase for each place."""

    def __init__(
        self, amplitudes: Complexes, spread: Complexes, along: Floats, place: Sequence[int]
    ) -> None:
        size = np.sqrt(np.sum(np.abs(amplitudes) ** 2, axis=1))
        self.size = size
        self.low, self.high = (amplitudes / size[:, None]).T
        self.spread = spread / size[:, None, None] ** 2
        self.along = along
        self.place = np.asarray(place, dtype=int)
        self.places = int(self.place.max()) + 1
        self.hand = np.zeros(len(along))

    def across(
        self, turned: tuple[Floats, Complexes], amplitudes: Complexes | None = None
    ) -> Floats:
        """Return how far each tap lies beside the direction (high, low), against its doubt."""
        high, low = turned
        size = np.sqrt(np.abs(high) ** 2 + np.abs(low) ** 2) + 1e-12
        down, up = (self.low, self.high) if amplitudes is None else (
            amplitudes / self.size[:, None]
        ).T  # fmt: skip
        beside = (up * low - down * high) / size
        to = np.stack([-high / size, low / size], axis=1)
        noise = np.einsum("ki,kij,kj->k", to, self.spread, to.conj()).real
        scaled = beside / np.sqrt((noise + FITTED**2) / 2.0 + self.hand)
        return np.concatenate([scaled.real, scaled.imag])

    def direction(self, at: Floats) -> tuple[Floats, Complexes]:
        p = self.places
        share, phase = at[1 : 1 + p][self.place], at[1 + p :][self.place]
        turn = self.along - at[0]
        return np.cos(share) * np.cos(turn), np.sin(share) * np.exp(1j * phase) * np.sin(turn)

    def misfit(self, at: Floats) -> float:
        return float(np.sum(self.across(self.direction(at)) ** 2))

    def hollows(self) -> list[Floats]:
        """Return the parameters that explain the taps best and others that do, best first."""
        starts = [self.ratio_at(axis) for axis in np.radians(np.arange(0.0, 180.0, 5.0))]
        depth = np.array([self.misfit(at) for at in starts])
        low = np.flatnonzero((depth <= np.roll(depth, 1)) & (depth < np.roll(depth, -1)))
        found: list[Floats] = []
        solved = [self.solve_from(starts[at]) for at in low[np.argsort(depth[low])][:4]]
        for at in sorted(solved, key=self.misfit):
            if all(abs(np.sin(at[0] - other[0])) > SAME_RAD for other in found):
                found.append(at)
        return found or [self.solve_from(starts[int(np.argmin(depth))])]

    def ratio_at(self, axis: float) -> Floats:
        """Return the parameters with an axis that suit the taps about best."""
        share, phase = np.zeros(self.places), np.zeros(self.places)
        for where in range(self.places):
            here = self.place == where
            turn = self.along[here] - axis
            up, over = self.high[here] * np.sin(turn), self.low[here] * np.cos(turn)
            ratio = np.vdot(up, over) / (np.vdot(up, up).real + 1e-9)
            share[where], phase[where] = np.arctan(np.abs(ratio)), np.angle(ratio)
        return np.concatenate([[axis], share, phase])

    def solve_from(self, start: Floats) -> Floats:
        from scipy.optimize import least_squares

        solved = least_squares(lambda at: self.across(self.direction(at)), start, max_nfev=40)
        return np.asarray(solved.x)

    def slopes(self, at: Floats) -> Floats:
        step = 1e-5
        eye = np.eye(len(at)) * step
        ends = [
            self.across(self.direction(at + e)) - self.across(self.direction(at - e)) for e in eye
        ]
        return np.stack(ends, axis=1) / (2.0 * step)

    def allow_for_hand(self, at: Floats) -> None:
        """Let every tap lie a little beside its rod."""
        high, low = self.direction(at)
        share = at[1 : 1 + self.places][self.place]
        moved = np.cos(share) * np.sin(share) / (np.abs(high) ** 2 + np.abs(low) ** 2 + 0.01)
        self.hand = (HAND_RAD * moved) ** 2

    def beside_phone(self, at: Floats, phone_deg: Sequence[float | None]) -> float:
        """Return how far in all the phone would have lain beside where it is said to have lain."""
        p = self.places
        apart = 0.0
        for where, degrees in enumerate(phone_deg[:p]):
            if degrees is not None:
                sign = np.sign(np.tan(at[1 + where]) * np.cos(at[1 + p + where]))
                lay = at[0] + sign * np.arctan(abs(np.tan(at[1 + where])))
                apart += abs(_within_half(np.radians(degrees) - lay))
        return apart

    def still(self, at: Floats) -> float:
        """Return the misfit of one proportion of the two pitches at all taps of a place."""
        from scipy.optimize import least_squares

        p = self.places

        def beside(shares: Floats) -> Floats:
            share, phase = shares[:p][self.place], shares[p:][self.place]
            return self.across((np.cos(share), np.sin(share) * np.exp(1j * phase)))

        start = np.zeros(2 * p)
        for where in range(p):
            here = self.place == where
            both = np.vdot(self.high[here], self.low[here])
            start[where] = np.arctan2(
                np.linalg.norm(self.low[here]), np.linalg.norm(self.high[here])
            )
            start[p + where] = np.angle(both)
        return float(np.sum(least_squares(beside, start, max_nfev=40).fun ** 2))


def _within_half(turn: float) -> float:
    """An axis is the same after half a turn: -pi/2 to pi/2."""
    return float((turn + np.pi / 2.0) % np.pi - np.pi / 2.0)

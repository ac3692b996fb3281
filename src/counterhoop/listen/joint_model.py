"""Strokes side by side, and the tones with which a joint fit explains them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.listen.heterodyne import Band

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

MOST_SHARE, SHARE_SPREAD, SHARE_STEP = 0.15, 0.05, 0.005
TAU_S = (0.02, 1.0)
TAU_SPREAD = 0.7
FOLLOWED = 0.25
_SAME = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Explained:
    """The strokes as some parameters explain them.

    Attributes
    ----------
    phi, base : ndarray of complex, shape (k, n, p)
        The tones in each stroke, and an orthonormal base of them.
    amplitudes : ndarray of complex, shape (k, p)
        Which fit best.
    ahead : ndarray, shape (k, n)
        Seconds by which the glide is ahead of a settled tone, for a share of 1.
    left : ndarray of complex, shape (k, n)
        What is left.
    """

    phi: Complexes
    base: Complexes
    amplitudes: Complexes
    ahead: Floats
    left: Complexes


class JointModel:
    """Strokes of ``n`` samples at the most, shorter ones filled up with nothing.

    Parameters, in order: p pitches, p decays, the logarithm of tau, k shares.
    """

    def __init__(self, bands: Sequence[Band], tones: int) -> None:
        longest = max(len(band.values) for band in bands)
        self.taps, self.tones = len(bands), tones
        self.values: Complexes = np.zeros((self.taps, longest), dtype=np.complex128)
        self.times: Floats = np.zeros((self.taps, longest))
        self.there: Floats = np.zeros((self.taps, longest))
        for at, band in enumerate(bands):
            self.values[at, : len(band.values)] = band.values
            self.times[at, : len(band.values)] = band.times_s
            self.there[at, : len(band.values)] = 1.0
        self.counts: Floats = self.there.sum(axis=1)
        self.centre = bands[0].centre_hz
        reach = bands[0].rate_hz / 2.0
        p, k = self.tones, self.taps
        low = [self.centre - reach] * p + [0.05] * p + [np.log(TAU_S[0])] + [-0.02] * k
        high = [self.centre + reach] * p + [200.0] * p + [np.log(TAU_S[1])] + [MOST_SHARE] * k
        self.bounds = (np.array(low), np.array(high))

    @property
    def loudness(self) -> float:
        """Root of the mean square of all samples."""
        return float(np.sqrt(np.sum(np.abs(self.values) ** 2) / self.counts.sum()))

    def start(self, hz: Floats, decay: Floats) -> Floats:
        """Return parameters to start from: each stroke with the glide that suits it best.

        A glide turns the phase by whole turns, each a hollow of its own: all are looked into.
        """
        tau = np.log(np.clip(0.5 / decay.mean(), TAU_S[0] * 1.1, TAU_S[1] * 0.9))
        at = np.concatenate([hz, decay, [tau], np.zeros(self.taps)])
        at = np.asarray(np.clip(at, self.bounds[0] + _SAME, self.bounds[1] - _SAME))
        tried = np.arange(0.0, MOST_SHARE, SHARE_STEP)
        left = np.empty((len(tried), self.taps))
        for index, share in enumerate(tried):
            at[2 * self.tones + 1 :] = share
            left[index] = np.sum(np.abs(self.explain(at).left) ** 2, axis=1)
        at[2 * self.tones + 1 :] = tried[np.argmin(left, axis=0)] + SHARE_STEP / 50.0
        return at

    def parts(self, at: Floats) -> tuple[Floats, Floats, float, Floats]:
        """Return pitches, decays, tau and shares."""
        p = self.tones
        return at[:p], at[p : 2 * p], float(np.exp(at[2 * p])), at[2 * p + 1 :]

    def explain(self, at: Floats) -> Explained:
        """Return what parameters explain, the amplitudes eliminated."""
        hz, decay, tau, shares = self.parts(at)
        t = self.times
        ahead = -tau * np.expm1(-t / tau)
        settled = t[:, :, None] * (2j * np.pi * (hz - self.centre) - decay)
        glide = (shares[:, None] * ahead)[:, :, None] * (2j * np.pi * hz)
        phi = np.exp(settled + glide) * self.there[:, :, None]
        base, upper = np.linalg.qr(phi)
        onto = np.einsum("knp,kn->kp", base.conj(), self.values)
        amplitudes = np.einsum("kpq,kq->kp", np.linalg.pinv(upper, rcond=_SAME), onto)
        left = self.values - np.einsum("knp,kp->kn", base, onto)
        return Explained(phi=phi, base=base, amplitudes=amplitudes, ahead=ahead, left=left)

    def left(self, at: Floats, weights: Floats) -> Floats:
        """Return what is left, weighed by stroke, and how far the glide is from what holds it."""
        left = self.explain(at).left * weights[:, None]
        _, decay, _, shares = self.parts(at)
        held = (at[2 * self.tones] + np.log(2.0 * decay.mean())) / TAU_SPREAD
        return np.concatenate([left.real.ravel(), left.imag.ravel(), [held], shares / SHARE_SPREAD])

    def slopes(self, at: Floats, weights: Floats) -> Floats:
        """Return how ``left`` goes with the parameters."""
        p, k = self.tones, self.taps
        hz, decay, tau, shares = self.parts(at)
        now = self.explain(at)
        t = self.times
        tones = now.phi * now.amplitudes[:, None, :]
        slope = np.zeros((*t.shape, len(at)), dtype=np.complex128)
        slope[:, :, :p] = tones * (2j * np.pi * (t + shares[:, None] * now.ahead))[:, :, None]
        slope[:, :, p : 2 * p] = -tones * t[:, :, None]
        spun = tones @ (2j * np.pi * hz)
        slope[:, :, 2 * p] = spun * shares[:, None] * (now.ahead - t * np.exp(-t / tau))
        taps = np.arange(k)
        slope[taps, :, 2 * p + 1 + taps] = spun * now.ahead
        slope -= now.base @ (now.base.conj().transpose(0, 2, 1) @ slope)
        slope *= -weights[:, None, None]
        held = np.zeros((1 + k, len(at)))
        held[0, 2 * p] = 1.0 / TAU_SPREAD
        held[0, p : 2 * p] = 1.0 / decay.sum() / TAU_SPREAD
        held[1:, 2 * p + 1 :] = np.eye(k) / SHARE_SPREAD
        flat = slope.reshape(-1, len(at))
        return np.concatenate([flat.real, flat.imag, held])

    def noise(self, left: Complexes) -> Floats:
        """Return the mean square of either part of what is left of each tap, more than nought."""
        power = np.sum(np.abs(self.values) ** 2, axis=1) / self.counts
        mean = np.sum(np.abs(left) ** 2, axis=1) / self.counts / 2.0
        return np.asarray(np.maximum(mean, 1e-12 * power.max() + 1e-300))

    def nudges(self, at: Floats, covariance: Floats) -> Complexes:
        """Return what one standard doubt in each independent direction does to the amplitudes.

        A doubt as wide as what a parameter may be is followed a part of the way only, and what
        that does is stretched: all of the way a tone might grow beyond any number.
        """
        sizes, ways = np.linalg.eigh(covariance)
        steps = (ways * np.sqrt(np.maximum(sizes, 0.0))).T
        now = self.explain(at).amplitudes
        widest = np.max(np.abs(steps) / (self.bounds[1] - self.bounds[0]), axis=1)
        parts = FOLLOWED / np.maximum(widest, FOLLOWED)
        return np.array([
            (self.explain(at + part * step).amplitudes - now) / part
            for part, step in zip(parts, steps, strict=True)
        ])  # fmt: skip

"""Several strokes explained at once by tones that they share: only the amplitudes differ."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.listen.heterodyne import Band

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

# The filter passes less than the samples could carry: the noise that is left lies closer about
# the tones than the spread of the samples lets one think.
NOISE_CLOSER = 1.5
MOST_SHARE, SHARE_SPREAD, SHARE_STEP = 0.15, 0.05, 0.005
TAU_S = (0.02, 1.0)
TAU_SPREAD = 0.7


@dataclass(frozen=True, slots=True, kw_only=True)
class JointFit:
    """Tones shared by several strokes.

    Attributes
    ----------
    hz, decay_per_s : ndarray, shape (p,)
        Settled pitches, rising, and how fast each dies.
    covariance : ndarray, shape (2 p, 2 p)
        Of the pitches, then the decays.
    amplitudes : ndarray of complex, shape (k, p)
        In each stroke, carried back to its start.
    spread : ndarray of complex, shape (k, p, p)
        Covariance of the amplitudes of each stroke, the pitches taken as known.
    nudges : ndarray of complex, shape (q, k, p)
        What the doubts of everything else, one standard doubt at a time in directions that are
        independent of one another, do to the amplitudes of all strokes together.
    shares, tau_s : ndarray of shape (k,), float
        How far each stroke starts sharp, as a share of the pitch, and how fast that goes.
    noise : ndarray, shape (k,)
        Mean square of what is left of each stroke.
    left : float
        What is left of all strokes, as a share of their power.
    front : float
        Its power in the first thirds of the strokes over that in the last: about 1 for noise.
    samples : int
        Of all strokes.
    """

    hz: Floats
    decay_per_s: Floats
    covariance: Floats
    amplitudes: Complexes
    spread: Complexes
    nudges: Complexes
    shares: Floats
    tau_s: float
    noise: Floats
    left: float
    front: float
    samples: int


def fit_jointly(
    bands: Sequence[Band], *, hz: Sequence[float], decay_per_s: Sequence[float]
) -> JointFit:
    """Fit tones to strokes, from a guess of their pitches and decays.

    Parameters
    ----------
    bands : sequence of Band
        One a stroke, all about one centre.
    hz, decay_per_s : sequence of float, length p
        Where to start.

    Notes
    -----
    Each stroke is ``sum_i a_ki exp(-d_i t + 2 pi i f_i (t + g_k tau (1 - exp(-t / tau))))``.
    The amplitudes are eliminated (variable projection: G. H. Golub and V. Pereyra, SIAM J. Numer.
    Anal. 10 (1973) 413; the shortened derivative is L. Kaufman's, BIT 15 (1975) 49; both from
    memory), a second pass weighs each stroke by what the first left of it, and the doubts are
    those of the full model, glide included. The glide is held loosely to its size and to half the
    time in which the tones die, or it would be free where it is too small to be seen.
    """
    from scipy.optimize import least_squares

    model = _Model(bands, len(hz))
    start = model.start(np.asarray(hz, dtype=float), np.asarray(decay_per_s, dtype=float))
    weights = np.full(len(bands), 1.0 / _rms(bands))
    for _ in range(2):
        solved = least_squares(
            lambda at, w=weights: model.left(at, w),
            start,
            jac=lambda at, w=weights: model.slopes(at, w),
            bounds=model.bounds,
            x_scale="jac",
            max_nfev=60,
        )
        start = solved.x
        weights = 1.0 / np.sqrt(model.noise(start))
    return model.result(start, weights)


def _rms(bands: Sequence[Band]) -> float:
    return float(np.sqrt(np.mean(np.concatenate([np.abs(b.values) ** 2 for b in bands]))))


class _Model:
    """The strokes and the shape of what may explain them.

    Its parameters, in order: p pitches, p decays, the logarithm of tau, k shares.
    """

    def __init__(self, bands: Sequence[Band], tones: int) -> None:
        self.values = [band.values for band in bands]
        self.times = [band.times_s for band in bands]
        self.centre = bands[0].centre_hz
        self.tones = tones
        self.taps = len(bands)
        reach = bands[0].rate_hz / 2.0
        p, k = self.tones, self.taps
        low = [self.centre - reach] * p + [0.05] * p + [np.log(TAU_S[0])] + [-0.02] * k
        high = [self.centre + reach] * p + [200.0] * p + [np.log(TAU_S[1])] + [MOST_SHARE] * k
        self.bounds = (np.array(low), np.array(high))

    def start(self, hz: Floats, decay: Floats) -> Floats:
        tau = np.log(np.clip(0.5 / decay.mean(), TAU_S[0] * 1.1, TAU_S[1] * 0.9))
        at = np.concatenate([hz, decay, [tau], np.zeros(self.taps)])
        at = np.asarray(np.clip(at, self.bounds[0] + 1e-9, self.bounds[1] - 1e-9))
        # A glide turns the phase by whole turns, each a hollow of its own: all are looked into.
        tried = np.arange(0.0, MOST_SHARE, SHARE_STEP)
        left = np.empty((len(tried), self.taps))
        for index, share in enumerate(tried):
            at[2 * self.tones + 1 :] = share
            left[index] = [np.sum(np.abs(self.left_of(at, k)) ** 2) for k in range(self.taps)]
        at[2 * self.tones + 1 :] = tried[np.argmin(left, axis=0)] + 1e-4
        return at

    def split(self, at: Floats) -> tuple[Floats, Floats, float, Floats]:
        p = self.tones
        return at[:p], at[p : 2 * p], float(np.exp(at[2 * p])), at[2 * p + 1 :]

    def columns(self, at: Floats, tap: int) -> tuple[Complexes, Complexes, Complexes, Floats]:
        """Return the tones in a tap, an orthonormal base of them, amplitudes, seconds ahead."""
        hz, decay, tau, shares = self.split(at)
        t = self.times[tap]
        ahead = -tau * np.expm1(-t / tau)
        turn = np.outer(t, hz - self.centre) + np.outer(shares[tap] * ahead, hz)
        phi: Complexes = np.exp(2j * np.pi * turn - np.outer(t, decay))
        base, upper = np.linalg.qr(phi)
        amplitudes = np.linalg.lstsq(upper, base.conj().T @ self.values[tap], rcond=1e-9)[0]
        return phi, np.asarray(base), np.asarray(amplitudes), ahead

    def left(self, at: Floats, weights: Floats) -> Floats:
        parts = [self.left_of(at, tap) * weights[tap] for tap in range(self.taps)]
        _, decay, _, shares = self.split(at)
        held = [(at[2 * self.tones] + np.log(2.0 * decay.mean())) / TAU_SPREAD]
        return np.concatenate([*(_real(part) for part in parts), held, shares / SHARE_SPREAD])

    def left_of(self, at: Floats, tap: int) -> Complexes:
        base = self.columns(at, tap)[1]
        values = self.values[tap]
        return np.asarray(values - base @ (base.conj().T @ values))

    def slopes(self, at: Floats, weights: Floats) -> Floats:
        p, k = self.tones, self.taps
        hz, decay, tau, shares = self.split(at)
        parts = []
        for tap in range(k):
            t = self.times[tap]
            phi, base, amplitudes, ahead = self.columns(at, tap)
            tones = phi * amplitudes
            slope = np.zeros((len(t), len(at)), dtype=complex)
            slope[:, :p] = tones * (2j * np.pi * (t + shares[tap] * ahead))[:, None]
            slope[:, p : 2 * p] = -tones * t[:, None]
            spun = tones @ (2j * np.pi * hz)
            slope[:, 2 * p] = spun * shares[tap] * (ahead - t * np.exp(-t / tau))
            slope[:, 2 * p + 1 + tap] = spun * ahead
            slope -= base @ (base.conj().T @ slope)
            parts.append(-_real(slope) * weights[tap])
        held = np.zeros((1 + k, len(at)))
        held[0, 2 * p] = 1.0 / TAU_SPREAD
        held[0, p : 2 * p] = 1.0 / decay.sum() / TAU_SPREAD
        held[1:, 2 * p + 1 :] = np.eye(k) / SHARE_SPREAD
        return np.concatenate([*parts, held])

    def noise(self, at: Floats) -> Floats:
        """Return the mean square of either part of what is left of each tap, more than nought."""
        left = np.array([np.mean(np.abs(self.left_of(at, k)) ** 2) / 2.0 for k in range(self.taps)])
        power = np.array([np.mean(np.abs(v) ** 2) for v in self.values])
        return np.asarray(np.maximum(left, 1e-12 * power.max() + 1e-300))

    def nudges(self, at: Floats, covariance: Floats, amplitudes: list[Complexes]) -> Complexes:
        sizes, ways = np.linalg.eigh(covariance)
        steps = ways * np.sqrt(np.maximum(sizes, 0.0))
        return np.array(
            [
                [self.columns(at + step, k)[2] - amplitudes[k] for k in range(self.taps)]
                for step in steps.T
            ]
        )

    def result(self, at: Floats, weights: Floats) -> JointFit:
        p = self.tones
        slopes = self.slopes(at, weights)
        taps = [self.columns(at, tap) for tap in range(self.taps)]
        hz, decay, tau, shares = self.split(at)
        order = np.argsort(hz)
        covariance: Floats = np.asarray(
            np.linalg.pinv(slopes.T @ slopes, hermitian=True) * NOISE_CLOSER, dtype=np.float64
        )
        both = np.concatenate([order, p + order])
        noise = self.noise(at)
        spread = [
            np.linalg.pinv(phi.conj().T @ phi, hermitian=True) * 2.0 * v * NOISE_CLOSER
            for (phi, _, _, _), v in zip(taps, noise, strict=True)
        ]
        power = sum(float(np.sum(np.abs(v) ** 2)) for v in self.values)
        rest = [np.abs(self.left_of(at, k)) ** 2 for k in range(self.taps)]
        thirds = [len(part) // 3 for part in rest]
        front, back = (
            sum(float(part[cut].sum()) for part, cut in zip(rest, cuts, strict=True))
            for cuts in ([slice(0, t) for t in thirds], [slice(-t, None) for t in thirds])
        )
        return JointFit(
            hz=hz[order],
            decay_per_s=decay[order],
            covariance=covariance[np.ix_(both, both)],
            amplitudes=np.array([amplitudes[order] for _, _, amplitudes, _ in taps]),
            spread=np.array([part[np.ix_(order, order)] for part in spread]),
            nudges=self.nudges(at, covariance, [part[2] for part in taps])[:, :, order],
            shares=shares,
            tau_s=tau,
            noise=noise,
            left=sum(float(part.sum()) for part in rest) / power,
            front=front / (back + 1e-300),
            samples=sum(len(part) for part in rest),
        )


def _real(values: Complexes) -> Floats:
    return np.concatenate([values.real, values.imag])

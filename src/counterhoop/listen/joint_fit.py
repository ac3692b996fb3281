"""Several strokes explained at once by tones that they share: only the amplitudes differ."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.listen.heterodyne import Band
from counterhoop.listen.joint_model import JointModel

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

# The filter passes less than the samples could carry: the noise that is left lies closer about
# the tones than the spread of the samples lets one think.
NOISE_CLOSER = 1.5
MOST_STEPS, MOST_DAMPING, ENOUGH = 60, 1e8, 1e-9


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
    model = JointModel(bands, len(hz))
    at = model.start(np.asarray(hz, dtype=float), np.asarray(decay_per_s, dtype=float))
    weights = np.full(len(bands), 1.0 / model.loudness)
    for _ in range(2):
        at = _descend(model, at, weights)
        weights = 1.0 / np.sqrt(model.noise(model.explain(at).left))
    return _result(model, at, weights)


def _descend(model: JointModel, at: Floats, weights: Floats) -> Floats:
    """Return where the squares of what is left are least, from a start.

    Notes
    -----
    D. W. Marquardt, J. Soc. Indust. Appl. Math. 11 (1963) 431 (from memory), held within bounds.
    The sums are not left to a library that splits them over threads: they are small, and threads
    that wait for a busy machine take thirty times as long.
    """
    left = model.left(at, weights)
    cost, damping = float(left @ left), 1e-3
    for _ in range(MOST_STEPS):
        slopes = model.slopes(at, weights)
        bend = np.einsum("ij,ik->jk", slopes, slopes)
        down = np.einsum("ij,i->j", slopes, left)
        scale = np.diag(np.diag(bend) + 1e-12)
        while damping < MOST_DAMPING:
            tried = np.clip(at - np.linalg.solve(bend + damping * scale, down), *model.bounds)
            there = model.left(tried, weights)
            cost_there = float(there @ there)
            if cost_there < cost:
                break
            damping *= 4.0
        else:
            return at
        gained = cost - cost_there
        at, left, cost, damping = tried, there, cost_there, max(damping / 8.0, 1e-9)
        if gained < ENOUGH * cost:
            return at
    return at


def _result(model: JointModel, at: Floats, weights: Floats) -> JointFit:
    slopes = model.slopes(at, weights)
    bend = np.einsum("ij,ik->jk", slopes, slopes)
    covariance: Floats = np.asarray(
        np.linalg.pinv(bend, hermitian=True) * NOISE_CLOSER, dtype=np.float64
    )
    now = model.explain(at)
    hz, decay, tau, shares = model.parts(at)
    order = np.argsort(hz)
    both = np.concatenate([order, len(hz) + order])
    noise = model.noise(now.left)
    alike = now.phi.conj().transpose(0, 2, 1) @ now.phi
    spread: Complexes = (
        np.linalg.pinv(alike, hermitian=True).astype(np.complex128)
        * (2.0 * NOISE_CLOSER * noise)[:, None, None]
    )
    rest = np.abs(now.left) ** 2
    place = model.there.cumsum(axis=1) / model.counts[:, None]
    front = float(rest[place <= 1.0 / 3.0].sum())
    back = float(rest[(place > 2.0 / 3.0) & (model.there > 0.0)].sum())
    return JointFit(
        hz=hz[order],
        decay_per_s=decay[order],
        covariance=covariance[np.ix_(both, both)],
        amplitudes=now.amplitudes[:, order],
        spread=spread[:, order][:, :, order],
        nudges=model.nudges(at, covariance)[:, :, order],
        shares=shares,
        tau_s=tau,
        noise=noise,
        left=float(rest.sum() / np.sum(np.abs(model.values) ** 2)),
        front=front / (back + 1e-300),
        samples=int(model.counts.sum()),
    )

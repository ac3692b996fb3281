"""All modes of an unevenly tensioned head, beyond the first order of ``uneven``."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from counterhoop.errors import BadInput
from counterhoop.heads.film_field import FilmField
from counterhoop.heads.shapes import Floats, head_norms, head_zeros
from counterhoop.heads.uneven import CENTS_PER_UNIT, Doublet

AROUND, CIRCLES = 4, 4


@dataclass(frozen=True, slots=True, kw_only=True)
class UnevenMode:
    """A mode of an unevenly tensioned head.

    Attributes
    ----------
    hz : float
        Its pitch.
    around, circles : int
        Of the even head's mode that it is most of.
    share : float
        How much of it that is, with its pair: 1 is all.
    swings_deg : float
        Where along, 0 up to 180 over ``around``, that mode swings most; 0 where it has no axis.
    """

    hz: float
    around: int
    circles: int
    share: float
    swings_deg: float


def uneven_modes(
    film: FilmField,
    *,
    mass_kg_per_m2: float,
    first: int = 8,
    around: int = AROUND,
    circles: int = CIRCLES,
) -> tuple[UnevenMode, ...]:
    """Return the lowest modes by rising pitch.

    Parameters
    ----------
    film : FilmField
        The tension.
    mass_kg_per_m2 : float
        Of the head with the air that it carries, the same for all modes.
    first : int
        How many to return.
    around, circles : int
        The even head's modes up to (around, circles) stand in for all; with 4 and 4 the (1,1)
        pair is good to 0.03 cents.

    Raises
    ------
    BadInput
        Where the film would hang slack: it then creases and this does not hold.

    Notes
    -----
    Ritz: ``integral of grad psi_i . N grad psi_j`` against ``sigma integral of psi_i psi_j``.
    """
    from scipy.linalg import eigh

    names, stretch = _stretch(film, around=around, circles=circles)
    turns = np.array([2.0 if m == 0 else 1.0 for m, _, _ in names]) * np.pi
    norms = np.array([head_norms(m, circles)[n - 1] for m, n, _ in names])
    mass = mass_kg_per_m2 * film.radius_m**2 * turns * norms
    squares, shapes = eigh(stretch, np.diag(mass), subset_by_index=[0, min(first, len(names)) - 1])
    energy = mass[:, None] * shapes**2
    return tuple(
        _named(names, np.sqrt(square) / (2.0 * np.pi), energy[:, k], shapes[:, k])
        for k, square in enumerate(squares)
    )


def ritz_doublet(film: FilmField, *, even_hz: float) -> Doublet:
    """Return the (1,1) modes beyond the first order; compare ``uneven.doublet_of``.

    Parameters
    ----------
    film : FilmField
        The tension.
    even_hz : float
        Pitch of (1,1) with the same mean tension all round, air included.
    """
    even = head_zeros(1, 1)[0] / (2.0 * np.pi * film.radius_m) * film.edge.mean_n_per_m**0.5
    found = uneven_modes(film, mass_kg_per_m2=1.0)
    pair = [mode for mode in found if (mode.around, mode.circles) == (1, 1)]
    if len(pair) != 2:
        raise BadInput("is too uneven for a (1,1) pair to be told", where="tension")
    low, high = pair
    return Doublet(
        mean_hz=float(even_hz * (low.hz + high.hz) / (2.0 * even)),
        split_cents=CENTS_PER_UNIT * float(np.log(high.hz / low.hz)),
        tight_deg=high.swings_deg,
    )


def _stretch(film: FilmField, *, around: int, circles: int) -> tuple[list[_Name], Floats]:
    from scipy.special import jv, jvp

    most = max((wave.lobes for wave in film.edge.waves), default=0)
    # Enough for products of two shapes and the tension to be summed exactly round the disc.
    places = 2 * (2 * around + most) + 2
    turn = 2.0 * np.pi * np.arange(places) / places
    points, weights = np.polynomial.legendre.leggauss(2 * circles + around + most + 16)
    x, dx = (points + 1.0) / 2.0, weights / 2.0
    tension = film.at(film.radius_m * x[:, None], turn[None, :])
    _check_taut(tension)
    names: list[_Name] = []
    out, side = [], []
    for m in range(around + 1):
        zeros = head_zeros(m, circles)
        for n, zero in enumerate(zeros, 1):
            slope, chord = zero * jvp(m, zero * x)[:, None], m * (jv(m, zero * x) / x)[:, None]
            for across in (False, True) if m else (False,):
                names.append((m, n, across))
                wave, lean = np.cos(m * turn), -np.sin(m * turn)
                if across:
                    wave, lean = np.sin(m * turn), np.cos(m * turn)
                out.append((slope * wave).ravel())
                side.append((chord * lean).ravel())
    area = np.repeat(dx * x, places) * 2.0 * np.pi / places
    outward, sideways = np.array(out), np.array(side)
    rr, tt, rt = ((part.ravel() * area) for part in tension)
    cross = (outward * rt) @ sideways.T
    stretch = (outward * rr) @ outward.T + (sideways * tt) @ sideways.T + cross + cross.T
    return names, np.asarray(stretch)


def _check_taut(tension: tuple[Floats, Floats, Floats]) -> None:
    outward, around, shear = tension
    least = (outward + around) / 2.0 - np.hypot((outward - around) / 2.0, shear)
    if least.min() <= 0.0:
        raise BadInput("the film would hang slack somewhere", where="tension",
                       wanted="rods that pull less unevenly")  # fmt: skip


def _named(names: list[_Name], hz: float, energy: Floats, shape: Floats) -> UnevenMode:
    shares: dict[tuple[int, int], float] = {}
    for (m, n, _), part in zip(names, energy, strict=True):
        shares[m, n] = shares.get((m, n), 0.0) + float(part)
    (around, circles), share = max(shares.items(), key=lambda item: item[1])
    parts = dict(zip(names, shape, strict=True))
    swings = 0.0
    if around:
        across, straight = parts[around, circles, True], parts[around, circles, False]
        swings = float(np.degrees(np.arctan2(across, straight)) / around % (180.0 / around))
    return UnevenMode(
        hz=float(hz), around=around, circles=circles,
        share=share / sum(shares.values()), swings_deg=swings,
    )  # fmt: skip


_Name = tuple[int, int, bool]

"""Every mode of a drum in a range of pitch: none missed, none invented."""

from __future__ import annotations

from typing import Literal

import numpy as np

from counterhoop.errors import BadInput
from counterhoop.heads.believed import believed
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.ideal import ideal_hz
from counterhoop.heads.mode import Mode, Standing
from counterhoop.heads.moved_mass import moved_kg, round_rad
from counterhoop.heads.roots import roots
from counterhoop.heads.shapes import Floats, head_norms
from counterhoop.heads.stiffness import Stiffness

AROUND, TERMS = 7, 8


def modes(
    drum: HeadedShell, *, up_to_hz: float = 1000.0, around: int = AROUND, terms: int = TERMS
) -> tuple[Mode, ...]:
    """Return all modes up to a pitch.

    Parameters
    ----------
    drum : HeadedShell
        Shell, heads and air.
    up_to_hz : float
        Where to stop. Outer air is taken as incompressible, which a quarter of a wave in the
        radius bounds: about 500 Hz for 12 in, less for larger drums.
    around : int
        Modes with fewer nodal diameters than this.
    terms : int
        Shapes of each head.

    Returns
    -------
    tuple of Mode
        By rising pitch.
    """
    found = [
        mode
        for m in range(around)
        for mode in modes_around(drum, around=m, up_to_hz=up_to_hz, terms=terms)
    ]
    return tuple(sorted(found, key=lambda mode: mode.hz))


def modes_around(
    drum: HeadedShell, *, around: int, up_to_hz: float = 1000.0, terms: int = TERMS
) -> tuple[Mode, ...]:
    """Return the modes with a number of nodal diameters, by rising pitch; see ``modes``.

    Raises
    ------
    BadInput
        For less than no nodal diameter, and pitches that are not to be reckoned.
    """
    believed(around, where="around", least=0, most=50, unit="nodal diameters")
    believed(up_to_hz, where="up_to_hz", least=0.0, most=1e6, unit="Hz")
    return modes_of(Stiffness(drum, around, terms), up_to_hz=up_to_hz)


def modes_of(stiffness: Stiffness, *, up_to_hz: float = 1000.0) -> tuple[Mode, ...]:
    """Return the same from a stiffness, which may have the air outside by another reckoning.

    A vent adds one mode, its own breathing: the one that moves it most is no mode of the heads
    and is left out.
    """
    found = list(roots(stiffness, up_to_hz))
    if stiffness.breathes and found:
        found.remove(max(found, key=lambda root: stiffness.breath(*root)))
    return tuple(_mode(stiffness, hz, shape) for hz, shape in found)


def lowest(drum: HeadedShell, around: int, *, terms: int = TERMS) -> Mode:
    """Return the lowest mode with a number of nodal diameters; ``lowest(drum, 0)``: of all.

    Examples
    --------
    >>> from counterhoop.heads.head import film_head
    >>> tom = HeadedShell(radius_m=0.1524, depth_m=0.2032, batter=film_head(254e-6),
    ...                   batter_n_per_m=2000.0)
    >>> mode = lowest(tom, 0)
    >>> mode.name, round(mode.hz)
    ('(0,1)', 129)
    """
    believed(around, where="around", least=0, most=50, unit="nodal diameters")
    up_to_hz = 1.1 * _ideal_hz(drum, around)
    while not (found := modes_around(drum, around=around, up_to_hz=up_to_hz, terms=terms)):
        up_to_hz *= 1.5
    return found[0]


def batter_lug_mode(drum: HeadedShell, *, terms: int = TERMS) -> Mode:
    """Return the (1,1) mode that a tap near a lug of the batter head rings most.

    With heads nearly alike both (1,1) modes are carried by both; its ``batter_share`` says so.
    """
    return _lug_modes(drum, terms)[-1]


def resonant_lug_mode(drum: HeadedShell, *, terms: int = TERMS) -> Mode:
    """Return the other (1,1) mode, which the other head carries; an open end has none."""
    if drum.is_open:
        raise BadInput("the other end is open: it has no head to tune", where="resonant")
    return _lug_modes(drum, terms)[0]


def _lug_modes(drum: HeadedShell, terms: int) -> list[Mode]:
    """The modes that are mostly a (1,1) of heads and no slosh of air, by batter share."""
    # Air about a head only weighs on it, save close above a slosh of the air.
    found = modes_around(drum, around=1, up_to_hz=1.5 * _ideal_hz(drum, 1), terms=terms)
    most = sorted(found, key=lambda mode: _carried(drum, mode))[-1 if drum.is_open else -2 :]
    return sorted(most, key=lambda mode: mode.batter_share)


def _ideal_hz(drum: HeadedShell, around: int) -> float:
    heads = [(drum.batter, drum.batter_n_per_m)]
    if drum.resonant is not None and drum.resonant_n_per_m is not None:
        heads.append((drum.resonant, drum.resonant_n_per_m))
    return max(
        ideal_hz(
            around, 1, radius_m=drum.radius_m, tension_n_per_m=tension,
            mass_kg_per_m2=head.mass_kg_per_m2,
        )
        for head, tension in heads
    )  # fmt: skip


def _carried(drum: HeadedShell, mode: Mode) -> float:
    """Share of the heads' lowest shape in all that moves, air included."""
    moving = drum.batter.mass_kg_per_m2 * mode.batter_shape[0] ** 2
    if drum.resonant is not None:
        moving += drum.resonant.mass_kg_per_m2 * mode.resonant_shape[0] ** 2
    area = float(head_norms(mode.around, 1)[0]) * drum.radius_m**2 * round_rad(mode.around)
    return moving * area / moved_kg(drum, mode)


def _mode(stiffness: Stiffness, hz: float, shape: Floats) -> Mode:
    drum, n = stiffness.drum, stiffness.terms
    batter, resonant = shape[:n], shape[n:]
    norms = head_norms(stiffness.around, n)
    family: Literal["alone", "together", "against"] = "alone"
    share = 1.0
    more = batter
    if drum.resonant is not None:
        moving = drum.batter.mass_kg_per_m2 * float(norms @ batter**2)
        other = drum.resonant.mass_kg_per_m2 * float(norms @ resonant**2)
        share = moving / (moving + other)
        family = "against" if float((norms * batter) @ resonant) > 0.0 else "together"
        more = batter if share >= 0.5 else resonant
    else:
        resonant = resonant[:0]
    circles = int(np.argmax(norms * more**2)) + 1
    return Mode(
        around=stiffness.around,
        circles=circles,
        family=family,
        hz=hz,
        batter_share=share,
        batter_shape=tuple(float(part) for part in batter),
        resonant_shape=tuple(float(part) for part in resonant),
        standing=Standing.UNCHECKED if drum.is_open else Standing.CHECKED,
    )

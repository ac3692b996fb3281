"""What each rod pulls, and the torque that goes with it: a guide, never a strength."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.heads.believed import MOST_N_PER_M, believed, believed_radius
from counterhoop.sources import load_table
from counterhoop.standards.thread_geometry import pitch_diameter_mm
from counterhoop.standards.threads import Thread

EDGE_FRICTION = 0.3
"""Film on a bearing edge at its worst: estimated, no source."""
TORQUE_SCATTER = 0.3
"""At one torque screws pull so much more or less (handbooks of bolting, from memory)."""
LEAST_ROD_N, MOST_ROD_N = 0.1, 1e6
"""What is written below or beyond is no pull of a rod."""
COLLAR_OVER_MAJOR = 1.25
"""Mean diameter on which the head of a screw rubs over that of the thread: as Shigley has it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RodForce:
    """What one rod pulls.

    Attributes
    ----------
    n : float
        By the film's own pull, shared out alike.
    most_n : float
        While it is tightened over an edge that holds the film back.
    rods : int
        How many share it.
    says : str
        In a sentence.
    """

    n: float
    most_n: float
    rods: int
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RodTorque:
    """A torque, as a guide.

    Attributes
    ----------
    nm : float
        At which a rod pulls ``force_n`` on the whole.
    force_n, force_low_n, force_high_n : float
        That pull, and within what it may lie.
    says : str
        In a sentence.
    """

    nm: float
    force_n: float
    force_low_n: float
    force_high_n: float
    says: str


def rod_force(
    n_per_m: float, *, radius_m: float, rods: int, edge_friction: float = EDGE_FRICTION
) -> RodForce:
    """Return what each rod pulls at a tension, all alike.

    Parameters
    ----------
    n_per_m, radius_m : float
        Tension, and radius of the bearing edge.
    rods : int
        How many there are round that head.
    edge_friction : float
        Of the film on the edge.

    Raises
    ------
    BadInput
        For no rods, and for what no drum has.

    Notes
    -----
    ``F = 2 pi a T / N``, the collar being straight, and ``exp(mu pi / 2)`` of it while the film is
    drawn over the edge (rope on a bollard: Euler, Eytelwein). What a casting stands is not in it,
    nor in any table here.

    Examples
    --------
    >>> force = rod_force(2500.0, radius_m=0.1524, rods=6)
    >>> round(force.n), force.says
    (399, 'About 400 N on each of 6 rods, up to 640 N while it is tightened.')
    """
    if rods < 1:
        raise BadInput("a head needs rods", where="rods", given=rods)
    believed_radius(radius_m)
    believed(n_per_m, where="tension", least=0.0, most=MOST_N_PER_M, unit="N/m")
    believed(edge_friction, where="edge_friction", least=0.0, most=2.0, unit="of the pull")
    own = 2.0 * math.pi * radius_m * n_per_m / rods
    most = own * math.exp(edge_friction * math.pi / 2.0)
    return RodForce(
        n=own, most_n=most, rods=rods,
        says=f"About {print_n(own)} on each of {rods} rods, up to {print_n(most)} while it is "
        "tightened.",
    )  # fmt: skip


def tension_of_rods(
    most_n: float, *, radius_m: float, rods: int, edge_friction: float = EDGE_FRICTION
) -> float:
    """Return the tension in N/m at which no rod pulls more, even while it is tightened.

    Parameters
    ----------
    most_n : float
        What a rod may pull.
    radius_m, rods, edge_friction :
        As in ``rod_force``.

    Examples
    --------
    >>> round(tension_of_rods(rod_force(2500.0, radius_m=0.15, rods=6).most_n,
    ...                       radius_m=0.15, rods=6), 6)
    2500.0
    """
    believed(most_n, where="most_n", least=LEAST_ROD_N, most=MOST_ROD_N, unit="N")
    of_one = rod_force(1.0, radius_m=radius_m, rods=rods, edge_friction=edge_friction)
    return most_n / of_one.most_n


def nut_factor(state: str = "not known") -> float:
    """Return torque over pull and diameter for rods that are black, zinc, oiled and so on.

    Examples
    --------
    >>> nut_factor("oiled"), nut_factor()
    (0.18, 0.2)
    """
    rows = load_table("counterhoop.heads", "nut_factor.toml")
    found = {str(row.values["state"]): float(row.values["factor"]) for row in rows}
    if state not in found:
        raise BadInput("is not known", where="rods", given=state, wanted=" or ".join(found))
    return found[state]


def rod_torque(force_n: float, *, thread: Thread, state: str = "not known") -> RodTorque:
    """Return the torque at which a rod pulls so much, with its scatter.

    Parameters
    ----------
    force_n : float
        The pull; ``RodForce.n``.
    thread : Thread
        Of the rod.
    state : str
        See ``nut_factor``.

    Notes
    -----
    ``K F d``. Wrenches for bolts do not read so low; a spring scale on an arm does.

    Examples
    --------
    >>> from counterhoop.standards.threads import find_thread
    >>> rod_torque(400.0, thread=find_thread("12-24")).says
    'About 0.4 N m, a guide only: at that torque a rod pulls anything from 280 to 520 N.'
    """
    believed(force_n, where="force_n", least=0.0, most=MOST_ROD_N, unit="N")
    nm = nut_factor(state) * force_n * thread.major_mm / 1000.0
    low, high = (1.0 - TORQUE_SCATTER) * force_n, (1.0 + TORQUE_SCATTER) * force_n
    return RodTorque(
        nm=nm, force_n=force_n, force_low_n=low, force_high_n=high,
        says=f"About {print_nm(nm)}, a guide only: at that torque a rod pulls anything from "
        f"{print_n(low)[:-2]} to {print_n(high)}.",
    )  # fmt: skip


def torque_by_friction_nm(
    force_n: float,
    *,
    major_m: float,
    pitch_m: float,
    pitch_diameter_m: float,
    flank_deg: float = 30.0,
    friction: float,
    collar_friction: float,
    collar_m: float | None = None,
) -> float:
    """Return the torque that tightens a screw against its own friction and its head's.

    Parameters
    ----------
    force_n : float
        Its pull.
    major_m, pitch_m, pitch_diameter_m, flank_deg : float
        Thread; the flank's lean from square is half the angle between flanks.
    friction, collar_friction : float
        In the thread; under the head.
    collar_m : float, optional
        Mean diameter on which the head rubs; 1.25 of the thread's if left out.

    Notes
    -----
    ``F d2 / 2 (tan l + f sec a) / (1 - f tan l sec a) + F fc dc / 2``: Shigley and Mischke,
    chapter 8 (from memory).

    Examples
    --------
    >>> round(torque_by_friction_nm(1000.0, major_m=0.006, pitch_m=0.001, friction=0.15,
    ...                             pitch_diameter_m=0.00535, collar_friction=0.15), 2)
    1.19
    """
    rise = pitch_m / (math.pi * pitch_diameter_m)
    rub = friction / math.cos(math.radians(flank_deg))
    in_thread = pitch_diameter_m / 2.0 * (rise + rub) / (1.0 - rub * rise)
    under = collar_friction * (COLLAR_OVER_MAJOR * major_m if collar_m is None else collar_m) / 2.0
    return force_n * (in_thread + under)


def nut_factor_by_friction(
    thread: Thread, *, friction: float, collar_friction: float, collar_mm: float | None = None
) -> float:
    """Return ``nut_factor`` of a thread from its friction; see ``torque_by_friction_nm``."""
    major_m = thread.major_mm / 1000.0
    torque = torque_by_friction_nm(
        1.0,
        major_m=major_m,
        pitch_m=thread.pitch_mm / 1000.0,
        pitch_diameter_m=pitch_diameter_mm(thread) / 1000.0,
        flank_deg=thread.angle_deg / 2.0,
        friction=friction,
        collar_friction=collar_friction,
        collar_m=None if collar_mm is None else collar_mm / 1000.0,
    )
    return torque / major_m


def print_n(force_n: float) -> str:
    """Print a force to 10 N.

    Examples
    --------
    >>> print_n(398.9)
    '400 N'
    """
    return f"{math.floor(force_n / 10.0 + 0.5) * 10:.0f} N"


def print_nm(nm: float) -> str:
    """Print a torque to a tenth.

    Examples
    --------
    >>> print_nm(0.43)
    '0.4 N m'
    """
    return f"{max(nm, 0.1):.1f} N m"

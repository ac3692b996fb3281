"""What a hoop lets through: the stiffer it is, the less the head feels of uneven rods."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from counterhoop.errors import BadInput
from counterhoop.heads.believed import believed_radius
from counterhoop.heads.head import Head
from counterhoop.sources import Source, load_table

Edge = Literal["stuck", "slips"]
"""Whether the film at the bearing edge is held along it, or slips along it freely."""
COLLAR_M = 0.015
"""From the bearing edge to where the hoop holds the film: estimated, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HoopBeam:
    """A hoop as a ring that bends up and down and twists.

    Attributes
    ----------
    bending_n_m2, torsion_n_m2 : float
        EI and GJ.
    source : Source
        Where they come from.
    """

    bending_n_m2: float
    torsion_n_m2: float
    source: Source


def hoop_beam(kind: str) -> HoopBeam:
    """Return a usual hoop of a kind: "pressed steel", "cast" or "wood".

    Examples
    --------
    >>> hoop_beam("cast").bending_n_m2
    8000.0
    """
    rows = {row.values["kind"]: row for row in load_table("counterhoop.heads", "hoop_beam.toml")}
    if kind not in rows:
        raise BadInput("is not known", where="hoop", given=kind, wanted=" or ".join(sorted(rows)))
    values = rows[kind].values
    return HoopBeam(
        bending_n_m2=values["bending"], torsion_n_m2=values["torsion"], source=rows[kind].source
    )


def ring_stiffness_n_per_m2(lobes: int, *, hoop: HoopBeam, radius_m: float) -> float:
    """Return the load on each metre of a hoop that bends it by a metre in so many lobes.

    Notes
    -----
    ``EI / a^4 p^2 (p^2 - 1)^2 / (p^2 + EI / GJ)``, from the modes of a ring out of its plane,
    Love, Mathematical Theory of Elasticity, article 293 (from memory). A hoop goes up and down
    and tilts without bending: nothing for 0 and 1.
    """
    p2, ratio = lobes**2, hoop.bending_n_m2 / hoop.torsion_n_m2
    return hoop.bending_n_m2 / radius_m**4 * p2 * (p2 - 1) ** 2 / (p2 + ratio)


def edge_factor(lobes: int, *, poisson: float, edge: Edge) -> float:
    """Return the tension at the edge of a disc of film per unit of strain there.

    Times stiffness over radius it is the tension for each metre that the edge is drawn out by, in
    so many lobes: the plane-stress disc, solved in ``film_field``.

    Examples
    --------
    >>> round(edge_factor(2, poisson=0.38, edge="stuck"), 3)
    0.935
    """
    if lobes == 0:
        return 1.0 / (1.0 - poisson)
    if edge == "stuck":
        return (1.0 + 2.0 * (lobes - 1) / (1.0 + poisson)) / (3.0 - poisson)
    return (lobes**2 - 1) / (2.0 * lobes - 1.0 + poisson)


def passed_share(
    lobes: int,
    *,
    hoop: HoopBeam,
    head: Head,
    radius_m: float,
    collar_m: float = COLLAR_M,
    edge: Edge = "stuck",
) -> float:
    """Return what share of a wave of rod force the head feels as a wave of tension.

    Parameters
    ----------
    lobes : int
        Of the wave.
    hoop, head : HoopBeam, Head
        The film is the ground that the hoop lies on; its stiffness must be known.
    radius_m, collar_m : float
        Of the bearing edge, and from there to where the hoop holds the film.
    edge : {"stuck", "slips"}
        How the film is held along the bearing edge.

    Raises
    ------
    BadInput
        For calf and film whose stiffness is not known.

    Examples
    --------
    >>> from counterhoop.heads.head import film_head
    >>> steel, film = hoop_beam("pressed steel"), film_head(254e-6)
    >>> [round(passed_share(p, hoop=steel, head=film, radius_m=0.1524), 2) for p in (1, 2, 3)]
    [1.0, 0.87, 0.39]
    """
    believed_radius(radius_m)
    if head.stiffness_n_per_m is None:
        raise BadInput(
            "how stiff it is is not known", where="head", given=head.says or None,
            wanted="a head of film with its thickness",
        )  # fmt: skip
    factor = edge_factor(lobes, poisson=head.poisson, edge=edge)
    if factor == 0.0:
        return 0.0
    give = radius_m / factor + collar_m * (1.0 - head.poisson**2)
    film = head.stiffness_n_per_m / give
    return film / (film + ring_stiffness_n_per_m2(lobes, hoop=hoop, radius_m=radius_m))

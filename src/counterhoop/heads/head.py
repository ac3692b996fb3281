"""What vibrates: a head of film or calf."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.heads.believed import believed
from counterhoop.standards.film import polyester


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """One head, as far as its sound asks for it.

    Attributes
    ----------
    mass_kg_per_m2 : float
        Of all plies, coats and dots together, over the whole head.
    film_m : float or None
        Thickness of the film, all plies together; None where it was only weighed.
    stiffness_n_per_m : float or None
        Modulus times thickness; None for calf and where the film is not known.
    poisson : float
        Poisson's ratio of the film.
    calf : bool
        A skin: its stretch goes with the weather, so that nothing but its mass is known.
    says : str
        In words.

    Raises
    ------
    BadInput
        For a mass or a thickness that no head has.
    """

    mass_kg_per_m2: float
    film_m: float | None = None
    stiffness_n_per_m: float | None = None
    poisson: float = 0.38
    calf: bool = False
    says: str = ""

    def __post_init__(self) -> None:
        believed(self.mass_kg_per_m2, where="mass_kg_per_m2", least=1e-3, most=1e6, unit="kg/m2")
        if self.film_m is not None:
            believed(self.film_m, where="film_m", least=1e-5, most=3e-3, unit="m")


def film_head(*plies_m: float, says: str = "") -> Head:
    """Return a head of polyester film, of one ply or more.

    Coats and dots weigh too: a head that has them is better weighed.

    Parameters
    ----------
    plies_m : float
        Thickness of each ply.
    says : str
        In words.

    Raises
    ------
    BadInput
        For no ply, and film that no head is made of.

    Examples
    --------
    >>> round(film_head(254e-6).mass_kg_per_m2, 4)
    0.3531
    """
    film = polyester()
    thick = math.fsum(plies_m)
    return Head(
        mass_kg_per_m2=film.density_kg_per_m3 * thick,
        film_m=thick,
        stiffness_n_per_m=film.modulus_n_per_m2 * thick,
        poisson=film.poisson,
        says=says,
    )


def weighed_head(
    *, mass_kg: float, diameter_m: float, film_m: float | None = None, calf: bool = False,
    says: str = "",
) -> Head:  # fmt: skip
    """Return a head whose film or skin was weighed.

    Parameters
    ----------
    mass_kg, diameter_m : float
        What was on the scales, without its hoop, and how far across it was cut or measured.
    film_m : float, optional
        Its thickness, all plies together, where it is known, for what depends on its stretch.
    calf, says : bool, str
        As in ``Head``.

    Raises
    ------
    BadInput
        For a weight that no head of that size has.

    Examples
    --------
    >>> round(weighed_head(mass_kg=0.026, diameter_m=0.3048).mass_kg_per_m2, 3)
    0.356
    """
    believed(diameter_m, where="diameter_m", least=0.04, most=4.0, unit="m")
    film = polyester()
    mass = mass_kg / (math.pi * diameter_m**2 / 4.0)
    stiff = None if film_m is None or calf else film.modulus_n_per_m2 * film_m
    return Head(
        mass_kg_per_m2=mass,
        film_m=film_m,
        stiffness_n_per_m=stiff,
        poisson=film.poisson,
        calf=calf,
        says=says,
    )

"""The film that heads are made of."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.sources import Source, load_table

LIGHTER = 0.1
"""By so much less than its film a head may weigh: film is rolled thinner than it is sold as, and
a kitchen scale shows whole grams. Estimated, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Film:
    """A film.

    Attributes
    ----------
    density_kg_per_m3 : float
        Density.
    along_n_per_m2, across_n_per_m2 : float
        Modulus along and across the roll.
    poisson : float
        Poisson's ratio before yield.
    expansion_per_k : float
        Growth of a length with each kelvin.
    source : Source
        Where the row comes from.
    """

    density_kg_per_m3: float
    along_n_per_m2: float
    across_n_per_m2: float
    poisson: float
    expansion_per_k: float
    source: Source

    @property
    def modulus_n_per_m2(self) -> float:
        """The mean over all directions."""
        return (self.along_n_per_m2 + self.across_n_per_m2) / 2.0


def polyester() -> Film:
    """Return polyester film.

    Examples
    --------
    >>> film = polyester()
    >>> film.density_kg_per_m3, round(film.modulus_n_per_m2 / 1e9, 3)
    (1390.0, 4.905)
    """
    (row,) = load_table("counterhoop.standards", "film.toml")
    values = row.values
    return Film(
        density_kg_per_m3=values["density"],
        along_n_per_m2=values["modulus_along"],
        across_n_per_m2=values["modulus_across"],
        poisson=values["poisson"],
        expansion_per_k=values["expansion"],
        source=row.source,
    )


def lightest_kg_per_m2(film_m: float) -> float:
    """Return the least that each square metre of a head of so much film weighs.

    Parameters
    ----------
    film_m : float
        All plies together.

    Examples
    --------
    >>> round(lightest_kg_per_m2(254e-6), 3)
    0.318
    """
    return (1.0 - LIGHTER) * polyester().density_kg_per_m3 * film_m

"""How much of a split the shell and the film make by themselves, with rods that pull alike."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.heads.film_grain import grain_lean
from counterhoop.heads.oval import oval_doublet
from counterhoop.heads.uneven import doublet
from counterhoop.quantities.print_pitch import print_cents

_ANY_HZ = 200.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Shares:
    """Splits in cents that no rod makes.

    Attributes
    ----------
    oval_cents : float
        Of an oval bearing edge.
    film_cents : float
        Of film that is stiffer across its roll; the most that it makes.
    """

    oval_cents: float = 0.0
    film_cents: float = 0.0

    @property
    def together_cents(self) -> float:
        """Both, their directions being unrelated: the root of the sum of the squares."""
        return math.hypot(self.oval_cents, self.film_cents)

    def says(self) -> str:
        """Return what they are in a sentence, "" where there is nothing to say.

        Examples
        --------
        >>> Shares(oval_cents=5.7, film_cents=12.5).says()
        "The oval of the edge makes 6 cents of such a split and the film's own grain up to 12."
        """
        oval, film = print_cents(self.oval_cents), math.floor(self.film_cents)
        if self.oval_cents < 0.5:
            return f"The film's own grain makes up to {film} cents of such a split." if film else ""
        grain = f" and the film's own grain up to {film}" if film else ""
        return f"The oval of the edge makes {oval} of such a split{grain}."


def shares_of_split(
    *, oval_mm: float | None = None, diameter_mm: float | None = None, film: bool = True
) -> Shares:
    """Return what the shell and the film make of a split.

    Parameters
    ----------
    oval_mm, diameter_mm : float, optional
        Longest less shortest diameter of the bearing edge, and the mean of them.
    film : bool
        Whether the head is of polyester film; of calf nothing is known.

    Examples
    --------
    >>> round(shares_of_split(oval_mm=2, diameter_mm=304.8, film=False).oval_cents, 1)
    5.7
    """
    oval = 0.0
    if oval_mm and diameter_mm:
        oval = oval_doublet(
            _ANY_HZ, difference_m=oval_mm / 1000.0, diameter_m=diameter_mm / 1000.0
        ).split_cents
    grain = doublet(_ANY_HZ, lean=grain_lean(), tight_deg=0.0).split_cents if film else 0.0
    return Shares(oval_cents=oval, film_cents=grain)

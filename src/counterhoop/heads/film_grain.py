"""What the film itself does to the pitch round the rim: it is stiffer across its roll."""

from __future__ import annotations

from counterhoop.standards.film import polyester


def grain_lean() -> float:
    """Return the lean that evenly drawn film has by its grain; see ``uneven.doublet``.

    Notes
    -----
    Drawn out alike in all directions the film pulls with
    ``(E_2 - E_1) / ((E_1 + E_2) (1 + nu))`` of the mean as a uniform difference between its two
    directions, nu being the mean ratio; exact for an orthotropic film in plane stress up to the
    square of the difference. A stiff hoop draws it so; a soft one lets it give, so this is the
    most. Which way the roll ran is not marked on a head.

    Examples
    --------
    >>> from counterhoop.heads.uneven import doublet
    >>> round(doublet(220.0, lean=grain_lean(), tight_deg=0).split_cents)
    12
    """
    film = polyester()
    along, across = film.along_n_per_m2, film.across_n_per_m2
    return (across - along) / ((across + along) * (1.0 + film.poisson))

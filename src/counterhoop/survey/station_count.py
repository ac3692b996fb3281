"""A number of stations that nobody steps off: most likely one reading was not written down."""

from __future__ import annotations

from counterhoop.errors import Finding, Grade

SURE_STATIONS = 21
"""From so many on a lobed shell may be read at any number (seven stations to each of three lobes,
ISO 12181-2, from memory)."""


def odd_count(count: int, *, lugs: tuple[int, ...], of: str, where: str) -> Finding | None:
    """Return a finding when readings stand at an odd number of stations that no row of lugs has.

    A rim is halved and halved again, or read at its lugs. Stations stand at equal steps, so that
    a reading left out moves all others, and nothing else shows it (common practice, no source).

    Parameters
    ----------
    count : int
        Readings once round.
    lugs : tuple of int
        Of each row on the drum: stations at every lug, or so many to each, are as they should be.
    of : str
        What was read ("gaps or heights of the batter edge").
    where : str
        The end, in words.

    Examples
    --------
    >>> odd_count(8, lugs=(6,), of="heights", where="batter end") is None
    True
    >>> odd_count(7, lugs=(6,), of="heights", where="batter end").code
    'stations-odd'
    """
    if count % 2 == 0 or count >= SURE_STATIONS or any(count % n == 0 for n in lugs if n):
        return None
    return Finding(
        code="stations-odd",
        grade=Grade.TAKE_CARE,
        says=(
            f"There are {count} {of}: was a station left out? Each is then counted at the wrong "
            "place."
        ),
        where=where,
        measured=float(count),
        unit="",
        rule="equal steps",
        remedy=f"Count the pencil ticks: {count + 1} of them want {count + 1} readings.",
    )

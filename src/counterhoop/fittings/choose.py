"""Look-ups in the book: what suits a depth, a thread, a head."""

from __future__ import annotations

from typing import Literal

from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.standards.threads import find_thread

MOUTH_FROM_EDGE_MM = (24.0, 45.0)
"""How far below its edge a mouth of a long lug may lie: clear of the hoop at full travel, and
within reach of a rod that is made. Common practice, no source; an entry that says what it suits
goes by that."""
SAME_SIZE_MM = 1.0
"""Nominal sizes nearer than this are one size: 14 in is 355.6 mm, and some write 355 or 356."""

RodKind = Literal[Kind.ROD, Kind.T_ROD]


def suits_mm(entry: Fitting) -> tuple[float, float]:
    """Return the least and the greatest depth between the edges that a long lug goes with.

    Raises
    ------
    BadInput
        When the entry is no long lug.

    Examples
    --------
    >>> from counterhoop.fittings.read_book import packaged_book
    >>> suits_mm(packaged_book().find("Corvane round long lug 134"))
    (192.0, 212.0)
    """
    span = entry.span_mm
    if span is None:
        raise BadInput("this is no long lug", where=entry.name, given=entry.kind.value)
    least, most = (span + 2.0 * from_edge for from_edge in MOUTH_FROM_EDGE_MM)
    return (
        entry.suits_from_mm if entry.suits_from_mm is not None else least,
        entry.suits_to_mm if entry.suits_to_mm is not None else most,
    )


def long_lugs_for(book: Book, *, depth_mm: float, thread: str = "") -> tuple[Fitting, ...]:
    """Return the long lugs that go with a depth, the best in the middle of its range first.

    Parameters
    ----------
    book : Book
        Where to look.
    depth_mm : float
        Between the edges, after truing.
    thread : str
        What the rods have, in any spelling; empty: any thread.

    Examples
    --------
    >>> from counterhoop.fittings.read_book import packaged_book
    >>> [lug.name for lug in long_lugs_for(packaged_book(), depth_mm=220.0, thread="12-24")]
    ['Corvane round long lug 154']
    """
    wanted = find_thread(thread, where="thread").designation if thread else ""
    fits: list[tuple[float, Fitting]] = []
    for entry in book.of_kind(Kind.LONG_LUG):
        least, most = suits_mm(entry)
        if least <= depth_mm <= most and wanted in ("", entry.thread):
            fits.append((abs(depth_mm - (least + most) / 2.0), entry))
    return tuple(entry for _, entry in sorted(fits, key=lambda pair: pair[0]))


def rods(book: Book, *, thread: str = "", kind: RodKind = Kind.ROD) -> tuple[Fitting, ...]:
    """Return the rods of a thread, the shortest first.

    Examples
    --------
    >>> from counterhoop.fittings.read_book import packaged_book
    >>> [rod.rod_length_mm for rod in rods(packaged_book(), thread="M5")]
    [42.0, 52.0, 64.0]
    """
    wanted = find_thread(thread, where="thread").designation if thread else ""
    found = [entry for entry in book.of_kind(kind) if wanted in ("", entry.thread)]
    return tuple(sorted(found, key=lambda rod: rod.rod_length_mm or 0.0))


def nearest_rod(
    book: Book, *, least_mm: float, most_mm: float, thread: str, kind: RodKind = Kind.ROD
) -> Fitting | None:
    """Return the rod that lies nearest to the middle of what the stack allows.

    Parameters
    ----------
    book : Book
        Where to look.
    least_mm, most_mm : float
        Lengths under the head: engaged enough, and short of the bottom.
    thread : str
        In any spelling.
    kind : Kind
        Rods or T-rods.

    Returns
    -------
    Fitting or None
        None when no rod of the book lies between the two; of two equally near the shorter.

    Examples
    --------
    >>> from counterhoop.fittings.read_book import packaged_book
    >>> nearest_rod(packaged_book(), least_mm=38.0, most_mm=45.0, thread="12-24").name
    'rod 12-24 x 42 mm'
    """
    between = [
        rod
        for rod in rods(book, thread=thread, kind=kind)
        if rod.rod_length_mm is not None and least_mm <= rod.rod_length_mm <= most_mm
    ]
    middle = (least_mm + most_mm) / 2.0
    return min(between, key=lambda rod: abs((rod.rod_length_mm or 0.0) - middle), default=None)


def hoop_for(
    book: Book,
    *,
    nominal_mm: float,
    ears: int,
    kind: Literal["flanged", "die-cast", "wood", ""] = "",
) -> Fitting | None:
    """Return the first hoop for a head's size and a number of lugs.

    A hoop that is held by claws goes with any number, and comes after those with ears.

    Returns
    -------
    Fitting or None
        None when the book has no such hoop.

    Examples
    --------
    >>> from counterhoop.fittings.read_book import packaged_book
    >>> hoop_for(packaged_book(), nominal_mm=355.6, ears=8, kind="die-cast").name
    'die-cast hoop 14 in, 8 ears'
    """
    found = [
        hoop
        for hoop in book.of_kind(Kind.HOOP)
        if hoop.nominal_mm is not None
        and abs(hoop.nominal_mm - nominal_mm) <= SAME_SIZE_MM
        and hoop.ears in (ears, None)
        and kind in ("", hoop.hoop_kind)
    ]
    return min(found, key=lambda hoop: hoop.ears is None, default=None)

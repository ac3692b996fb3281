"""What one fitting comes apart into: its body, screws, washers, nuts, gasket, spring, insert."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.quantities.print_length import CALIPER_MM, print_inch, print_mm
from counterhoop.scheme.threading import listed

SWIVEL_NUT, NUT, INSERT = "swivel nut", "nut", "insert"
"""Pieces that no entry of the book stands for."""
SAME_MM = 0.15
"""Two sizes that a caliper cannot tell apart: its step and a half. Common practice, no source."""
LINES_A_HOLE = (Kind.GROMMET, Kind.VENT, Kind.BADGE)
"""What holds itself in its hole when the book names no screw."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sort:
    """One sort of piece: what it is called, its kind, and its entry in the book ("" for none)."""

    piece: str
    kind: str
    book: str = ""


Pieces = tuple[tuple[Sort, int], ...]


def comes_apart(entry: Fitting, book: Book) -> Pieces:
    """Return every piece of a fitting with its count, the body first.

    Parameters
    ----------
    entry : Fitting
        As it hangs on the drum.
    book : Book
        Names its screws, washers and inserts.

    Returns
    -------
    tuple of (Sort, int)
        Only what the book says; :func:`not_in_the_book` names what it leaves open.

    Examples
    --------
    >>> from counterhoop.fittings.read_book import packaged_book
    >>> book = packaged_book()
    >>> for sort, count in comes_apart(book.find("Dunmarrow bullet lug"), book):
    ...     print(count, sort.piece)
    1 Dunmarrow bullet lug
    2 screw M5 x 16 mm
    2 screw washer 14
    1 swivel nut M6
    1 lug spring 8 x 28
    1 Dunmarrow bullet gasket
    """
    found: list[tuple[Sort, int]] = [(sort_of(entry), 1)]
    through = len(entry.holes) if entry.screw_thread else 0
    if through:
        found.append((screw_sort(entry, book), through))
        if entry.behind.washer_mm:
            found.append((washer_sort(entry, book), through))
        if entry.screw_depth_mm is None:
            found.append((Sort(piece=f"nut {entry.screw_thread}", kind=NUT), through))
    if entry.swivel:
        nut = Sort(piece=f"{SWIVEL_NUT} {entry.thread}", kind=SWIVEL_NUT)
        found.append((nut, len(entry.mouths)))
    loose = [_insert(name, book) for name in entry.inserts]
    found += [(sort, loose.count(sort)) for sort in dict.fromkeys(loose)]
    if entry.gasket_mm and all(sort.kind != Kind.GASKET for sort in loose):
        thick = print_mm(entry.gasket_mm, resolution_mm=CALIPER_MM)
        found.append((Sort(piece=f"gasket of {entry.name}, {thick}", kind=Kind.GASKET), 1))
    return tuple(found)


def not_in_the_book(entry: Fitting) -> str:
    """Say what the book leaves open of a fitting's loose pieces; nothing when it says all.

    Examples
    --------
    >>> from counterhoop.fittings.read_book import packaged_book
    >>> not_in_the_book(packaged_book().find("Corvane damper"))
    'The book does not say what holds Corvane damper on: count what comes off.'
    """
    held = not entry.holes or entry.screw_thread or entry.kind in LINES_A_HOLE
    if held:
        return ""
    return f"The book does not say what holds {entry.name} on: count what comes off."


def sort_of(entry: Fitting) -> Sort:
    """Return an entry of the book as a sort of piece."""
    return Sort(piece=entry.name, kind=entry.kind.value, book=entry.name)


def screw_sort(entry: Fitting, book: Book) -> Sort:
    """Return a fitting's mounting screws, by the book's name where it lists them."""
    thread, length_mm = one_name(entry.screw_thread), entry.screw_length_mm or 0.0
    for screw in book.of_kind(Kind.SCREW):
        same = one_name(screw.screw_thread) == thread
        if same and abs((screw.screw_length_mm or 0.0) - length_mm) <= SAME_MM:
            return sort_of(screw)
    named = f"screw {entry.screw_thread}"
    piece = f"{named} x {length_said(thread, length_mm)}" if length_mm else named
    return Sort(piece=piece, kind=Kind.SCREW)


def one_name(thread: str) -> str:
    """Return the one name of a thread; a thread that no table has keeps the name it was given."""
    known = listed(thread)
    return thread if known is None else known.designation


def length_said(thread: str, length_mm: float) -> str:
    """Print a screw's length in the unit that screws of its thread are sold by.

    Examples
    --------
    >>> length_said("10-24", 15.875), length_said("M5", 16.0)
    ('5/8 in', '16 mm')
    """
    known = listed(thread)
    inch = known is not None and known.threads_per_inch is not None
    return print_inch(length_mm) if inch else print_mm(length_mm)


def washer_sort(entry: Fitting, book: Book) -> Sort:
    """Return the washers behind a fitting, by the book's name where it lists just one such."""
    behind = entry.behind
    alike = [
        washer
        for washer in book.of_kind(Kind.WASHER)
        if abs((washer.diameter_mm or 0.0) - behind.washer_diameter_mm) <= SAME_MM
        and abs((washer.washer_mm or 0.0) - behind.washer_mm) <= SAME_MM
    ]
    if len(alike) == 1:
        return sort_of(alike[0])
    thick = print_mm(behind.washer_mm, resolution_mm=CALIPER_MM)
    if not behind.washer_diameter_mm:
        return Sort(piece=f"washer, {thick} thick", kind=Kind.WASHER)
    across = print_mm(behind.washer_diameter_mm, resolution_mm=CALIPER_MM)
    return Sort(piece=f"washer, {across} across, {thick} thick", kind=Kind.WASHER)


def _insert(name: str, book: Book) -> Sort:
    try:
        return sort_of(book.find(name))
    except BadInput:
        return Sort(piece=name, kind=INSERT)

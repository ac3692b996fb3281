"""The strip-down count: every piece that a drum's own fittings come apart into, place by place."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import get_args

from counterhoop.development.flat import End
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.parts.comes_apart import (
    SAME_MM,
    Sort,
    comes_apart,
    not_in_the_book,
    one_name,
    sort_of,
)
from counterhoop.quantities.print_length import CALIPER_MM, print_inch, print_mm
from counterhoop.scheme.layout import RodPlan
from counterhoop.shell.drum import Drum

HEAD, CORD = "head", "cord or strap"
CORDS = 2
"""One at the strainer, one at the butt: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """Pieces of one sort at one place of a drum.

    Attributes
    ----------
    place : str
        The fitting's name on the drum ("batter lug 3"), or "batter head" and "resonant head" for
        what holds a head.
    sort : Sort
        What they are.
    count : int
        How many there should be.
    lost : bool
        The survey says that the part is gone.
    """

    place: str
    sort: Sort
    count: int
    lost: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class StripDown:
    """What should come off one drum.

    Attributes
    ----------
    drum : str
        Its name in the job.
    lines : tuple of Expected
        In the order of the work: what holds the heads, lugs along, everything else.
    unsaid : tuple of str
        What the book leaves open, a sentence each.
    """

    drum: str
    lines: tuple[Expected, ...]
    unsaid: tuple[str, ...] = ()

    def sorts(self) -> dict[Sort, int]:
        """Return how many of each sort there should be on the whole drum."""
        total: Counter[Sort] = Counter()
        for line in self.lines:
            total[line.sort] += line.count
        return dict(total)


def strip_down(drum: Drum, *, book: Book, rods: Sequence[RodPlan] = ()) -> StripDown:
    """Return the number of every piece that should come off a drum, by place.

    Parameters
    ----------
    drum : Drum
        As found. A fitting that is said to be missing is expected with all its pieces, as lost.
    book : Book
        Says what each fitting comes apart into.
    rods : sequence of RodPlan
        As worked out for the drum as found; they name the rods by their length.

    Raises
    ------
    BadInput
        When a fitting is not in the book.
    """
    where = f"drums.{drum.key}"
    lines: list[Expected] = []
    unsaid: list[str] = []
    for end in _ends(drum, book=book):
        lines += _head(drum, end, book=book, rods=rods)
    for placed in drum.everything:
        entry = book.find(placed.fitting, where=f"{where}.{placed.label}")
        lines += [
            Expected(place=placed.label, sort=sort, count=count, lost=placed.missing)
            for sort, count in (*comes_apart(entry, book), *_goes_with(entry, book))
        ]
        unsaid.append(not_in_the_book(entry))
    if any(line.sort.kind == Kind.STRAINER for line in lines):
        lines += [
            Expected(place="snares", sort=Sort(piece="wires", kind=Kind.WIRES), count=1),
            Expected(place="snares", sort=Sort(piece=CORD, kind=CORD), count=CORDS),
        ]
    return StripDown(
        drum=drum.key, lines=tuple(lines), unsaid=tuple(dict.fromkeys(filter(None, unsaid)))
    )


def _ends(drum: Drum, *, book: Book) -> Iterator[End]:
    """Yield the ends that carry a head: those that a lug looks to, or with a hoop of their own."""
    for end in get_args(End):
        if _mouths(drum, end, book=book) or end in dict(drum.hoops):
            yield end


def _head(drum: Drum, end: End, *, book: Book, rods: Sequence[RodPlan]) -> Iterator[Expected]:
    """Yield what holds one head: the head itself, its hoop, rods, washers and claws."""
    place = f"{end} head"
    hoop = _hoop(drum, end, book=book)
    nominal_mm = drum.nominal_diameter_mm or (hoop.nominal_mm if hoop else None)
    size = f"{print_inch(nominal_mm, denominator=4)} " if nominal_mm else ""
    yield Expected(place=place, sort=Sort(piece=f"{size}head", kind=HEAD), count=1)
    if hoop is not None:
        yield Expected(place=place, sort=sort_of(hoop), count=1)
    claws = hoop is not None and hoop.ears is None and hoop.hoop_kind == "wood"
    for thread, count in _mouths(drum, end, book=book).items():
        rod = _rod(end, thread, claws=claws, rods=rods)
        yield Expected(place=place, sort=rod, count=count)
        if claws:
            yield Expected(place=place, sort=_only(book, Kind.CLAW, "claw"), count=count)
        if hoop is not None and hoop.washer_mm:
            yield Expected(place=place, sort=_rod_washer(hoop, book), count=count)


def _hoop(drum: Drum, end: End, *, book: Book) -> Fitting | None:
    row = drum.row(end)
    name = row.hoop if row and row.hoop else dict(drum.hoops).get(end, "")
    return book.find(name, where=f"drums.{drum.key}.hoops") if name else None


def _mouths(drum: Drum, end: End, *, book: Book) -> Counter[str]:
    """Count the lug mouths that look to an end, by the thread of their rods."""
    upside = {"batter": "resonant", "resonant": "batter"}
    found: Counter[str] = Counter()
    for lug in (lug for row in drum.rows for lug in row.lugs):
        entry = book.find(lug.fitting, where=f"drums.{drum.key}.rows")
        turned = lug.turned_deg % 360.0 == 180.0
        toward = [upside[m.toward] if turned else m.toward for m in entry.mouths]
        if count := toward.count(end):
            found[entry.thread] += count
    return found


def _rod(end: End, thread: str, *, claws: bool, rods: Sequence[RodPlan]) -> Sort:
    kind = Kind.T_ROD if claws else Kind.ROD
    for plan in rods:
        if plan.head == end and plan.rod and one_name(plan.thread) == one_name(thread):
            return sort_of(plan.rod)
    return Sort(piece=f"{kind.value} {thread}".strip(), kind=kind)


def _rod_washer(hoop: Fitting, book: Book) -> Sort:
    """Return the washers under the rods' heads: their hole is as wide as the ear's."""
    thick_mm = hoop.washer_mm or 0.0
    alike = [
        washer
        for washer in book.of_kind(Kind.WASHER)
        if hoop.ear_hole_mm is not None
        and abs((washer.washer_mm or 0.0) - thick_mm) <= SAME_MM
        and abs((washer.inside_mm or 0.0) - hoop.ear_hole_mm) <= SAME_MM
    ]
    if len(alike) == 1:
        return sort_of(alike[0])
    thick = print_mm(thick_mm, resolution_mm=CALIPER_MM)
    return Sort(piece=f"rod washer, {thick} thick", kind=Kind.WASHER)


def _goes_with(entry: Fitting, book: Book) -> list[tuple[Sort, int]]:
    """Return what stands in a fitting and comes off with it: the leg of a leg bracket."""
    if entry.kind is not Kind.LEG_BRACKET or entry.diameter_mm is None:
        return []
    across = print_mm(entry.diameter_mm, resolution_mm=CALIPER_MM)
    legs = [
        leg
        for leg in book.of_kind(Kind.LEG)
        if abs((leg.diameter_mm or 0.0) - entry.diameter_mm) <= SAME_MM
    ]
    named = sort_of(legs[0]) if len(legs) == 1 else Sort(piece=f"leg, {across}", kind=Kind.LEG)
    return [(named, 1)]


def _only(book: Book, kind: Kind, otherwise: str) -> Sort:
    entries = book.of_kind(kind)
    return sort_of(entries[0]) if len(entries) == 1 else Sort(piece=otherwise, kind=kind)

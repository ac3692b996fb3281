"""What a job lacks: what its strip-downs miss and its schemes add, sort by sort, each once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import CHOICE
from counterhoop.bench.parts.goes_back import goes_back
from counterhoop.bench.parts.stripped import Stripped
from counterhoop.bench.shelf.known import known_pieces
from counterhoop.bench.shelf.of_fittings import Lying, lying, pieces_that_are
from counterhoop.bench.shelf.whose import client_of, key_of, said
from counterhoop.bench.workshop import Workshop
from counterhoop.fittings.book import Book, name_key
from counterhoop.parts.comes_apart import Sort
from counterhoop.parts.wants import Want, Wants, wants_of
from counterhoop.store.shelf.look_up import Kept
from counterhoop.store.shelf.mark import shelf_mark
from counterhoop.store.shelf.move import set_aside_in

if TYPE_CHECKING:
    from counterhoop.scheme.plan import PartLine, Scheme

NEW = "new under the scheme"
NOT_TAKEN = "new under its scheme, not taken yet"
"""Stand as the place of what a scheme adds: of one that is taken by hand or by the survey file, and
of the one that the job is planned with as long as nobody takes another."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumLacks:
    """What one drum lacks.

    Attributes
    ----------
    drum : str
        Its name for programs.
    name : str
        What it is called.
    wants : Wants
        What goes back on and is not there, and what the scheme adds.
    """

    drum: str
    name: str
    wants: Wants


@dataclass(frozen=True, slots=True, kw_only=True)
class Lack:
    """One sort that one drum lacks, and what is there for it.

    Attributes
    ----------
    drum, name : str
        Which drum.
    want : Want
        How many, and where they go.
    used : int
        Fitted already, from the shelf.
    aside : int
        Set aside for this drum, or for its job as a whole.
    """

    drum: str
    name: str
    want: Want
    used: int = 0
    aside: int = 0

    @property
    def short(self) -> int:
        """How many nobody has put by yet."""
        return self.want.count - self.used - self.aside


@dataclass(frozen=True, slots=True, kw_only=True)
class ToSetAside:
    """So many of a piece that can be set aside for a drum."""

    kept: Kept
    drum: str
    name: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SortLacking:
    """One sort that a job lacks.

    Attributes
    ----------
    sort : Sort
    lacks : tuple of Lack
        Drum by drum.
    stock : int
        How many of the workshop's figures lie in the box, where the shelf has no card of it.
    offered : tuple of Lying
        Pieces of it that are free for this job.
    bins : tuple of str
        Where pieces lie that are free for this job or set aside for it.
    elsewhere : tuple of (str, int)
        For which other jobs and drums some are set aside, in words, and how many.
    """

    sort: Sort
    lacks: tuple[Lack, ...]
    stock: int = 0
    offered: tuple[Lying, ...] = ()
    bins: tuple[str, ...] = ()
    elsewhere: tuple[tuple[str, int], ...] = ()

    @property
    def count(self) -> int:
        """How many in all."""
        return sum(one.want.count for one in self.lacks)

    @property
    def short(self) -> int:
        """How many nobody has put by yet."""
        return sum(one.short for one in self.lacks)

    @property
    def free(self) -> int:
        """How many of these the shelf or the box can give."""
        return min(self.short, self.stock) + sum(one.count for one in self.to_set_aside)

    @property
    def to_find(self) -> int:
        """How many are left to find or buy."""
        return self.short - self.free

    @property
    def to_set_aside(self) -> tuple[ToSetAside, ...]:
        """What the shelf gives to each drum: the client's first, from as few bags as can be.

        A matched set goes whole to one drum, or not at all.
        """
        left = {lies.kept.piece.id: lies.stock.free for lies in self.offered}
        order = sorted(self.offered, key=lambda lies: (not lies.kept.piece.owner, -lies.stock.free))
        found = []
        for lack in self.lacks:
            short = lack.short
            for lies in order:
                piece = lies.kept.piece
                count = min(short, left[piece.id])
                if count < 1 or (piece.matched_set and count < left[piece.id]):
                    continue
                left[piece.id] -= count
                short -= count
                found.append(
                    ToSetAside(kept=lies.kept, drum=lack.drum, name=lack.name, count=count)
                )
        return tuple(found)

    def parts_a_set(self, lies: Lying) -> bool:
        """Return whether a piece is a matched set that no drum here takes whole."""
        given = {one.kept.piece.id for one in self.to_set_aside}
        return lies.kept.piece.matched_set and self.short > 0 and lies.kept.piece.id not in given


def lacks_of(drum: KeptDrum, stripped: Stripped, scheme: Scheme | None, *, book: Book) -> DrumLacks:
    """Return what a drum of a folder lacks."""
    new = NEW if is_taken(drum) else NOT_TAKEN
    wants = wants_of_drum(stripped, scheme, book=book, new=new)
    return DrumLacks(drum=drum.id, name=drum.name, wants=wants)


def is_taken(drum: KeptDrum) -> bool:
    """Tell whether a scheme is taken for a drum by hand, so that its folder says so too."""
    return bool(drum.kept(CHOICE).table.get("scheme"))


def has_new(drums: Iterable[DrumLacks]) -> bool:
    """Tell whether a scheme adds something: of its screws and washers no list knows."""
    places = (place for one in drums for want in one.wants.lines for place, _ in want.places)
    return any(place in (NEW, NOT_TAKEN) for place in places)


def wants_of_drum(
    stripped: Stripped, scheme: Scheme | None, *, book: Book, new: str = NEW
) -> Wants:
    """Return what a drum lacks: its count without what the scheme takes off, and what it adds.

    Parameters
    ----------
    scheme : Scheme or None
        That the bench works by.
    book : Book
        Says of what kind a part is.
    new : str
        The place of what the scheme adds.
    """
    missed = wants_of(goes_back(stripped.counted, scheme.layout if scheme else None))
    added = [_added(line, book, new=new) for line in scheme.parts] if scheme else []
    return Wants(lines=_each_once((*missed.lines, *added)), uncounted=missed.uncounted)


def _added(line: PartLine, book: Book, *, new: str) -> Want:
    entry = book.find(line.name)
    sort = Sort(piece=entry.name, kind=entry.kind.value, book=entry.name)
    return Want(sort=sort, count=line.count, places=((new, line.count),))


def _each_once(wants: Iterable[Want]) -> tuple[Want, ...]:
    found: dict[Sort, list[Want]] = {}
    for want in wants:
        found.setdefault(want.sort, []).append(want)
    return tuple(
        Want(
            sort=sort,
            count=sum(one.count for one in alike),
            places=tuple(place for one in alike for place in one.places),
            spoilt=sum(one.spoilt for one in alike),
        )
        for sort, alike in found.items()
    )


def lacking(
    shop: Workshop, job: KeptJob, drums: Sequence[DrumLacks], *, stock: Mapping[str, int]
) -> tuple[SortLacking, ...]:
    """Return what a job lacks sort by sort, with what is set aside and what the shelf has of it.

    Each piece of the shelf or the box stands for one that is wanted: over all drums of the job
    none is counted twice.

    Parameters
    ----------
    drums : sequence of DrumLacks
    stock : mapping of str to int
        What the job was planned with: where the shelf has a card of a sort, that holds.
    """
    wanted: dict[str, list[tuple[DrumLacks, Want]]] = {}
    for one in drums:
        for want in one.wants.lines:
            wanted.setdefault(name_key(want.sort.piece), []).append((one, want))
    lie = _lying(shop, job, [wants[0][1].sort for wants in wanted.values()])
    in_box = {name_key(name): count for name, count in stock.items()}
    return tuple(
        _sort_lacking(shop, job, wants, lie.get(key, ()), stock=in_box.get(key, 0))
        for key, wants in wanted.items()
    )


def _sort_lacking(
    shop: Workshop, job: KeptJob, wants: Sequence[tuple[DrumLacks, Want]], lie: Sequence[Lying], *,
    stock: int,
) -> SortLacking:  # fmt: skip
    aside: Counter[str] = Counter()
    for one in lie:
        aside.update(one.stock.set_aside)
    whole = key_of(job.id)
    keys = {key_of(job.id, drum.drum) for drum, _ in wants}
    fitted = {key: sum(one.used_for(key) for one in lie) for key in keys}
    lacks = []
    for drum, want in wants:
        # A drum may want a sort twice, as one of the book and as one that only its count knows.
        key = key_of(job.id, drum.drum)
        used = min(want.count, fitted[key])
        put_by = min(want.count - used, aside[key])
        of_job = min(want.count - used - put_by, aside[whole])
        fitted[key] -= used
        aside.subtract({key: put_by, whole: of_job})
        lacks.append(
            Lack(drum=drum.drum, name=drum.name, want=want, used=used, aside=put_by + of_job)
        )
    return SortLacking(
        sort=wants[0][1].sort,
        lacks=tuple(lacks),
        stock=0 if lie else stock,
        offered=tuple(one for one in lie if one.stock.free > 0),
        bins=tuple(dict.fromkeys(one.kept.piece.bin for one in lie if _its(one, {*keys, whole}))),
        elsewhere=tuple((said(shop, key), n) for key, n in aside.items() if n and key != whole),
    )


def _its(one: Lying, keys: Collection[str]) -> bool:
    """Tell whether a piece lies in a bin, free or set aside for one of these."""
    there = one.stock.free > 0 or any(key in keys for key in one.stock.set_aside)
    return bool(one.kept.piece.bin) and there


def _lying(shop: Workshop, job: KeptJob, sorts: Iterable[Sort]) -> dict[str, tuple[Lying, ...]]:
    """Return the pieces of these sorts by ``name_key``: by their entry, else by what they say."""
    names = tuple(sort.piece for sort in sorts)
    with shop.store.reading() as connection:
        mark = shelf_mark(connection)
    found: dict[str, tuple[Lying, ...]] = shop.remembered.get(
        ("lying for a job", mark, names, client_of(job)),
        lambda: _looked_up(shop, names, client=client_of(job)),
    )
    return found


def _looked_up(
    shop: Workshop, names: Sequence[str], *, client: str
) -> dict[str, tuple[Lying, ...]]:
    keys = {name_key(name) for name in names}
    said: dict[str, list[Kept]] = {}
    for kept in known_pieces(shop):
        piece = kept.piece
        if not piece.fitting and (key := name_key(piece.says)) in keys and piece.may_serve(client):
            said.setdefault(key, []).append(kept)
    with shop.store.reading() as connection:
        found = dict(pieces_that_are(connection, names, client=client))
        for key, pieces in said.items():
            found[key] = (*found.get(key, ()), *(lying(connection, one) for one in pieces))
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class PutBy:
    """Pieces that are set aside for a job.

    Attributes
    ----------
    key : str
        For a drum of it or for the job as a whole, as ``whose.key_of`` has it.
    says : str
        The same in words.
    lies : Lying
    count : int
    """

    key: str
    says: str
    lies: Lying
    count: int


def put_by(shop: Workshop, job: KeptJob) -> tuple[PutBy, ...]:
    """Return what is set aside for a job, drum by drum, last what is for the job as a whole."""
    names = {key_of(job.id, drum.id): drum.name for drum in (*job.drums, *job.hidden_drums)}
    order = {key: place for place, key in enumerate(names)}
    with shop.store.reading() as connection:
        found = [
            PutBy(
                key=one.job,
                says=names.get(one.job, "the job as a whole"),
                lies=lying(connection, one.kept),
                count=one.count,
            )
            for one in set_aside_in(connection, job.id)
        ]
    return tuple(sorted(found, key=lambda one: order.get(one.key, len(order))))

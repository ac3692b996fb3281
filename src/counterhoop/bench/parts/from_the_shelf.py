"""Which parts of a scheme the shelf has, which pieces they are, and what is left to find."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.shelf.of_fittings import Lying, pieces_that_are
from counterhoop.bench.shelf.whose import client_of, key_of, parted, said
from counterhoop.bench.workshop import Workshop
from counterhoop.fittings.book import name_key
from counterhoop.parts.piece import Piece
from counterhoop.scheme.phrases import listed
from counterhoop.scheme.plan import PartLine, Scheme
from counterhoop.store.shelf.look_up import Kept
from counterhoop.store.shelf.mark import shelf_mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Elsewhere:
    """So many are promised to another drum or job."""

    key: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class FromShelf:
    """One part of a scheme, and what the shelf has of it.

    Attributes
    ----------
    part : PartLine
    pieces : tuple of (Kept, int)
        Which pieces serve, and how many of each, in the order in which they came. What is set
        aside for this drum or its job serves first, then what is free, the client's own before
        the shop's.
    to_take : tuple of (Kept, int)
        Of these the free ones, that taking the scheme sets aside.
    aside : int
        How many of these are set aside for the drum or its job already.
    used : int
        How many were fitted already.
    short : int
        How many are left to find or buy.
    elsewhere : tuple of Elsewhere
        For whom others of it are set aside; only where some are short.
    sets : tuple of Kept
        Matched sets with free pieces that are not parted for so few; only where some are short.
    """

    part: PartLine
    pieces: tuple[tuple[Kept, int], ...] = ()
    to_take: tuple[tuple[Kept, int], ...] = ()
    aside: int = 0
    used: int = 0
    short: int = 0
    elsewhere: tuple[Elsewhere, ...] = ()
    sets: tuple[Kept, ...] = ()

    @property
    def here(self) -> int:
        """How many the shelf gives, fitted ones with them."""
        return self.part.count - self.short

    @property
    def on_shelf(self) -> bool:
        """Whether there is anything to say of the shelf."""
        return bool(self.pieces or self.used or self.elsewhere or self.sets)


def served(shop: Workshop, scheme: Scheme, *, job: KeptJob) -> tuple[FromShelf, ...]:
    """Return for each part of a scheme what the shelf has of it.

    Parameters
    ----------
    scheme : Scheme
        Of a drum of this job.
    """
    (found,) = all_served(shop, [scheme], job=job)
    return found


def all_served(
    shop: Workshop, schemes: Sequence[Scheme], *, job: KeptJob
) -> tuple[tuple[FromShelf, ...], ...]:
    """Return ``served`` of several schemes, the shelf looked at once."""
    ids = {drum.name: drum.id for drum in job.drums}
    names, client = {line.name for scheme in schemes for line in scheme.parts}, client_of(job)
    with shop.store.reading() as connection:
        lie = shop.remembered.get(
            ("lies of", frozenset(names), client, shelf_mark(connection)),
            lambda: pieces_that_are(connection, names, client=client),
        )
    return tuple(
        tuple(
            one_served(
                line, lie.get(name_key(line.name), ()), key=key_of(job.id, ids.get(scheme.drum, ""))
            )
            for line in scheme.parts
        )
        for scheme in schemes
    )


def one_served(part: PartLine, lie: Iterable[Lying], *, key: str) -> FromShelf:
    """Return what pieces of one entry give to a part.

    Parameters
    ----------
    key : str
        Of the drum that the part is for.
    """
    lie = tuple(lie)
    whole = parted(key)[0]
    used = min(part.count, sum(one.used_for(key) for one in lie))
    left = part.count - used
    taken: dict[str, int] = {}
    for holder in dict.fromkeys((key, whole)):
        for one in lie:
            count = min(left, one.stock.set_aside.get(holder, 0))
            if count:
                taken[one.kept.piece.id] = taken.get(one.kept.piece.id, 0) + count
                left -= count
    aside = sum(taken.values())
    free: dict[str, int] = {}
    for one in sorted(lie, key=_first_taken):
        count = min(left, one.stock.free)
        if count and not (one.kept.piece.matched_set and one.stock.free > left):
            free[one.kept.piece.id] = count
            left -= count
    both = {name: taken.get(name, 0) + free.get(name, 0) for name in taken | free}
    others: dict[str, int] = {}
    for one in lie:
        for holder, count in one.stock.set_aside.items():
            if holder not in (key, whole):
                others[holder] = others.get(holder, 0) + count
    return FromShelf(
        part=part,
        pieces=_counted(lie, both),
        to_take=_counted(lie, free),
        aside=aside,
        used=used,
        short=left,
        elsewhere=tuple(Elsewhere(key=k, count=n) for k, n in others.items()) if left else (),
        sets=tuple(one.kept for one in lie if left and one.kept.piece.matched_set and _free(one)),
    )


def _counted(lie: Iterable[Lying], counts: Mapping[str, int]) -> tuple[tuple[Kept, int], ...]:
    return tuple(
        (one.kept, counts[one.kept.piece.id]) for one in lie if one.kept.piece.id in counts
    )


def _free(one: Lying) -> bool:
    return one.stock.free > 0


def _first_taken(one: Lying) -> tuple[bool, bool, int, str]:
    """The client's own first, then sets that go whole, then from as few bags as can be."""
    piece = one.kept.piece
    return (not piece.owner, not piece.matched_set, -one.stock.free, piece.number)


def in_words(shop: Workshop, one: FromShelf) -> str:
    """Say what the shelf has of a part, in a sentence."""
    count, name = one.part.count, one.part.name
    where = [_from(kept, taken, alone=len(one.pieces) == 1) for kept, taken in one.pieces]
    fitted = f"{one.used} fitted already" if one.used else ""
    lies = listed([part for part in (fitted, *where) if part] or [""])
    if not one.here:
        says = f"{count} {name}: none free on the shelf"
    elif one.short:
        says = f"{count} {name}: {one.here} on the shelf ({lies}), {one.short} to find or buy"
    else:
        says = f"{count} {name}: {'all ' if count > 1 else ''}on the shelf ({lies})"
    others = [f"{each.count} set aside for {said(shop, each.key)}" for each in one.elsewhere]
    if others:
        says += f"; {listed(others)}"
    for kept in one.sets:
        says += f"; {_number(kept.piece)} is a matched set of {kept.free}, not parted for so few"
    return says + "."


def _from(kept: Kept, count: int, *, alone: bool) -> str:
    piece = kept.piece
    lies = f"bin {piece.bin}, {_number(piece)}" if piece.bin else _number(piece)
    own = f", {piece.owner}'s own: nothing to pay" if piece.owner else ""
    return f"{'' if alone else f'{count} in '}{lies}{own}"


def _number(piece: Piece) -> str:
    return f"number {piece.number}" if piece.number else "a bag without a number"

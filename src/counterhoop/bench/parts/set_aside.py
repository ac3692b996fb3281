"""Take a scheme and set its pieces aside: both, or neither."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from counterhoop.bench.folders.folder import KeptDrum, KeptJob, job_of
from counterhoop.bench.folders.kinds import CHOICE
from counterhoop.bench.folders.write_down import Change, write_change
from counterhoop.bench.parts.from_the_shelf import FromShelf, one_served
from counterhoop.bench.parts.scheme_moves import for_a_scheme, held_for
from counterhoop.bench.shelf.of_fittings import Lying, pieces_that_are
from counterhoop.bench.shelf.whose import client_of, key_of, said
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import CannotDo
from counterhoop.fittings.book import name_key
from counterhoop.parts.movement import Movement
from counterhoop.scheme.plan import PartLine
from counterhoop.store.body import Json
from counterhoop.store.newest import folder_documents
from counterhoop.store.save import Conflict, Saved
from counterhoop.store.shelf.mark import take_the_shelf
from counterhoop.store.shelf.move import move
from counterhoop.store.stamp import Stamp
from counterhoop.store.store import Connection

OVERTAKEN: Final = (
    "Somebody changed what is taken for this drum since you looked, so nothing was written. "
    "Open the page again."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Overtaken:
    """Somebody was faster at the shelf: nothing was taken, nothing set aside.

    Attributes
    ----------
    says : tuple of str
        For each part that is short now: how many, and who has them.
    """

    says: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ToTake:
    """What is to stand as the choice for a drum.

    Attributes
    ----------
    code, title : str
        As ``decide.choose``; no code leaves the drum to the kit and puts its pieces back.
    moved : list
        Rows moved by hand.
    based_on : int
        The revision of the choice that the writer saw.
    parts : sequence of PartLine or None
        What the scheme asks for; None leaves what is set aside as it is.
    seen : mapping of str to int
        How many of a part, by name, the writer was shown as lying on the shelf. Fewer now:
        nothing is taken. A part that is not named is not held against it.
    """

    code: str
    title: str = ""
    moved: list[Json]
    based_on: int
    parts: Sequence[PartLine] | None
    seen: Mapping[str, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shelf:
    """What the shelf has of each part for a key now, and the pieces that it is reckoned from."""

    key: str
    lines: tuple[tuple[FromShelf, tuple[Lying, ...]], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Short:
    shown: int
    now: FromShelf
    lie: tuple[Lying, ...]


def choose_and_set_aside(
    shop: Workshop, job: KeptJob, drum: KeptDrum, to_take: ToTake, *, by: str
) -> Saved | Conflict | Overtaken:
    """Take a scheme for a drum and set aside for it what the shelf has of its parts.

    What was set aside for an earlier scheme and is not asked for any more is put back; what a
    person set aside stays. Choice and movements are kept together or not at all.

    Returns
    -------
    Saved, Conflict or Overtaken
        ``Conflict`` when somebody changed the choice since; ``Overtaken`` when the shelf has less
        than was shown. Nothing was kept then.
    """
    body: dict[str, Json] = {"scheme": to_take.code} if to_take.code else {}
    if to_take.code and to_take.title:
        body["title"] = to_take.title
    if to_take.code and to_take.moved:
        body["moved"] = to_take.moved
    change = Change(kind=CHOICE, name=drum.id, value=body, based_on=to_take.based_on)
    stamp, key = shop.stamp(by), key_of(job.id, drum.id)
    with shop.store.writing() as connection:
        if to_take.parts is None:
            return write_change(connection, job.id, change, stamp=stamp)
        take_the_shelf(connection)
        shelf = _shelf(connection, job, key=key, parts=to_take.parts)
        short = tuple(_short(shelf, seen=to_take.seen))
        if not short:
            done = write_change(connection, job.id, change, stamp=stamp)
            if isinstance(done, Saved):
                _settle(connection, job, shelf, stamp=stamp)
            return done
    return Overtaken(says=tuple(_told(shop, one, key=key) for one in short))


def set_aside(
    shop: Workshop, job: KeptJob, drum: KeptDrum, *, parts: Sequence[PartLine], by: str
) -> None:
    """Bring what is set aside for a drum in step with the scheme that is taken for it.

    Parameters
    ----------
    drum : KeptDrum
        As it was read when the scheme was looked up.

    Raises
    ------
    CannotDo
        When somebody changed since what is taken for it: nothing was moved.
    """
    with shop.store.writing() as connection:
        take_the_shelf(connection)
        now = job_of(job.id, folder_documents(connection, job.id)).drum(drum.id)
        if now.kept(CHOICE).number != drum.kept(CHOICE).number:
            raise CannotDo(OVERTAKEN)
        shelf = _shelf(connection, job, key=key_of(job.id, drum.id), parts=parts)
        _settle(connection, job, shelf, stamp=shop.stamp(by))


def _shelf(connection: Connection, job: KeptJob, *, key: str, parts: Sequence[PartLine]) -> _Shelf:
    lie = pieces_that_are(connection, [line.name for line in parts], client=client_of(job))
    found = [(line, lie.get(name_key(line.name), ())) for line in parts]
    return _Shelf(
        key=key, lines=tuple((one_served(line, its, key=key), its) for line, its in found)
    )


def _short(shelf: _Shelf, *, seen: Mapping[str, int]) -> Iterator[_Short]:
    """Yield the parts of which less is there than was shown."""
    for now, lie in shelf.lines:
        shown = min(seen.get(now.part.name, 0), now.part.count)
        if now.here < shown:
            yield _Short(shown=shown, now=now, lie=lie)


def _settle(connection: Connection, job: KeptJob, shelf: _Shelf, *, stamp: Stamp) -> None:
    """Set aside what is asked for and free; put back what schemes set aside beyond it."""
    key, client = shelf.key, client_of(job)
    moves: list[Movement] = []
    surplus: dict[str, int] = {}
    for now, lie in shelf.lines:
        moves += [
            for_a_scheme("set aside", kept, count, key=key, client=client, stamp=stamp)
            for kept, count in now.to_take
        ]
        held = sum(one.stock.set_aside.get(key, 0) for one in lie)
        surplus[name_key(now.part.name)] = max(0, held - now.aside)
    for one in reversed(held_for(connection, key)):
        name = name_key(one.kept.piece.fitting)
        mine = one.by_scheme(key)
        count = min(mine, surplus.get(name, mine))
        if count:
            surplus[name] = surplus.get(name, mine) - count
            moves.append(
                for_a_scheme("put back", one.kept, count, key=key, client=client, stamp=stamp)
            )
    for each in moves:
        move(connection, each)


def _told(shop: Workshop, short: _Short, *, key: str) -> str:
    """Say how many are gone, and where they went since."""
    part, lost = short.now.part, short.shown - short.now.here
    last = max(
        (one for each in short.lie for one in each.moved if _takes_away(one, key)),
        key=lambda one: one.on,
        default=None,
    )
    says = f"{part.name}: the one that lay there is gone"
    if short.shown > 1:
        gone = "1 is gone" if lost == 1 else f"{lost} are gone"
        says = f"{part.name}: of the {short.shown} that lay there {gone}"
    if last is None:
        return f"{says}."
    if last.kind == "set aside":
        return f"{says}, set aside for {said(shop, last.job)} by {last.bench}."
    return f"{says}: {last.kind} by {last.bench}."


def _takes_away(one: Movement, key: str) -> bool:
    return one.job != key and one.kind in ("set aside", "used", "sold", "scrapped", "counted")

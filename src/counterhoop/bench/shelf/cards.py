"""Pieces of the shelf: found, read, written, moved."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from functools import partial
from typing import Any, Literal

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.shelf.whose import client_of, parted, said
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.parts.asked import Asked, asked
from counterhoop.parts.movement import Movement, MovementKind
from counterhoop.parts.piece import Piece
from counterhoop.parts.stock import Stock, stock
from counterhoop.store.shelf.find import Found, find
from counterhoop.store.shelf.look_up import Kept, Said, history_of_piece, piece_by_id
from counterhoop.store.shelf.move import move, movements_of
from counterhoop.store.shelf.numbers import is_number_taken, last_number_like, newest_number
from counterhoop.store.shelf.photographs import Photograph, photographs_of_piece
from counterhoop.store.shelf.put import PieceConflict, put_piece
from counterhoop.store.store import Connection

MOST_SHOWN = 50
FIRST_NUMBER = "0001"
FIXED = ("id", "count", "owner")
"""What is written once: it changes by movements, or not at all."""
_FIELDS = frozenset(one.name for one in fields(Piece)) - {"id"}
_NUMBER_TYPED = re.compile(r"([^\W\d_]*)[-./ ]?([0-9]{1,9})")
_COUNTED_UP = re.compile(r"(.*?)([0-9]{1,9})", re.DOTALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfFound:
    """What a search came to.

    Attributes
    ----------
    asked : Asked
        How the line was read, and what could not be.
    found : tuple of Found
        The likeliest first.
    """

    asked: Asked
    found: tuple[Found, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """Everything that is known of a piece.

    Attributes
    ----------
    kept : Kept
        What is written on it now.
    stock : Stock
        How many there are, and for whom some are set aside.
    movements : tuple of Movement
        Oldest first.
    history : tuple of Said
        Everything that was ever written on it, oldest first.
    photographs : tuple of Photograph
        Those that are put away too.
    """

    kept: Kept
    stock: Stock
    movements: tuple[Movement, ...]
    history: tuple[Said, ...]
    photographs: tuple[Photograph, ...] = ()


def find_pieces(
    shop: Workshop, text: str, *, units: Literal["mm", "in"], only_free: bool = False,
    client: str | None = None, limit: int = MOST_SHOWN,
) -> ShelfFound:  # fmt: skip
    """Find pieces by one line of words and measurements; the newest ones for an empty line.

    Parameters
    ----------
    text : str
        As ``parts.asked`` reads it.
    units : {"mm", "in"}
        What a length is in that has no unit.
    only_free : bool
        Leaves out pieces of which none can be promised.
    client : str, optional
        Leaves out pieces of other clients than this one.
    limit : int
        How many at most.

    Raises
    ------
    BadInput
        For more than the shelf can answer at once.
    """
    read = asked(text, units=units)
    with shop.store.reading() as connection:
        search = partial(find, connection, client=client, only_free=only_free, limit=limit)
        found = search(words=read.words, measures=read.measures)
        if number := number_meant(text, like=newest_number(connection)):
            by_number = [one for one in search(words=[number]) if one.kept.piece.number == number]
            others = [one for one in found if one.kept.piece.number != number]
            found = tuple([*by_number, *others][:limit])
    return ShelfFound(asked=read, found=found)


def number_meant(text: str, *, like: str) -> str:
    """Return the number of a bag that a line is, as this shelf writes them; empty for any other.

    Parameters
    ----------
    text : str
        What was typed.
    like : str
        The newest number of the shelf.

    Examples
    --------
    >>> number_meant("w53", like="W-061"), number_meant("42", like="0107")
    ('W-053', '0042')
    >>> number_meant("53", like="W-061"), number_meant("W 5 3", like="W-061")
    ('', '')
    """
    typed = _NUMBER_TYPED.fullmatch(text.strip())
    counted = _COUNTED_UP.fullmatch(like)
    if typed is None or counted is None:
        return ""
    letters = "".join(sign for sign in counted[1] if sign.isalnum())
    if typed[1].casefold() != letters.casefold():
        return ""
    return f"{counted[1]}{int(typed[2]):0{len(counted[2])}d}"


def card_of(shop: Workshop, piece_id: str) -> Card:
    """Return everything that is known of a piece.

    Raises
    ------
    BadInput
        When there is no such piece.
    """
    with shop.store.reading() as connection:
        kept = piece_by_id(connection, piece_id)
        movements = movements_of(connection, piece_id)
        history = history_of_piece(connection, piece_id)
        photographs = photographs_of_piece(connection, piece_id, with_hidden=True)
    return Card(
        kept=kept, stock=stock(movements, owner=kept.piece.owner), movements=movements,
        history=history, photographs=photographs,
    )  # fmt: skip


def write_piece(
    shop: Workshop, piece_id: str | None, fields: Mapping[str, Any], *, based_on: int, by: str
) -> Kept | PieceConflict:
    """Write a piece down, on top of what others wrote elsewhere on it meanwhile.

    Parameters
    ----------
    piece_id : str or None
        None for a new piece.
    fields : mapping
        By the names of ``Piece``; what is not named stays as it is.
    based_on : int
        The ``head`` that the writer saw; 0 for a new piece.
    by : str
        Which bench.

    Returns
    -------
    Kept or PieceConflict
        ``PieceConflict`` when somebody else changed the very same lines: ``mine`` is what theirs
        says with my changes in it.

    Raises
    ------
    BadInput
        For a number that another piece has, or a change that only a movement makes.
    """
    unknown = fields.keys() - _FIELDS
    assert not unknown, f"a piece has no {unknown}"
    stamp = shop.stamp(by)
    with shop.store.writing() as connection:
        if piece_id is None:
            return put_piece(
                connection, Piece(**{"id": "", "number": "", **fields}), based_on=0, stamp=stamp
            )
        theirs = piece_by_id(connection, piece_id)
        seen = _seen(connection, piece_id, based_on)
        mine = {
            name: value for name, value in fields.items() if getattr(seen, name) != value
        }  # fmt: skip
        merged = replace(theirs.piece, **mine)
        apart = [
            name for name, value in mine.items()
            if getattr(theirs.piece, name) not in (getattr(seen, name), value)
        ]  # fmt: skip
        if apart:
            return PieceConflict(mine=merged, theirs=theirs)
        if merged == theirs.piece:
            return theirs
        return put_piece(connection, merged, based_on=theirs.head, stamp=stamp)


def move_piece(
    shop: Workshop, piece_id: str, kind: MovementKind, *, count: int, job: str = "",
    corrects: str = "", release: str = "", why: str = "", mark: str = "", by: str,
) -> Stock:  # fmt: skip
    """Write down that a piece moved, and return how many there are now.

    Parameters
    ----------
    kind : MovementKind
        What happened.
    count : int
        How many; of a count, how many lie there.
    job : str
        For which drum or job, as ``whose.key_of`` names it.
    corrects, release, why : str
        As ``Movement`` has them.
    mark : str
        Of the form: sent twice, it moves once.
    by : str
        Which bench.

    Raises
    ------
    BadInput
        When fewer are free, or the client whose it is bars it.
    """
    client = _client(shop, job) if job else ""
    with shop.store.writing() as connection:
        if kind == "given back":
            client = piece_by_id(connection, piece_id).piece.owner
        moved = Movement(
            piece_id=piece_id, kind=kind, count=count, on=shop.now(), job=job, client=client,
            bench=by, corrects=corrects, release=release, why=why,
        )  # fmt: skip
        try:
            return move(connection, moved, mark=mark)
        except BadInput as fault:
            raise _in_words(shop, fault, job) if job else fault from None


def next_number(shop: Workshop) -> str:
    """Return the number to offer for a new bag: one more than the shop's last of its kind."""
    with shop.store.reading() as connection:
        counted = _COUNTED_UP.fullmatch(newest_number(connection))
        if counted is None:
            number = FIRST_NUMBER
        else:
            front, digits = counted[1], counted[2]
            last = last_number_like(connection, front, digits=len(digits))
            number = _one_more(front, last or digits)
        while is_number_taken(connection, number):
            counted = _COUNTED_UP.fullmatch(number)
            assert counted is not None
            number = _one_more(counted[1], counted[2])
    return number


def _one_more(front: str, digits: str) -> str:
    return f"{front}{int(digits) + 1:0{len(digits)}d}"


def _seen(connection: Connection, piece_id: str, based_on: int) -> Piece:
    for one in history_of_piece(connection, piece_id):
        if one.number == based_on:
            return one.piece
    raise BadInput("not one of its versions", where="piece", given=based_on)


def _in_words(shop: Workshop, fault: BadInput, job: str) -> BadInput:
    """Return a fault with the job's key said as its number and drum."""
    what, given = (
        text.replace(job, said(shop, job)) if isinstance(text, str) else text
        for text in (fault.what, fault.given)
    )
    return BadInput(str(what), where=fault.where, given=given, wanted=fault.wanted, step=fault.step)


def _client(shop: Workshop, job: str) -> str:
    job_id, drum_id = parted(job)
    kept = kept_job(shop, job_id)
    if drum_id:
        kept.drum(drum_id)
    return client_of(kept)

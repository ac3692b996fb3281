"""How the drum was found: settled once, afterwards only corrected, with date and reason."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, select, update

from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.body import Json, read_body, write_body
from counterhoop.store.insert_unless_there import insert_unless_there
from counterhoop.store.plain_text import plain_text
from counterhoop.store.pointer import NOTHING, Nothing, value_at, with_value
from counterhoop.store.revision import Document, document_by_id, newest, revision_of
from counterhoop.store.save import Conflict, Saved, add_revision
from counterhoop.store.stamp import Stamp, read_time
from counterhoop.store.tables import correction, document, revision


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """One value that was written down wrongly, and the right one beside it.

    Attributes
    ----------
    number : int
        The revision that it made.
    pointer : str
        Where the value stands in the body.
    old, new : Json or Nothing
        ``NOTHING`` where nothing stood before, or where it was taken away.
    why : str
        The reason.
    """

    number: int
    pointer: str
    old: Json | Nothing
    new: Json | Nothing
    why: str
    made_at: dt.datetime
    bench: str


def settle_as_found(connection: Connection, *, document_id: str, number: int) -> Document:
    """Say that the newest revision is how the drum was found; this cannot be taken back.

    Raises
    ------
    BadInput
        When that revision is not the newest one.
    CannotDo
        When it has been settled before.
    """
    found = document_by_id(connection, document_id)
    if found.as_found is not None:
        raise CannotDo("How the drum was found has been settled already: write a correction.")
    settled = connection.execute(
        update(document)
        .where(document.c.id == document_id, document.c.head == number)
        .where(document.c.as_found.is_(None))
        .values(as_found=number)
    )
    if settled.rowcount != 1:
        raise BadInput(
            "not the newest version", where="revision", given=number, wanted=str(found.head),
            step="Look at the newest one first",
        )  # fmt: skip
    return document_by_id(connection, document_id)


def correct(
    connection: Connection,
    *,
    document_id: str,
    pointer: str,
    new: Json | Nothing,
    why: str,
    based_on: int,
    stamp: Stamp,
    original: bytes | None = None,
) -> Saved | Conflict:
    """Correct one value of how the drum was found; the old one stays on record.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.writing``.
    pointer : str
        The place, such as "/drums/0/depth".
    new : Json or Nothing
        What should have stood there; ``NOTHING`` when it should not be there.
    why : str
        The reason, as one would tell a colleague.
    original : bytes, optional
        The file as it reads now, where the document came from one.

    Raises
    ------
    BadInput
        For a place that is not there, a value that already stands there, or no reason.
    CannotDo
        When it is not settled yet how the drum was found: then it is simply saved.
    """
    plain_text(why, where="why")
    found = document_by_id(connection, document_id)
    if found.as_found is None:
        raise CannotDo("It is not settled yet how the drum was found: change it and save.")
    before = revision_of(connection, document_id=document_id, number=based_on)
    old = value_at(before.body, pointer)
    if _written(old) == _written(new):
        raise BadInput("that is what stands there", where=pointer, given=_written(new))
    body = with_value(before.body, pointer, new)
    done = add_revision(
        connection, found, body=body, based_on=based_on, stamp=stamp, original=original
    )
    if isinstance(done, Saved):
        # One that comes a second time, its answer lost, is on record already.
        row = {"document_id": document_id, "number": done.revision.number, "pointer": pointer}
        row |= {"old": _written(old), "new": _written(new), "why": why}
        insert_unless_there(connection, correction, row)
    return done


def corrections_of(connection: Connection, document_id: str) -> tuple[Correction, ...]:
    """Return the corrections of a document, oldest first."""
    made = revision.c.made_at, revision.c.bench
    rows = connection.execute(
        select(correction, *made)
        .join(revision)
        .where(correction.c.document_id == document_id)
        .order_by(correction.c.number)
    )
    return tuple(
        Correction(
            number=row.number,
            pointer=row.pointer,
            old=_read(row.old),
            new=_read(row.new),
            why=row.why,
            made_at=read_time(row.made_at),
            bench=row.bench,
        )
        for row in rows
    )


def moved_without_correction(connection: Connection, found: Document) -> bool:
    """Tell whether a settled document says anything that its corrections do not account for."""
    if found.as_found is None:
        return False
    body = revision_of(connection, document_id=found.id, number=found.as_found).body
    for one in corrections_of(connection, found.id):
        if _written(value_at(body, one.pointer)) != _written(one.old):
            return True
        body = with_value(body, one.pointer, one.new)
    return write_body(body) != write_body(newest(connection, found).body)


def _written(value: Json | Nothing) -> str | None:
    return None if isinstance(value, Nothing) else write_body(value)


def _read(text: str | None) -> Json | Nothing:
    return NOTHING if text is None else read_body(text)

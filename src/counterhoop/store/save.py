"""Save a document: always a new revision, never over one that the writer has not seen."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import Connection, insert, update

from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.body import Json, hash_of, new_id, read_body, write_body
from counterhoop.store.insert_unless_there import insert_unless_there
from counterhoop.store.plain_text import plain_text
from counterhoop.store.revision import (
    Document,
    Revision,
    document_by_id,
    find_document,
    newest,
    revision_of,
)
from counterhoop.store.stamp import Stamp
from counterhoop.store.tables import document, revision


@dataclass(frozen=True, slots=True, kw_only=True)
class Saved:
    """It is kept, as this revision, once the writing block has been left."""

    revision: Revision


@dataclass(frozen=True, slots=True, kw_only=True)
class Conflict:
    """Somebody else saved first: nothing was kept, and the person chooses.

    Attributes
    ----------
    mine : Json
        What was to be saved.
    theirs : Revision
        What is there now; a save that is based on its number goes through.
    base : Revision or None
        What both began from; None when both began from nothing.
    """

    mine: Json
    theirs: Revision
    base: Revision | None


def save(
    connection: Connection,
    *,
    job_id: str | None,
    kind: str,
    name: str = "",
    body: Json,
    based_on: int,
    stamp: Stamp,
    original: bytes | None = None,
) -> Saved | Conflict:
    """Save a document as a new revision.

    A save that comes a second time, because the answer to the first was lost on its way, is found
    again and not doubled.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.writing``.
    job_id, kind, name :
        Where it lies and what it is; made when it is not there. Without a job it is the workshop's.
    body : Json
        What it says.
    based_on : int
        Number of the revision that the writer saw; 0 for a new document.
    stamp : Stamp
        When and where.
    original : bytes, optional
        The file that the body was read from.

    Returns
    -------
    Saved or Conflict

    Raises
    ------
    CannotDo
        When the document says how a drum was found: that is corrected, not overwritten.
    """
    plain_text(kind, where="kind")
    plain_text(name, where="name", may_be_empty=True)
    _begin(connection, job_id=job_id, kind=kind, name=name)
    found = find_document(connection, job_id=job_id, kind=kind, name=name)
    assert found is not None
    if found.as_found is not None:
        raise CannotDo(
            "This is how the drum was found, and it stays so."
            " Write a correction: it keeps the old value and says why."
        )
    return add_revision(
        connection, found, body=body, based_on=based_on, stamp=stamp, original=original
    )


def add_revision(
    connection: Connection,
    found: Document,
    *,
    body: Json,
    based_on: int,
    stamp: Stamp,
    original: bytes | None = None,
    chosen_from: int | None = None,
) -> Saved | Conflict:
    """Put a revision on top of the one that the writer saw, if it still is the newest."""
    text = write_body(body)
    digest = hash_of(text, original)
    # One statement decides who was first, on either database.
    moved = connection.execute(
        update(document)
        .where(document.c.id == found.id, document.c.head == based_on)
        .values(head=based_on + 1, changed_at=stamp.written)
    )
    if moved.rowcount != 1:
        return _too_late(
            connection, found, text=text, digest=digest, based_on=based_on, stamp=stamp
        )
    connection.execute(
        insert(revision).values(
            document_id=found.id,
            number=based_on + 1,
            made_at=stamp.written,
            bench=stamp.bench,
            based_on=based_on,
            chosen_from=chosen_from,
            body=text,
            original=original,
            sha256=digest,
        )
    )
    made = revision_of(connection, document_id=found.id, number=based_on + 1)
    return Saved(revision=made)


def _too_late(
    connection: Connection,
    found: Document,
    *,
    text: str,
    digest: str,
    based_on: int,
    stamp: Stamp,
) -> Saved | Conflict:
    now = document_by_id(connection, found.id)
    if not 0 <= based_on <= now.head:
        raise BadInput(
            "no such revision to build on",
            where="based_on",
            given=based_on,
            wanted=f"0 to {now.head}",
        )
    theirs = newest(connection, now)
    again = theirs.based_on == based_on and theirs.bench == stamp.bench
    if again and hash_of(write_body(theirs.body), theirs.original) == digest:
        return Saved(revision=theirs)
    base = revision_of(connection, document_id=found.id, number=based_on) if based_on else None
    return Conflict(mine=read_body(text), theirs=theirs, base=base)


def _begin(connection: Connection, *, job_id: str | None, kind: str, name: str) -> None:
    row = {"id": new_id(), "job_id": job_id, "kind": kind, "name": name, "head": 0}
    insert_unless_there(connection, document, row)

"""Documents and their revisions, as they are read."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, fields
from typing import Any

from sqlalchemy import Connection, select

from counterhoop.errors import BadInput
from counterhoop.store.body import Json, read_body
from counterhoop.store.stamp import read_time
from counterhoop.store.tables import document, revision


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """One thing that is written down in a job folder, or for the whole workshop.

    Attributes
    ----------
    id : str
        Its name for programs.
    job_id : str or None
        The folder that it lies in; None for the workshop's own.
    kind, name : str
        What it is ("survey", "notes") and of what ("small tom"; empty for the whole job).
    head : int
        Number of its newest revision.
    as_found : int or None
        Number of the revision that says how the drum came in, once that is settled.
    """

    id: str
    job_id: str | None
    kind: str
    name: str
    head: int
    as_found: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Revision:
    """One saved version of a document; it never changes.

    Attributes
    ----------
    number, based_on : int
        Its own number, from 1, and that of the version that was on the screen when it was written.
    chosen_from : int or None
        The earlier revision that was chosen again.
    body : Json
        What it says.
    original : bytes or None
        The file that it was read from, byte for byte.
    """

    document_id: str
    number: int
    made_at: dt.datetime
    bench: str
    based_on: int
    chosen_from: int | None
    body: Json
    original: bytes | None


DOCUMENT_COLUMNS = tuple(document.c[field.name] for field in fields(Document))
REVISION_COLUMNS = tuple(revision.c[field.name] for field in fields(Revision))


def find_document(
    connection: Connection, *, job_id: str | None, kind: str, name: str = ""
) -> Document | None:
    """Return a document by where it lies and what it is, or None before its first save."""
    row = connection.execute(
        select(*DOCUMENT_COLUMNS).where(
            document.c.job_id == job_id if job_id is not None else document.c.job_id.is_(None),
            document.c.kind == kind,
            document.c.name == name,
        )
    ).first()
    return None if row is None else document_in_row(row)


def documents_of(connection: Connection, *, job_id: str | None) -> tuple[Document, ...]:
    """Return all documents of a folder, or of the workshop, by kind and name."""
    lies = document.c.job_id == job_id if job_id is not None else document.c.job_id.is_(None)
    found = [
        document_in_row(row) for row in connection.execute(select(*DOCUMENT_COLUMNS).where(lies))
    ]
    # Sorted here: databases do not agree on the order of texts.
    return tuple(sorted(found, key=lambda one: (one.kind, one.name)))


def document_by_id(connection: Connection, document_id: str) -> Document:
    """Return a document.

    Raises
    ------
    BadInput
        When there is none of that name.
    """
    row = connection.execute(select(*DOCUMENT_COLUMNS).where(document.c.id == document_id)).first()
    if row is None:
        raise BadInput("no such document", where="document", given=document_id)
    return document_in_row(row)


def revision_of(connection: Connection, *, document_id: str, number: int) -> Revision:
    """Return one revision.

    Raises
    ------
    BadInput
        When the document has no such revision.
    """
    row = connection.execute(
        select(*REVISION_COLUMNS).where(
            revision.c.document_id == document_id, revision.c.number == number
        )
    ).first()
    if row is None:
        raise BadInput("no such revision", where="revision", given=number)
    return revision_in_row(row)


def newest(connection: Connection, found: Document) -> Revision:
    """Return what a document says now."""
    return revision_of(connection, document_id=found.id, number=found.head)


def history_of(connection: Connection, document_id: str) -> tuple[Revision, ...]:
    """Return all revisions of a document, oldest first."""
    rows = connection.execute(
        select(*REVISION_COLUMNS)
        .where(revision.c.document_id == document_id)
        .order_by(revision.c.number)
    )
    return tuple(revision_in_row(row) for row in rows)


def document_in_row(row: Sequence[Any]) -> Document:
    """Return the document of a row of ``DOCUMENT_COLUMNS``."""
    document_id, job_id, kind, name, head, as_found = row
    return Document(
        id=document_id, job_id=job_id, kind=kind, name=name, head=head, as_found=as_found
    )


def revision_in_row(row: Sequence[Any]) -> Revision:
    """Return the revision of a row of ``REVISION_COLUMNS``."""
    document_id, number, made_at, bench, based_on, chosen_from, body, original = row
    return Revision(
        document_id=document_id,
        number=number,
        made_at=read_time(made_at),
        bench=bench,
        based_on=based_on,
        chosen_from=chosen_from,
        body=read_body(body),
        original=original,
    )

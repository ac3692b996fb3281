"""What documents say now: many at once, in one query, each with whether it is hidden."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Row, Select, func, select

from counterhoop.store.hide import Thing, is_hidden
from counterhoop.store.revision import (
    DOCUMENT_COLUMNS,
    REVISION_COLUMNS,
    Document,
    Revision,
    document_in_row,
    revision_in_row,
)
from counterhoop.store.tables import document, revision

_DOCUMENT = len(DOCUMENT_COLUMNS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Newest:
    """A document, its newest revision, and whether it has been put out of sight.

    Attributes
    ----------
    document : Document
        Where it lies and what it is.
    revision : Revision
        What it says now.
    hidden : bool
        Whether the document itself is hidden; its folder may be so besides.
    """

    document: Document
    revision: Revision
    hidden: bool


def folder_documents(connection: Connection, job_id: str | None) -> tuple[Newest, ...]:
    """Return all that is written down in one folder, hidden or not, by kind and name.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.reading`` or ``Store.writing``.
    job_id : str or None
        The folder; None for the workshop's own documents. A folder that is not there holds none.
    """
    lies = document.c.job_id == job_id if job_id is not None else document.c.job_id.is_(None)
    return _found(connection, _newest().where(lies))


def newest_bodies(
    connection: Connection, *, kinds: Sequence[str], job_ids: Sequence[str] | None = None
) -> tuple[Newest, ...]:
    """Return what documents of some kinds say now, over many folders, by folder, kind and name.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.reading`` or ``Store.writing``.
    kinds : sequence of str
        The kinds that are wanted, such as ("job", "choice").
    job_ids : sequence of str, optional
        The folders, hidden or not; left out, every folder that is not hidden.
    """
    wanted = _newest().where(document.c.kind.in_(kinds), document.c.job_id.is_not(None))
    if job_ids is None:
        wanted = wanted.where(~is_hidden(Thing.JOB, document.c.job_id))
    else:
        wanted = wanted.where(document.c.job_id.in_(job_ids))
    return _found(connection, wanted)


def hidden_documents(connection: Connection) -> tuple[Document, ...]:
    """Return the documents that are out of sight by themselves, of all folders."""
    wanted = select(*DOCUMENT_COLUMNS).where(is_hidden(Thing.DOCUMENT, document.c.id))
    return tuple(document_in_row(row) for row in connection.execute(wanted).all())


def last_benches(connection: Connection, *, job_ids: Sequence[str]) -> dict[str, str]:
    """Return the bench that saved last in each of some folders."""
    is_head = (revision.c.document_id == document.c.id) & (revision.c.number == document.c.head)
    last = (
        select(document.c.job_id, func.max(document.c.changed_at).label("at"))
        .where(document.c.job_id.in_(job_ids))
        .group_by(document.c.job_id)
        .subquery()
    )
    is_last = (document.c.job_id == last.c.job_id) & (document.c.changed_at == last.c.at)
    wanted = (
        select(document.c.job_id, revision.c.bench)
        .join(last, is_last)
        .join(revision, is_head)
        .order_by(document.c.id)
    )
    return {str(row.job_id): str(row.bench) for row in connection.execute(wanted)}


def _newest() -> Select[Any]:
    hidden = is_hidden(Thing.DOCUMENT, document.c.id).label("hidden")
    is_head = (revision.c.document_id == document.c.id) & (revision.c.number == document.c.head)
    return select(*DOCUMENT_COLUMNS, *REVISION_COLUMNS, hidden).join(revision, is_head)


def _found(connection: Connection, wanted: Select[Any]) -> tuple[Newest, ...]:
    found = [_one(row) for row in connection.execute(wanted).all()]
    # Sorted here: databases do not agree on the order of texts.
    found.sort(key=lambda one: (one.document.job_id or "", one.document.kind, one.document.name))
    return tuple(found)


def _one(row: Row[Any]) -> Newest:
    return Newest(
        document=document_in_row(row[:_DOCUMENT]),
        revision=revision_in_row(row[_DOCUMENT:-1]),
        hidden=bool(row[-1]),
    )

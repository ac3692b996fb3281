"""Job folders: opening one, and the list of them."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, func, insert, select

from counterhoop.errors import BadInput
from counterhoop.store.body import Json, new_id, read_body
from counterhoop.store.hide import Thing, is_hidden
from counterhoop.store.plain_text import plain_text
from counterhoop.store.save import save
from counterhoop.store.stamp import Stamp, read_time
from counterhoop.store.tables import document, job, revision

LABEL = "label"
"""The kind of the document that says what is written on a folder."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JobFolder:
    """A job folder as it stands on the shelf.

    Attributes
    ----------
    id : str
        Its name for programs.
    label : dict
        What is written on it: "title", and whatever else was saved with it.
    opened_at, opened_by :
        When, at which bench.
    changed_at : datetime.datetime
        When anything in it was last saved.
    hidden : bool
        Whether it has been put out of sight.
    """

    id: str
    label: dict[str, Json]
    opened_at: dt.datetime
    opened_by: str
    changed_at: dt.datetime
    hidden: bool

    @property
    def title(self) -> str:
        """What one calls the job."""
        return str(self.label.get("title", ""))


def open_job(connection: Connection, *, title: str, stamp: Stamp) -> str:
    """Open a folder and return its name for programs.

    The label is a document like the others: a new title is a new revision of it.
    """
    plain_text(title, where="title")
    job_id = new_id()
    connection.execute(
        insert(job).values(id=job_id, opened_at=stamp.written, opened_by=stamp.bench)
    )
    label: Json = {"title": title}
    save(connection, job_id=job_id, kind=LABEL, body=label, based_on=0, stamp=stamp)
    return job_id


def job_folders(connection: Connection, *, with_hidden: bool = False) -> tuple[JobFolder, ...]:
    """Return the folders, the last changed first."""
    found = _folders(connection)
    return tuple(folder for folder in found if with_hidden or not folder.hidden)


def job_folder(connection: Connection, job_id: str) -> JobFolder:
    """Return one folder, hidden or not.

    Raises
    ------
    BadInput
        When there is none of that name.
    """
    for folder in _folders(connection, only=job_id):
        return folder
    raise BadInput("no such job", where="job", given=job_id)


def _folders(connection: Connection, *, only: str | None = None) -> list[JobFolder]:
    other = document.alias()
    changed_at = (
        select(func.max(other.c.changed_at)).where(other.c.job_id == job.c.id).scalar_subquery()
    ).label("changed_at")
    is_head = (revision.c.document_id == document.c.id) & (revision.c.number == document.c.head)
    wanted = (
        select(job, revision.c.body, changed_at, is_hidden(Thing.JOB, job.c.id).label("hidden"))
        .join(document, (document.c.job_id == job.c.id) & (document.c.kind == LABEL))
        .join(revision, is_head)
        .where(document.c.name == "")
        .order_by(changed_at.desc(), job.c.id)
    )
    if only is not None:
        wanted = wanted.where(job.c.id == only)
    return [
        JobFolder(
            id=row.id,
            label=_label(row.body),
            opened_at=read_time(row.opened_at),
            opened_by=row.opened_by,
            changed_at=read_time(row.changed_at),
            hidden=bool(row.hidden),
        )
        for row in connection.execute(wanted).all()
    ]


def _label(text: str) -> dict[str, Json]:
    body = read_body(text)
    return body if isinstance(body, dict) else {}

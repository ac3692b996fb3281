"""Whether there is such a job: what hangs on one is turned away by a sentence without it."""

from __future__ import annotations

from sqlalchemy import Connection, select

from counterhoop.errors import BadInput
from counterhoop.store.tables import job


def need_job(connection: Connection, job_id: str | None) -> None:
    """Refuse the name of a job that is not there; None is no job, and passes."""
    known = job_id is None or connection.execute(select(job.c.id).where(job.c.id == job_id)).first()
    if not known:
        raise BadInput("no such job", where="job", given=job_id)

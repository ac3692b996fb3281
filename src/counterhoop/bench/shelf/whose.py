"""Whose pieces are: the key of a drum or a job under which they are set aside, and how it reads."""

from __future__ import annotations

from counterhoop.bench.folders.folder import KeptJob, kept_job
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput


def key_of(job_id: str, drum_id: str = "") -> str:
    """Return what pieces are set aside for: a drum of a job, or the job as a whole.

    Examples
    --------
    >>> key_of("4f2a", "9c01"), key_of("4f2a")
    ('4f2a/9c01', '4f2a')
    """
    return f"{job_id}/{drum_id}" if drum_id else job_id


def parted(key: str) -> tuple[str, str]:
    """Return the job and the drum of a key; no drum for the job as a whole.

    Examples
    --------
    >>> parted("4f2a/9c01"), parted("4f2a")
    (('4f2a', '9c01'), ('4f2a', ''))
    """
    job_id, _, drum_id = key.partition("/")
    return job_id, drum_id


def said(shop: Workshop, key: str) -> str:
    """Say for whom pieces are set aside: "job 214, small tom".

    A key of no job here, such as one that came in with rows of another shop, is said as it stands.
    """
    job_id, drum_id = parted(key)
    try:
        return called(kept_job(shop, job_id), drum_id)
    except BadInput:
        return key


def called(job: KeptJob, drum_id: str = "") -> str:
    """Say which drum of a job, or which job, in the words of a page.

    Raises
    ------
    BadInput
        When the job has no such drum.
    """
    number = str(job.job.get("number") or "").strip()
    its = f"job {number}" if number else job.title
    return f"{its}, {job.drum(drum_id).name}" if drum_id else its


def client_of(job: KeptJob) -> str:
    """Return the client of a job as a piece names its owner; empty for the shop's own jobs."""
    return " ".join(str(job.job.get("client") or "").split())

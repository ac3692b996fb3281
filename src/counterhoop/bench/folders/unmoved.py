"""Whether a folder still says what a writer read of it, once the turn to write is theirs."""

from __future__ import annotations

from collections.abc import Container

from counterhoop.bench.folders.folder import KeptJob
from counterhoop.store.revision import documents_of
from counterhoop.store.store import Connection


def has_moved(connection: Connection, job: KeptJob, *, kinds: Container[str]) -> bool:
    """Tell whether somebody saved a document of a job since it was read.

    Parameters
    ----------
    connection : Connection
        Of a block that is writing: what it says stays true to the end of the block.
    job : KeptJob
        As it was read.
    kinds : container of str
        Of the documents that what is written rests on, of the job and of its drums.
    """
    read = {(kind, ""): kept.number for kind, kept in job.documents.items()}
    for drum in (*job.drums, *job.hidden_drums):
        read |= {(kind, drum.id): kept.number for kind, kept in drum.documents.items()}
    return any(
        one.head != read.get((one.kind, one.name), 0)
        for one in documents_of(connection, job_id=job.id)
        if one.kind in kinds
    )

"""For which jobs and drums a piece can be set aside: those that are not handed over."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from counterhoop.bench.folders.first_page import on_the_bench
from counterhoop.bench.folders.folder import job_of
from counterhoop.bench.folders.kinds import JOB, SURVEY
from counterhoop.bench.shelf.whose import called, client_of, key_of
from counterhoop.bench.workshop import Workshop
from counterhoop.store.job_folder import LABEL
from counterhoop.store.mark import store_mark
from counterhoop.store.newest import Newest, hidden_documents, newest_bodies


@dataclass(frozen=True, slots=True, kw_only=True)
class ForWhom:
    """A drum of an open job, or the job as a whole.

    Attributes
    ----------
    key : str
        As ``whose.key_of`` names it.
    says : str
        "job 214, small tom".
    client : str
        Whose job it is, as a piece names its owner.
    """

    key: str
    says: str
    client: str


def for_whom(shop: Workshop, *, owner: str = "") -> tuple[ForWhom, ...]:
    """Return the drums and jobs to choose from, the last changed job first.

    Parameters
    ----------
    owner : str
        The client whose piece it is: it serves no other's jobs. Empty for the shop's own.
    """
    with shop.store.reading() as connection:
        mark = store_mark(connection)
    every: tuple[ForWhom, ...] = shop.remembered.get(("for whom", mark), lambda: _every(shop))
    return tuple(one for one in every if not owner or one.client == owner)


def _every(shop: Workshop) -> tuple[ForWhom, ...]:
    ids = [job.id for job in on_the_bench(shop) if job.state != "handed over"]
    by_job: dict[str, list[Newest]] = defaultdict(list)
    with shop.store.reading() as connection:
        for one in newest_bodies(connection, kinds=(LABEL, JOB), job_ids=ids):
            by_job[one.document.job_id or ""].append(one)
        away = {
            (one.job_id, one.name) for one in hidden_documents(connection) if one.kind == SURVEY
        }
    made = []
    for job_id in ids:
        job = job_of(job_id, by_job[job_id])
        drums = [drum.id for drum in job.drums if (job_id, drum.id) not in away]
        made += [
            ForWhom(key=key_of(job_id, drum), says=called(job, drum), client=client_of(job))
            for drum in (*drums, "")
        ]
    return tuple(made)

"""Everything that is open on the bench: the work of all jobs, and what the shop has for it."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Final

from counterhoop.bench.folders.folder import KeptJob, drawer, kept_job, kept_of
from counterhoop.bench.folders.hand_over import is_handed_over
from counterhoop.bench.folders.kinds import HANDOVER
from counterhoop.bench.long_work.answers import Working
from counterhoop.bench.promise.by_the_log import by_the_log
from counterhoop.bench.promise.hours_open import open_hours
from counterhoop.bench.promise.job_work import JobAsked, work_of_job
from counterhoop.bench.promise.log_said import LogSaid, log_said
from counterhoop.bench.promise.pieces import Cures, JobWork
from counterhoop.bench.promise.promises import Promises, clock_of, promises_of
from counterhoop.bench.promise.setting import Setting
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.schedule.task import Task
from counterhoop.store.job_folder import job_folders
from counterhoop.store.mark import store_mark
from counterhoop.store.newest import newest_bodies
from counterhoop.store.shelf.mark import shelf_mark

REMEMBERED: Final = "bench now"


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenJob:
    """A job that is not handed over: what is left of it and what was promised."""

    kept: KeptJob
    work: JobWork
    promises: Promises

    @property
    def title(self) -> str:
        """What one calls it."""
        return self.kept.title


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchNow:
    """All open jobs.

    Attributes
    ----------
    setting : Setting
    jobs : tuple of OpenJob
        In the order in which their folders were opened.
    log : LogSaid
    working : Working or None
        Schemes of a job that are still worked out.
    unread : tuple of OpenJob
        Jobs whose schemes are still worked out: of these only what the log says is known.
    """

    setting: Setting
    jobs: tuple[OpenJob, ...]
    log: LogSaid = field(default_factory=LogSaid)
    working: Working | None = None
    unread: tuple[OpenJob, ...] = ()

    @property
    def every(self) -> tuple[OpenJob, ...]:
        """All open jobs, those included of which the work is not known yet."""
        return (*self.jobs, *self.unread)

    @property
    def cures(self) -> tuple[tuple[OpenJob, Cures], ...]:
        """What is done and still left alone, what may be touched first first."""
        found = [(job, one) for job in self.every for drum in job.work.drums for one in drum.cures]
        return tuple(sorted(found, key=lambda pair: pair[1].until))

    @property
    def tasks(self) -> tuple[Task, ...]:
        """All work; dust waits for what is still wet from before."""
        wet = max(
            (self.setting.minute(one.until) + 1 for _, one in self.cures if one.wet), default=0
        )
        return tuple(
            replace(task, not_before=max(wet, task.not_before)) if task.air == "dust" else task
            for job in self.jobs
            for task in job.work.tasks
        )

    def job(self, job_id: str) -> OpenJob:
        """Return an open job.

        Raises
        ------
        BadInput
            For one that is handed over, out of sight or not there, and while its schemes are
            worked out.
        """
        for one in self.jobs:
            if one.kept.id == job_id:
                return one
        for one in self.unread:
            if one.kept.id == job_id:
                raise BadInput(
                    "its schemes are just being worked out", where=one.title,
                    step="Try again when they are there",
                )  # fmt: skip
        raise BadInput("no open job", where="job", given=job_id)


def bench_now(shop: Workshop) -> BenchNow:
    """Return all open jobs with what is left of them.

    Read anew only when something was written or moved since, another hour has begun, or schemes
    that came to nothing were asked for again.

    Raises
    ------
    BadInput
        The opening hours cannot be read.
    """
    now = clock_of(shop).replace(minute=0, second=0, microsecond=0)
    with shop.store.reading() as connection:
        mark = (store_mark(connection), shelf_mark(connection), now)
    # Under one key: all open jobs are much to keep, and of another mark never of use again.
    known: tuple[object, BenchNow] | None = shop.remembered.find(REMEMBERED)
    if known is not None and known[0] == mark and _stands(shop, known[1]):
        return known[1]
    found = _read(shop, Setting(now=clock_of(shop), hours=open_hours(shop)))
    if found.working is None:
        shop.remembered.keep(REMEMBERED, (mark, found))
    return found


def _stands(shop: Workshop, bench: BenchNow) -> bool:
    """Tell whether what came to nothing when the bench was read still does."""
    came_to = [job.work.failed for job in bench.jobs if job.work.failed is not None]
    return all(shop.works.state(one.id) == one for one in came_to if one.why != "refused")


def _read(shop: Workshop, setting: Setting) -> BenchNow:
    held, log = drawer(shop), log_said(shop, now=setting.now)
    with shop.store.reading() as connection:
        folders = sorted(job_folders(connection), key=lambda one: (one.opened_at, one.id))
        # After years most jobs are handed over, and of those nothing else is read.
        gone = {
            one.document.job_id
            for one in newest_bodies(connection, kinds=(HANDOVER,))
            if is_handed_over(kept_of(one).table)
        }
    jobs, unread, working = [], [], None
    for folder in folders:
        if folder.id in gone:
            continue
        kept = kept_job(shop, folder.id)
        asked = JobAsked(job=kept, held=held, log=log, setting=setting)
        work = work_of_job(shop, asked)
        if isinstance(work, Working):
            working, its = working or work, by_the_log(shop, asked)
            unread.append(OpenJob(kept=kept, work=its, promises=promises_of(kept)))
        else:
            jobs.append(OpenJob(kept=kept, work=work, promises=promises_of(kept)))
    return BenchNow(
        setting=setting, jobs=tuple(jobs), log=log, working=working, unread=tuple(unread)
    )

"""A job whose schemes are still worked out: what the work log alone says of it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from counterhoop.bench.folders.figures_of_job import figures_of_job
from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.promise.cure_in_room import cure_in_room
from counterhoop.bench.promise.job_work import JobAsked
from counterhoop.bench.promise.pieces import Cures, DrumWork, JobWork
from counterhoop.bench.workshop import Workshop
from counterhoop.shell.operations import Operation, operations_of


def by_the_log(shop: Workshop, asked: JobAsked) -> JobWork:
    """Return a job without its work: its drums, and what on them was done and still cures.

    Holes that were ticked and not clocked belong to a scheme, and are not among these.
    """
    job = asked.job
    book = operations_of(figures_of_job(shop, job, held=asked.held))
    return JobWork(
        job=job.id, title=job.title, number=str(job.job.get("number") or job.title),
        drums=tuple(
            DrumWork(drum=drum.name, cures=tuple(_cures(asked, drum, book))) for drum in job.drums
        ),
        operations=book,
    )  # fmt: skip


def _cures(asked: JobAsked, drum: KeptDrum, book: tuple[Operation, ...]) -> Iterator[Cures]:
    setting, said = asked.setting, asked.log.of(asked.job.id, drum)
    for operation in book:
        its = said.get(operation.name)
        if its is None:
            continue
        minutes, _ = cure_in_room(operation, room_c=setting.hours.room_c)
        cure = dt.timedelta(minutes=minutes)
        # A count that was finished without a number has its time all the same.
        done = its.done or (((1, its.last),) if its.finished and its.last else ())
        fresh = [(count, at + cure) for count, at in done if at + cure > setting.now]
        if fresh:
            yield Cures(
                drum=drum.name, says=operation.name, until=max(until for _, until in fresh),
                clamps=sum(count for count, _ in fresh) * operation.clamps,
                drying=operation.drying, wet=operation.air == "wet",
            )  # fmt: skip

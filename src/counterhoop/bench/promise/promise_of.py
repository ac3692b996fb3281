"""The day to promise for a job: on the face, beneath, and what it takes for granted."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from counterhoop.bench.folders.days import day_written
from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.promise.promises import Promised, promises_of, write_promise
from counterhoop.bench.promise.shop_plan import WORKINGS, ShopPlan, shop_plan
from counterhoop.bench.workshop import Workshop
from counterhoop.job.promise.words import beneath, exactly, on_the_face, still_says
from counterhoop.store.save import Conflict, Saved

if TYPE_CHECKING:
    from counterhoop.job.promise.promise import Promise
    from counterhoop.job.promise.still import Still


@dataclass(frozen=True, slots=True, kw_only=True)
class PromiseTold:
    """The day to promise for a job today.

    Attributes
    ----------
    job, title : str
        Which.
    found : Promise
        The day, its share and how far that may be off.
    face, beneath, exactly : str
        The day in words; what it rests on for the client, and for the workshop.
    promised : Promised or None
        What stands promised already.
    still, holds : str, bool
        How likely that is, in words; whether it is as likely as is asked for.
    assumes : tuple of str
        What the plan takes for granted of this job.
    """

    job: str
    title: str
    found: Promise
    face: str
    beneath: str
    exactly: str
    promised: Promised | None = None
    still: str = ""
    holds: bool = True
    assumes: tuple[str, ...] = ()


def promise_of(
    shop: Workshop, job_id: str, *, limit: float | None = None, count: int = WORKINGS
) -> Answer[PromiseTold]:
    """Return the day to promise for a job, as all open jobs are planned together.

    Parameters
    ----------
    limit, count
        As for ``shop_plan``.

    Raises
    ------
    BadInput
        As ``shop_plan``; for a job that is not open, or of which no work is left or known.
    """
    answer = shop_plan(shop, limit=limit, count=count)
    if isinstance(answer, Working | Failed):
        return answer
    return Done(id=answer.id, value=promise_in(answer.value, job_id))


def promise_in(plan: ShopPlan, job_id: str) -> PromiseTold:
    """Return the day to promise for a job in a plan.

    Raises
    ------
    BadInput
        For a job that is not in it.
    """
    job = plan.bench.job(job_id)
    job.work.need_work()
    found = plan.found.promises[job_id]
    stands = plan.found.still.get(job_id)
    return PromiseTold(
        job=job_id,
        title=job.title,
        found=found,
        face=on_the_face(found),
        beneath=beneath(found),
        exactly=exactly(found),
        promised=job.promises.stands,
        still=_still_says(stands, title=job.title),
        holds=stands is None or stands.holds,
        assumes=job.work.assumes,
    )


def promise_it(
    shop: Workshop, job: KeptJob, *, day: str, to: str, based_on: int, by: str,
    limit: float | None = None, count: int = WORKINGS,
) -> Saved | Conflict:  # fmt: skip
    """Write down that a day was promised, with the share that it had in the plan of the moment.

    Without a plan, or while one is worked out, no share is written.

    Raises
    ------
    BadInput
        As ``write_promise``.
    """
    answer = shop_plan(shop, limit=limit, count=count)
    on = day_written(day)
    share = (
        answer.value.found.share_by(job.id, on)
        if isinstance(answer, Done) and on is not None and job.id in answer.value.found.done_by
        else None
    )
    return write_promise(shop, job, day=day, to=to, share=share, based_on=based_on, by=by)


def job_promised(job: KeptJob) -> dt.date | None:
    """Return the day that stands promised for a job."""
    stands = promises_of(job).stands
    return stands.day if stands else None


def _still_says(stands: Still | None, *, title: str) -> str:
    return still_says(replace(stands, job=title)) if stands is not None else ""

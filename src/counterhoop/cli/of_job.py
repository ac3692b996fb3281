"""Which job and which drum a command means, its plan, and what came of long work."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, TypeVar

import typer

from counterhoop.errors import BadInput, CannotDo

if TYPE_CHECKING:
    from counterhoop.bench.folders.folder import KeptDrum, KeptJob
    from counterhoop.bench.long_work.answers import Answer
    from counterhoop.bench.plan_job import JobPlan
    from counterhoop.bench.workshop import Workshop
    from counterhoop.store.save import Conflict, Saved

T = TypeVar("T")
JobCalled = Annotated[
    str, typer.Argument(metavar="JOB", help="Its number, or what the jobs command names it.")
]


def job_called(shop: Workshop, called: str) -> KeptJob:
    """Return the job that is called so: its name for programs, its number, part of its title.

    Raises
    ------
    BadInput
        When none is, or more than one.
    """
    from counterhoop.bench.folders.first_page import on_the_bench
    from counterhoop.bench.folders.folder import kept_job

    plain = called.strip().casefold()
    listed = on_the_bench(shop)
    exact = [
        one for one in listed if plain in (one.id, one.title.partition(",")[0].strip().casefold())
    ]
    found = exact or [one for one in listed if plain and plain in one.title.casefold()]
    if len(found) != 1:
        raise BadInput(
            "no such job in the store" if not found else "more than one job is called so",
            where="job", given=called, wanted="the name that the jobs command shows first",
        )  # fmt: skip
    return kept_job(shop, found[0].id)


def drum_called(job: KeptJob, called: str) -> KeptDrum:
    """Return the drum of a job that is called so; the only one where nothing is said.

    Raises
    ------
    BadInput
        When none is.
    """
    plain = called.strip().casefold()
    if not plain and len(job.drums) == 1:
        return job.drums[0]
    for one in job.drums:
        if plain == one.name.casefold():
            return one
    names = ", ".join(f'"{one.name}"' for one in job.drums)
    raise BadInput(
        "which drum" if not plain else "no such drum in this job", where="drum",
        given=called or None, wanted=names or "a job with a drum",
    )  # fmt: skip


def plan_called(shop: Workshop, job: KeptJob) -> JobPlan:
    """Return the plan of a job.

    Raises
    ------
    BadInput
        While no drum of it can be read whole, and for what cannot be planned.
    """
    from counterhoop.bench.folders.folder import drawer
    from counterhoop.bench.folders.source import to_plan
    from counterhoop.bench.parts.shelf_stock import shelf_stock

    held = drawer(shop)
    source = to_plan(job, shop=held, on_shelf=shelf_stock(shop, job, held=held)).source
    if source is None:
        raise BadInput(
            "no drum of this job can be planned yet", where="job", given=job.title,
            step="Its survey in the pages says what is missing",
        )  # fmt: skip
    return came_of(shop.works.plan(source))


def came_of(answer: Answer[T]) -> T:
    """Return what came of long work.

    Raises
    ------
    CounterhoopError
        Why nothing did.
    """
    from counterhoop.bench.long_work.answers import Done, Failed

    if isinstance(answer, Done):
        return answer.value
    if isinstance(answer, Failed) and answer.fault is not None:
        raise answer.fault
    raise CannotDo(answer.says)


def need_kept(done: Saved | Conflict) -> None:
    """Refuse to go on where somebody else wrote at the same moment.

    Raises
    ------
    CannotDo
        Then nothing was written.
    """
    from counterhoop.store.save import Conflict

    if isinstance(done, Conflict):
        raise CannotDo(
            f"{done.theirs.bench} wrote there at the same moment, so nothing was written."
            " Look at it again, then type this again."
        )

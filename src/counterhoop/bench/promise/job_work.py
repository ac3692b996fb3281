"""What is left of a job, and what it waits for."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import QUOTE
from counterhoop.bench.folders.source_once import to_plan_once
from counterhoop.bench.long_work.answers import Failed, Working
from counterhoop.bench.parts.stripped import stripped_of
from counterhoop.bench.parts.wants_of_job import SortLacking, lacking, lacks_of
from counterhoop.bench.promise.drum_work import ANSWER, DrumAsked, drum_work
from counterhoop.bench.promise.log_said import LogSaid
from counterhoop.bench.promise.pieces import DrumWork, JobWork, WaitsFor
from counterhoop.bench.promise.promises import promises_of
from counterhoop.bench.promise.setting import Setting
from counterhoop.bench.workshop import Workshop
from counterhoop.fittings.book import name_key
from counterhoop.job.hours.belief import believed
from counterhoop.papers.facts import Lengths
from counterhoop.papers.order_of_work import order_of_work
from counterhoop.shell.operations import operations_of

if TYPE_CHECKING:  # the planner takes a second to load, and the works have it already
    from counterhoop.bench.plan_job import DrumPlan, JobPlan

PART_DAYS = 7
"""A part of which nobody knows when it comes is taken to be there in a week (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JobAsked:
    """A job, the workshop's drawer, the log, and the moment from which it is planned."""

    job: KeptJob
    held: Mapping[str, Kept]
    log: LogSaid
    setting: Setting


def work_of_job(shop: Workshop, asked: JobAsked) -> JobWork | Working:
    """Return what is left of a job; how far its schemes are while they are worked out.

    Of each drum the scheme that is taken counts, else the one that the kit's choice gives it.
    """
    job, held = asked.job, asked.held
    said: dict[str, Any] = {
        "job": job.id,
        "title": job.title,
        "number": str(job.job.get("number") or job.title),
    }
    found = to_plan_once(shop, job, held=held)
    if found.source is None:
        out = tuple(_no_work(drum, "its survey cannot be read whole yet") for drum in job.drums)
        return JobWork(**said, left_out=out or ("No drum is in the folder yet.",))
    answer = shop.works.plan(found.source)
    if isinstance(answer, Working):
        return answer
    if isinstance(answer, Failed):
        return JobWork(**said, left_out=(answer.says,), failed=answer)
    drums, left_out = [], []
    parts = _parts_awaited(shop, asked, answer.value)
    for drum in job.drums:
        plan = next((one for one in answer.value.drums if one.key == drum.name), None)
        if plan is None or drum.id in found.faults:
            left_out.append(_no_work(drum, "its survey cannot be read whole yet"))
        elif plan.chosen is None:
            why = "its wish cannot be met" if plan.refused else "nothing is wished of it yet"
            left_out.append(_no_work(drum, why))
        else:
            drums.append(
                _drum(asked, drum, plan, opened=answer.value, parts=parts.get(drum.id, ()))
            )
    figures = answer.value.opened.shop.figures
    return JobWork(
        **said, drums=tuple(drums), left_out=tuple(left_out), operations=operations_of(figures)
    )


def _no_work(drum: KeptDrum, why: str) -> str:
    return f"The {drum.name} is left out: {why}."


def _drum(
    asked: JobAsked, drum: KeptDrum, plan: DrumPlan, *, opened: JobPlan,
    parts: tuple[WaitsFor, ...],
) -> DrumWork:  # fmt: skip
    scheme = plan.chosen
    assert scheme is not None
    figures = opened.opened.shop.figures
    operations = {one.name: one for one in operations_of(figures)}
    steps = order_of_work(scheme, figures=figures, say=Lengths())
    named = {one.operation for step in steps for one in step.done}
    return drum_work(
        DrumAsked(
            job=asked.job.id,
            drum=drum,
            scheme=scheme,
            steps=steps,
            operations=operations,
            beliefs={name: believed(operations[name], asked.log.worked) for name in named},
            log=asked.log.of(asked.job.id, drum),
            parts=parts,
            answer=_answer(asked),
            agreed=bool(asked.job.kept(QUOTE).table.get("accepted")),
        ),
        setting=asked.setting,
    )


def _answer(asked: JobAsked) -> dt.date | None:
    """Return the day for which the client has said that an answer comes; none that is past."""
    days = [one.day for one in promises_of(asked.job).arrivals if one.what == ANSWER]
    return next((day for day in days if day is not None and day >= asked.setting.start), None)


def _parts_awaited(
    shop: Workshop, asked: JobAsked, plan: JobPlan
) -> dict[str, tuple[WaitsFor, ...]]:
    """Return by drum what neither the shelf nor the box has, and when it comes."""
    job, book = asked.job, plan.opened.shop.book
    schemes = {one.key: one.chosen for one in plan.drums}
    lacks = [
        lacks_of(
            drum, stripped_of(shop, job, drum, plan, held=asked.held), schemes.get(drum.name),
            book=book,
        )
        for drum in job.drums
    ]  # fmt: skip
    comes = {name_key(one.what): one for one in promises_of(job).arrivals}
    found: dict[str, list[WaitsFor]] = {}
    for sort in lacking(shop, job, lacks, stock=plan.opened.shop.stock):
        coming = comes.get(name_key(sort.sort.piece))
        day = coming.day if coming else None
        if day is not None and day < asked.setting.start:
            # It should have come, and nobody has put it on the shelf: asked for again.
            day = None
        for drum, name, count in _short(sort):
            found.setdefault(drum, []).append(
                WaitsFor(
                    drum=name, what=f"{count} {sort.sort.piece}", known=day is not None,
                    day=day or _assumed(asked.setting), called=sort.sort.piece,
                    sure=day is not None and coming is not None and coming.sure,
                )
            )  # fmt: skip
    return {drum: tuple(those) for drum, those in found.items()}


def _short(sort: SortLacking) -> Iterator[tuple[str, str, int]]:
    """Yield drum, its name and how many it lacks after what the shelf and the box can give.

    The shelf gives to the first drums first, as it does where pieces are set aside.
    """
    given = sort.free
    for lack in sort.lacks:
        served = min(given, lack.short)
        given -= served
        if lack.short > served:
            yield lack.drum, lack.name, lack.short - served


def _assumed(setting: Setting) -> dt.date:
    return setting.after_days(PART_DAYS)

"""What the first page says of the bench: in hand, drying, waiting for whom, promised, late."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass

from counterhoop.bench.change.found import found_on
from counterhoop.bench.folders.drum_state import on, state_of_drum
from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.promise.bench_now import BenchNow, OpenJob, bench_now
from counterhoop.bench.promise.pieces import DrumWork
from counterhoop.bench.promise.promises import clock_of
from counterhoop.bench.promise.shop_plan import WORKINGS, ShopPlan, shop_plan
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.promise.still import Still
from counterhoop.papers.day_list import clock_said, touch_said
from counterhoop.quantities.day import say_day, say_weekday
from counterhoop.scheme.phrases import listed

NOT_KNOWN = "Its schemes are being worked out; what it waits for is not known yet."
ALMOST_SURE = 0.95
"""So many workings done by the day are called almost sure (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One sentence on a job.

    Attributes
    ----------
    job, title : str
        Its name for programs, empty for the workshop's own work; what one calls it.
    says : str
    day : datetime.date or None
        The day that it is about.
    """

    job: str
    title: str
    says: str
    day: dt.date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What is on the bench, and what it waits for.

    Attributes
    ----------
    now : tuple of Line
        In hand.
    waits_on_glue : tuple of Line
        Left alone, what may be touched first first.
    waits_on_client, waits_on_part : tuple of Line
    promised : tuple of Line
        The soonest first.
    unread : tuple of Line
        Jobs of which it is not known yet what they wait for.
    late : tuple of Line
        Promised days that are past, or less likely than is asked for.
    working : Working or None
        Some of it is still worked out.
    failed : Failed or None
        Why it is not worked out how likely promises are.
    """

    now: tuple[Line, ...] = ()
    waits_on_glue: tuple[Line, ...] = ()
    waits_on_client: tuple[Line, ...] = ()
    waits_on_part: tuple[Line, ...] = ()
    promised: tuple[Line, ...] = ()
    unread: tuple[Line, ...] = ()
    late: tuple[Line, ...] = ()
    working: Working | None = None
    failed: Failed | None = None


def what_waits(shop: Workshop, *, limit: float | None = None, count: int = WORKINGS) -> Bench:
    """Return what is on the bench; what is still worked out is left out until it is.

    Parameters
    ----------
    limit, count
        As for ``shop_plan``.

    Raises
    ------
    BadInput
        The opening hours cannot be read.
    """
    bench = bench_now(shop)
    answer: Answer[ShopPlan]
    try:
        answer = shop_plan(shop, limit=limit, count=count)
    except BadInput as fault:
        # The hours do not see the end of the work: all else is told.
        answer = Failed(id="", says=f"{fault!s}.", why="refused", fault=fault)
    plan = answer.value if isinstance(answer, Done) else None
    # The bench that the plan is of: another may have written meanwhile.
    bench = plan.bench if plan else bench
    now = clock_of(shop)
    today = now.date()
    promised = sorted(_promised(bench, plan, today=today), key=lambda pair: pair[0].day or today)
    return Bench(
        now=tuple(_in_hand(bench)),
        waits_on_glue=tuple(
            Line(
                job=job.kept.id, title=job.title, day=one.until.date(),
                says=f"{_first_large(one.drum)}, {one.says}: {touch_said(one.until, today=today)}.",
            )
            for job, one in bench.cures
            if one.until > now
        ),
        waits_on_client=tuple(
            line for job in bench.every for line in (*_client(job), *_found(job))
        ),
        waits_on_part=tuple(line for job in bench.jobs for line in _parts(job)),
        promised=tuple(line for line, _ in promised),
        unread=tuple(
            Line(job=job.kept.id, title=job.title, says=NOT_KNOWN) for job in bench.unread
        ),
        late=tuple(line for line, late in promised if late),
        working=answer if isinstance(answer, Working) else bench.working,
        failed=answer if isinstance(answer, Failed) else None,
    )  # fmt: skip


def _in_hand(bench: BenchNow) -> Iterator[Line]:
    titles = {job.kept.id: job for job in bench.every}
    for one in bench.log.workings:
        if not one.is_open or one.stretch is None:
            continue
        job = titles.get(one.job_id or "")
        names = {drum.id: drum.name for drum in job.kept.drums} if job else {}
        drum = names.get(one.drum, one.drum)
        since = one.stretch.picked_up
        day = "" if since.date() == bench.setting.start else f" on {say_day(since.date())}"
        what = f"{drum}, {one.operation}" if drum else one.operation
        yield Line(
            job=one.job_id or "", title=job.title if job else "", day=since.date(),
            says=f"{_first_large(what)}: in hand at {one.bench} since"
            f" {clock_said(since.time())}{day}.",
        )  # fmt: skip


def _client(job: OpenJob) -> Iterator[Line]:
    waiting = {one.drum for drum in job.work.drums for one in drum.for_client}
    by_state: dict[tuple[dt.date | None, str], list[str]] = {}
    for drum in job.kept.drums:
        if drum.name in waiting:
            state = state_of_drum(drum)
            key = (state.taken_at, state.no_yes if state.code else "")
            by_state.setdefault(key, []).append(f"the {drum.name}")
    for (taken_at, no_yes), drums in by_state.items():
        says = (
            f"A scheme is taken for {listed(drums)}{on(taken_at)}; {no_yes}."
            if no_yes
            else f"No scheme is taken for {listed(drums)} yet."
        )
        yield Line(job=job.kept.id, title=job.title, says=says, day=taken_at)


def _found(job: OpenJob) -> Iterator[Line]:
    for drum in job.kept.drums:
        waits = found_on(drum).open
        if waits:
            what = "Something" if len(waits) == 1 else f"{len(waits)} things"
            day = max((one.on for one in waits if one.on), default=None)
            yield Line(
                job=job.kept.id, title=job.title, day=day,
                says=f"{what} found on the {drum.name}{on(day)}; the client has not answered.",
            )  # fmt: skip


def _parts(job: OpenJob) -> Iterator[Line]:
    for drum in job.work.drums:
        # What a scheme adds is ordered when the client has said yes to it.
        if not drum.for_client:
            yield from _parts_of(job, drum)


def _parts_of(job: OpenJob, drum: DrumWork) -> Iterator[Line]:
    by_day: dict[tuple[dt.date | None, bool], list[str]] = {}
    for part in drum.for_part:
        by_day.setdefault((part.day if part.known else None, part.sure), []).append(part.what)
    for (day, sure), parts in by_day.items():
        when = "nobody has said when that comes"
        if day is not None:
            on_day = say_weekday(day)
            when = f"comes on {on_day}" if sure else f"should come on {on_day}, not sure"
        yield Line(
            job=job.kept.id, title=job.title, day=day,
            says=f"The {drum.for_part[0].drum} waits for {listed(parts)}: {when}.",
        )  # fmt: skip


def _promised(
    bench: BenchNow, plan: ShopPlan | None, *, today: dt.date
) -> Iterator[tuple[Line, bool]]:
    """Yield what stands promised, and whether it is past or less likely than is asked for."""
    for job in bench.every:
        stands = job.promises.stands
        if stands is None or stands.day is None:
            continue
        past, holds = stands.day < today, True
        for_day = f"{job.title}, promised for {say_weekday(stands.day)}"
        says = f"{for_day}{': that day is past' if past else ''}."
        if plan is not None and job.work.tasks:
            still = plan.found.still[job.kept.id]
            holds = still.holds
            says = f"{for_day}{_as_it_stands(still, past=past)}"
        elif job not in bench.unread and not job.work.tasks and not job.work.left_out:
            says = f"{for_day}: all work is done."
        line = Line(job=job.kept.id, title=job.title, says=says, day=stands.day)
        yield line, past or not holds


def _as_it_stands(still: Still, *, past: bool) -> str:
    """Return how sure a promise is, as one says it over the bench."""
    by = f"likely by {say_weekday(still.now.day)}"
    if past:
        return f", is late: {by}."
    if not still.holds:
        return f": {by}, not before. Ring in time."
    return ": almost sure." if still.share >= ALMOST_SURE else ": likely."


def _first_large(text: str) -> str:
    return text[:1].upper() + text[1:]

"""A day at the bench, as one request finds it."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.promise.bench_now import BenchNow, bench_now
from counterhoop.bench.promise.promises import clock_of
from counterhoop.bench.promise.shop_plan import last_plan, shop_plan
from counterhoop.bench.promise.todays_list import list_of_day
from counterhoop.bench.promise.what_waits import Bench, Line, what_waits
from counterhoop.bench.today.after import line_of
from counterhoop.bench.today.asks import Ask, asks_of
from counterhoop.bench.today.hands import piece_of
from counterhoop.bench.today.on_the_day import (
    Held,
    ToDo,
    as_last_planned,
    could_begin,
    first_day,
    held_now,
    lines_of_day,
    planned_on,
)
from counterhoop.bench.today.what import What, what_was
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.papers.day_list import touch_said
from counterhoop.shell.operations import operations
from counterhoop.store.work_log.working import Working as LogLine
from counterhoop.web.bench_planned import patiently
from counterhoop.web.folder_index import drum_address
from counterhoop.web.look.say import capfirst
from counterhoop.web.paper_shelf import PaperOnShelf
from counterhoop.web.plans import WAIT_S
from counterhoop.web.today_papers import Papers
from counterhoop.web.today_words import (
    ask_no,
    ask_yes,
    count_help,
    count_label,
    held_beside,
    held_says,
    leave_alone,
    line_says,
    title_of,
    todo_says,
    todo_when,
)

if TYPE_CHECKING:
    from counterhoop.bench.promise.shop_plan import ShopPlan


MOST_ASKED = 4
"""So many questions at once; the next come as these are answered."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Whose:
    """Of which drum a line speaks, and where that lies on the bench."""

    drum: str
    job: str
    href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ToDoShown:
    """A piece of work on the page; ``values`` is what its form sends."""

    says: str
    whose: Whose
    long: str
    when: str
    cautions: tuple[str, ...]
    paper: PaperOnShelf | None
    figure: str
    waits: str
    leave: tuple[str, ...]
    values: dict[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldShown:
    """What is in hand, and what its form asks; ``values`` says what it is."""

    entry: int
    says: str
    whose: Whose
    since: str
    beside: str
    bench: str
    figure: str
    count_label: str
    count_help: str
    leave: tuple[str, ...]
    cautions: tuple[str, ...]
    paper: PaperOnShelf | None
    values: dict[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class LineShown:
    """A line of the log."""

    entry: int
    says: str
    whose: Whose
    how: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AskShown:
    """A question about a line of the log, with the answers that are pressed.

    ``unworked``: that nothing was worked is one of them.
    """

    entry: int
    seen: int
    says: str
    whose: Whose
    stands: bool
    unworked: bool
    yes: str
    no: str
    likely: int
    day: dt.date


@dataclass(frozen=True, slots=True, kw_only=True)
class TodayDesk:
    """All that the page of the day shows.

    Attributes
    ----------
    now : datetime.datetime
        On the workshop's clock.
    held : tuple of HeldShown
        The newest first.
    asks : tuple of AskShown
    todo : tuple of ToDoShown
        In the order of the plan; without a plan what could be begun.
    todo_day : datetime.date or None
        For which day that is planned; None without a plan.
    touch : tuple of (str, str)
        When something may be touched, and what it is.
    waits : tuple of Line
        For a client, for a part.
    unread : tuple of str
        Jobs of which it is not known yet what dries on them and what they wait for.
    last_order : bool
        What is to do stands in the order of the plan before; a new one is worked out.
    comes, promised : tuple of str
    done : tuple of LineShown
        Of this day.
    working, failed :
        Of the plan.
    plan_says : tuple of str
        What the plan takes for granted.
    wrong : str
        Why nothing can be planned.
    drums, operations : tuple of (str, str)
        What other work can be picked up, or typed after.
    """

    now: dt.datetime
    held: tuple[HeldShown, ...] = ()
    asks: tuple[AskShown, ...] = ()
    todo: tuple[ToDoShown, ...] = ()
    todo_day: dt.date | None = None
    touch: tuple[tuple[str, str], ...] = ()
    waits: tuple[Line, ...] = ()
    unread: tuple[str, ...] = ()
    last_order: bool = False
    comes: tuple[str, ...] = ()
    promised: tuple[str, ...] = ()
    done: tuple[LineShown, ...] = ()
    drums: tuple[tuple[str, str], ...] = ()
    working: Working | None = None
    failed: Failed | None = None
    plan_says: tuple[str, ...] = ()
    wrong: str = ""
    operations: tuple[tuple[str, str], ...] = ()


def today_desk(shop: Workshop) -> TodayDesk:
    """Return the day as it stands; what is still worked out is not waited for."""
    now, wrong = clock_of(shop), ""
    answer: Answer[ShopPlan] | None = None
    waits = Bench()
    try:
        bench = bench_now(shop)
    except BadInput as fault:
        return TodayDesk(now=now, wrong=str(fault))
    try:
        answer = patiently(shop, lambda: shop_plan(shop), wait_s=WAIT_S)
        waits = what_waits(shop)
    except BadInput as fault:
        # What is in hand can be put down all the same.
        wrong = str(fault)
    papers = Papers(shop)
    desk = TodayDesk(
        now=now,
        held=tuple(_held(one, papers, now=now) for one in held_now(bench, now=now)),
        asks=tuple(_ask(shop, one) for one in asks_of(bench, now=now)[:MOST_ASKED]),
        touch=tuple(
            (
                touch_said(one.until, today=now.date()) if one.until > now else "now",
                f"{one.drum}, job {job.work.number}: {one.says}",
            )
            for job, one in bench.cures
        ),
        waits=(*waits.waits_on_client, *waits.waits_on_part),
        unread=tuple(job.title for job in bench.unread),
        done=tuple(line_shown(bench, one) for one in lines_of_day(bench, now.date())),
        drums=drum_choices(bench),
        operations=operation_choices(),
        wrong=wrong,
    )
    if isinstance(answer, Done):
        return _planned(desk, answer.value, papers)
    in_hand = [one.values for one in desk.held]
    last = last_plan(shop) if isinstance(answer, Working) else None
    known = as_last_planned(last, bench, today=now.date()) if last else ()
    todo = [_todo(one, papers, now=now) for one in known or could_begin(bench)]
    return replace(
        desk,
        last_order=bool(known),
        todo=tuple(one for one in todo if one.values not in in_hand),
        working=answer if isinstance(answer, Working) else None,
        failed=answer if isinstance(answer, Failed) else None,
    )


def _planned(desk: TodayDesk, plan: ShopPlan, papers: Papers) -> TodayDesk:
    today = desk.now.date()
    day = today if planned_on(plan, today) else first_day(plan)
    told = list_of_day(plan, name="", day=today)
    in_hand = [one.values for one in desk.held]
    todo = [_todo(one, papers, now=desk.now) for one in (planned_on(plan, day) if day else ())]
    return replace(
        desk,
        todo=tuple(one for one in todo if one.values not in in_hand),
        todo_day=day,
        comes=told.comes,
        promised=told.promised,
        plan_says=plan.says,
    )  # fmt: skip


def drum_choices(bench: BenchNow) -> tuple[tuple[str, str], ...]:
    """Return all drums of open jobs, to choose one."""
    return tuple(
        (f"{job.kept.id}/{drum.id}", f"{drum.name}: {title_of(job.title, job.work.number)}")
        for job in bench.jobs
        for drum in job.kept.drums
    )


def operation_choices() -> tuple[tuple[str, str], ...]:
    """Return all operations of the book, to choose one."""
    return tuple((one.name, capfirst(one.name)) for one in operations())


def whose_line(what: What | None, line: LogLine) -> Whose:
    """Return of which drum a line of the log speaks."""
    return _whose(what) if what else Whose(drum="", job="a job that is not open", href="")


def line_shown(bench: BenchNow, line: LogLine) -> LineShown:
    """Return a line of the log as a page shows it."""
    what = what_was(bench, line)
    per = what.operation.per if what else per_of(line.operation)
    return LineShown(
        entry=line.entry, says=capfirst(line.operation), whose=whose_line(what, line),
        how=line_says(line, per=per), note=line.note,
    )  # fmt: skip


def per_of(operation: str) -> str:
    """Return what an operation of the book is counted by."""
    return next((one.per for one in operations() if one.name == operation), "piece")


def _whose(what: What) -> Whose:
    return Whose(
        drum=what.drum.name, job=title_of(what.job.title, what.job.work.number),
        href=f"{drum_address(what.job.kept, what.drum)}/bench",
    )  # fmt: skip


def _todo(one: ToDo, papers: Papers, *, now: dt.datetime) -> ToDoShown:
    kept, work = one.job.kept, one.work
    return ToDoShown(
        says=capfirst(work.operation),
        whose=Whose(
            drum=one.drum.name, job=title_of(one.job.title, one.job.work.number),
            href=f"{drum_address(kept, one.drum)}/bench",
        ),
        long=todo_says(one), when=todo_when(one), cautions=work.cautions,
        paper=papers.of(kept, one.drum, step=work.step), figure=work.whose, waits=one.waits_for,
        leave=leave_alone([one.cures] if one.cures else [], now=now),
        values={"job": kept.id, "drum": one.drum.id, "operation": work.operation},
    )  # fmt: skip


def _held(one: Held, papers: Papers, *, now: dt.datetime) -> HeldShown:
    what, line = one.what, one.line
    step = what.left[0].step if what and what.left else ""
    return HeldShown(
        entry=line.entry, says=capfirst(line.operation), whose=whose_line(what, line),
        since=held_says(one, now=now), beside=held_beside(one), bench=line.bench,
        figure=one.whose, count_label=count_label(what),
        count_help=count_help(piece_of(what), what.times_left, what.operation.per) if what else "",
        leave=leave_alone(one.cures, now=now),
        cautions=what.operation.cautions if what else (),
        paper=papers.of(what.job.kept, what.drum, step=step) if what else None,
        values={
            "job": line.job_id or "", "drum": what.drum.id if what else line.drum,
            "operation": line.operation,
        },
    )  # fmt: skip


def _ask(shop: Workshop, ask: Ask) -> AskShown:
    return AskShown(
        entry=ask.line.entry, seen=line_of(shop, ask.line.entry)[-1].entry,
        says=f"{capfirst(ask.line.operation)}: {ask.says}",
        whose=whose_line(ask.what, ask.line), yes=ask_yes(ask),
        stands=not ask.line.is_open and ask.kind != "took", unworked=ask.kind == "took",
        no=ask_no(ask) if ask.likely else "", likely=ask.likely, day=ask.line.day,
    )  # fmt: skip

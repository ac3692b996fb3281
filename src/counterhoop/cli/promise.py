"""When a job is done: the day to promise, what stands promised, the weeks, today, a calendar."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from counterhoop.cli.of_job import JobCalled, came_of, job_called, need_kept
from counterhoop.cli.options import DataFolder, StoreAddress
from counterhoop.cli.store import BENCH, workshop
from counterhoop.cli.text import wrapped

promise_app = typer.Typer(
    help="When a job is done: show, tell, take-back.",
    no_args_is_help=True, rich_markup_mode=None, add_completion=False,
)  # fmt: skip
TodayPaper = Annotated[Path | None, typer.Option("--to", metavar="FILE", help="Set it as a PDF.")]


@promise_app.command()
def show(job: JobCalled, data: DataFolder = None, store: StoreAddress = "") -> None:
    """Show the day to promise for a job today, what it rests on, and what was promised."""
    from counterhoop.bench.promise.promise_of import promise_of

    with workshop(store, data) as shop:
        told = came_of(promise_of(shop, job_called(shop, job).id))
    typer.echo(f"{told.title}: {told.face}.")
    promised = f"Promised: {told.promised.says()}." if told.promised else "Nothing is promised."
    for said in (told.beneath, told.exactly, promised, told.still, *told.assumes):
        for line in wrapped(said, indent=2):
            typer.echo(line)


@promise_app.command()
def tell(
    job: JobCalled,
    day: Annotated[str, typer.Option("--day", metavar="DAY", help="Such as 2026-12-11.")],
    to: Annotated[str, typer.Option("--to", metavar="NAME", help="Who was told.")],
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Write down that a day was promised; an earlier promise stays on record."""
    from counterhoop.bench.folders.folder import kept_job
    from counterhoop.bench.folders.kinds import PROMISE
    from counterhoop.bench.promise.promise_of import promise_it
    from counterhoop.bench.promise.promises import promises_of

    with workshop(store, data) as shop:
        kept = job_called(shop, job)
        based_on = kept.kept(PROMISE).number
        need_kept(promise_it(shop, kept, day=day, to=to, based_on=based_on, by=BENCH))
        stands = promises_of(kept_job(shop, kept.id)).stands
    if stands is not None:
        typer.echo(f"{kept.title}: {stands.says()}.")


@promise_app.command(name="take-back")
def take_back(job: JobCalled, data: DataFolder = None, store: StoreAddress = "") -> None:
    """Write down that the day is promised no longer."""
    from counterhoop.bench.folders.kinds import PROMISE
    from counterhoop.bench.promise.promises import take_promise_back

    with workshop(store, data) as shop:
        kept = job_called(shop, job)
        need_kept(take_promise_back(shop, kept, based_on=kept.kept(PROMISE).number, by=BENCH))
    typer.echo(f"{kept.title}: no day is promised now.")


def today(to: TodayPaper = None, data: DataFolder = None, store: StoreAddress = "") -> None:
    """Show today's list: what is worked on when, what may be touched, what comes."""
    from counterhoop.bench.deliver import deliver_file
    from counterhoop.bench.price.terms import terms_of
    from counterhoop.bench.promise.todays_list import todays_list
    from counterhoop.papers.day_list import clock_said, day_list_pdf, touch_said
    from counterhoop.quantities.day import say_weekday

    with workshop(store, data) as shop:
        found = came_of(todays_list(shop, name=terms_of(shop).shop))
    typer.echo(f"{say_weekday(found.day)}: {'' if found.work else 'no work is planned.'}".rstrip())
    for one in found.work:
        typer.echo(
            f"  {clock_said(one.begins)} to {clock_said(one.ends)}  job {one.job}, {one.drum}:"
            f" {one.says}{', begun' if one.begun else ''} ({one.paper})"
        )
    for kept in sorted(found.touch, key=lambda one: one.when):
        when = touch_said(kept.when, today=found.day)
        typer.echo(f"  job {kept.job}, {kept.drum}, {kept.says}: {when}")
    for front, lines in (("comes", found.comes), ("promised", found.promised)):
        for line in lines:
            typer.echo(f"  {front}: {line}")
    if to is not None:
        typer.echo(f"Wrote {deliver_file(day_list_pdf(found), path=to)}.")


def weeks(to: TodayPaper = None, data: DataFolder = None, store: StoreAddress = "") -> None:
    """Show all open jobs on one bench: when hands work on each drum, and when it dries."""
    from counterhoop.bench.deliver import deliver_file
    from counterhoop.bench.price.terms import terms_of
    from counterhoop.bench.promise.weeks import weeks as weeks_asked
    from counterhoop.papers.weeks import weeks_pdf
    from counterhoop.quantities.day import say_day

    with workshop(store, data) as shop:
        found = came_of(weeks_asked(shop))
        name = terms_of(shop).shop
    for row in found.rows:
        hands = [bar for bar in row.bars if bar.kind == "hands"]
        ends = max(bar.ends for bar in row.bars)
        begins = min((bar.begins for bar in hands), default=None)
        span = f"hands from {say_day(begins.date())}, " if begins else ""
        promised = f"; promised for {say_day(row.promised)}" if row.promised else ""
        typer.echo(f"job {row.job}, {row.drum}: {span}done {say_day(ends.date())}{promised}")
    for said in found.says:
        for line in wrapped(said, indent=2):
            typer.echo(line)
    if to is not None:
        made = weeks_pdf(
            found.rows, shop=name, calendar=found.calendar, now=found.now, says=found.says
        )
        typer.echo(f"Wrote {deliver_file(made, path=to)}.")


def calendar(
    to: Annotated[
        Path, typer.Option("--to", metavar="FILE", help="The calendar file to write.")
    ] = Path("bench.ics"),
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Write the plan as a calendar file for a telephone; a later one says what changed."""
    from counterhoop.bench.deliver import deliver_file
    from counterhoop.bench.price.terms import terms_of
    from counterhoop.bench.promise.diary import calendar as calendar_file

    with workshop(store, data) as shop:
        whose = terms_of(shop).shop or "the workshop"
        made = came_of(calendar_file(shop, whose=whose, by=BENCH))
    typer.echo(f"Wrote {deliver_file(made, path=to)}.")

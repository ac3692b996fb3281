"""The work log: pick work up, put it down, type it after, look at what is in hand."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from counterhoop.cli.of_job import JobCalled, drum_called, job_called
from counterhoop.cli.options import DataFolder, DrumName, StoreAddress
from counterhoop.cli.store import BENCH, workshop
from counterhoop.errors import BadInput

if TYPE_CHECKING:
    from counterhoop.bench.promise.bench_now import BenchNow
    from counterhoop.store.work_log.working import Working

log_app = typer.Typer(
    help="The work log, from which the hours learn: show, pick-up, put-down, typed.",
    no_args_is_help=True, rich_markup_mode=None, add_completion=False,
)  # fmt: skip
Work = Annotated[
    str, typer.Argument(metavar="WORK", help='As the operations book calls it: "drill a hole".')
]
Count = Annotated[str, typer.Option("--count", metavar="N", help="How many were done.")]
Note = Annotated[str, typer.Option("--note", metavar="WORDS", help="What differed.")]


@log_app.command()
def show(
    last: Annotated[int, typer.Option("--last", metavar="N", help="So many lines.")] = 10,
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Show what is in hand, the last lines of the log, and what it must ask."""
    from counterhoop.bench.promise.bench_now import bench_now
    from counterhoop.bench.promise.promises import clock_of
    from counterhoop.bench.today.asks import asks_of

    with workshop(store, data) as shop:
        bench = bench_now(shop)
        asks = asks_of(bench, now=clock_of(shop))
    every = bench.log.workings
    for one in every[-last:] if last > 0 else ():
        typer.echo(f"{one.entry:>5}  {_line(bench, one)}")
    if not every:
        typer.echo("Nothing is in the log yet.")
    for ask in asks:
        typer.echo(f"Asked about {ask.line.entry}: {ask.says}")


@log_app.command(name="pick-up")
def pick_up(
    job: JobCalled,
    work: Work,
    drum: DrumName = "",
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Pick work up; what is in hand is put down first."""
    from counterhoop.bench.promise.bench_now import bench_now
    from counterhoop.bench.today.hands import take_in_hand

    with workshop(store, data) as shop:
        kept = job_called(shop, job)
        taken = take_in_hand(
            shop, job=kept.id, drum=drum_called(kept, drum).id, operation=work, by=BENCH
        )
        bench = bench_now(shop)
    if taken.put_down is not None:
        typer.echo(f"Put down: {_line(bench, taken.put_down)}")
    typer.echo(f"In hand: {_line(bench, taken.working)}")


@log_app.command(name="put-down")
def put_down(
    count: Count = "",
    done: Annotated[
        bool, typer.Option("--done", help="This piece of work is done; else it goes on.")
    ] = False,
    nothing_more: Annotated[
        bool, typer.Option("--nothing-more", help="What is left of it is not to be done.")
    ] = False,
    note: Note = "",
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Put down what is in hand, and say how many of it were done."""
    from counterhoop.bench.promise.bench_now import bench_now
    from counterhoop.bench.today.after import read_count
    from counterhoop.bench.today.hands import Down, lay_down

    with workshop(store, data) as shop:
        held = [one for one in bench_now(shop).log.workings if one.is_open]
        if not held:
            raise BadInput("nothing is in hand", where="log", step="Type the time after instead")
        down = Down(
            count=read_count(count) if count else None, done=done or nothing_more,
            nothing_more=nothing_more, note=note,
        )  # fmt: skip
        laid = lay_down(shop, entry=held[-1].entry, down=down, by=BENCH)
        typer.echo(f"Put down: {_line(bench_now(shop), laid)}")


@log_app.command()
def typed(
    job: JobCalled,
    work: Work,
    took: Annotated[str, typer.Argument(metavar="TIME", help='"40 min", "1 h 20 min".')],
    drum: DrumName = "",
    count: Count = "1",
    day: Annotated[str, typer.Option("--day", metavar="DAY", help="2026-11-02; today.")] = "",
    note: Note = "",
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Type a time after that nobody clocked."""
    from counterhoop.bench.promise.bench_now import bench_now
    from counterhoop.bench.today.after import LineTyped, write_after

    with workshop(store, data) as shop:
        kept = job_called(shop, job)
        line = LineTyped(
            job=kept.id, drum=drum_called(kept, drum).id, operation=work, day=day, took=took,
            count=count, note=note,
        )  # fmt: skip
        written = write_after(shop, line, by=BENCH)
        typer.echo(f"Written: {_line(bench_now(shop), written)}")


def _line(bench: BenchNow, one: Working) -> str:
    """Return a line of the log in words; a job that is not open any more has no name here."""
    from counterhoop.papers.day_list import clock_said
    from counterhoop.quantities.day import say_day

    job = next((opened for opened in bench.jobs if opened.kept.id == one.job_id), None)
    drums = (*job.kept.drums, *job.kept.hidden_drums) if job else ()
    drum = next((its.name for its in drums if its.id == one.drum), one.drum)
    whose = ", ".join(part for part in (job.title if job else "", drum if job else "") if part)
    if one.stretch is None:
        when = f"{one.took}"
    else:
        off = one.stretch.put_down
        until = f"to {clock_said(off.time())}" if off else "in hand"
        when = f"{clock_said(one.stretch.picked_up.time())} {until}"
    done = f", {one.count} done" if one.count else ""
    more = "; nothing more of it is to be done" if one.finished else ""
    note = f" ({one.note})" if one.note else ""
    front = f"{whose}: " if whose else ""
    return f"{say_day(one.day)}, {front}{one.operation}, {when}{done}{more}{note}"

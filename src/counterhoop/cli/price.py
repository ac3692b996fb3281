"""What a job is offered at: the quote as it stands, offers, the yes to a price."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from counterhoop.cli.of_job import JobCalled, job_called, need_kept, plan_called
from counterhoop.cli.options import DataFolder, StoreAddress
from counterhoop.cli.store import BENCH, workshop

if TYPE_CHECKING:
    from counterhoop.bench.price.job_quote import JobQuote
    from counterhoop.bench.price.kept_quote import KeptQuote
    from counterhoop.bench.workshop import Workshop
    from counterhoop.job.price.line import QuoteLine

price_app = typer.Typer(
    help="What a job is offered at: show, offer, accept.",
    no_args_is_help=True, rich_markup_mode=None, add_completion=False,
)  # fmt: skip
Day = Annotated[str, typer.Option("--day", metavar="DAY", help="2026-11-02; today.")]


@price_app.command()
def show(
    job: JobCalled,
    to: Annotated[
        Path | None, typer.Option("--to", metavar="FILE", help="Set it as a PDF, not handed out.")
    ] = None,
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Show a job's price, its lines, and what it rests on."""
    from counterhoop.bench.deliver import deliver_file
    from counterhoop.bench.price.job_quote import quote_of_job
    from counterhoop.bench.price.papers import quote_paper
    from counterhoop.bench.promise.promises import today_of

    with workshop(store, data) as shop:
        kept = job_called(shop, job)
        plan = plan_called(shop, kept)
        now = quote_of_job(shop, kept, plan)
        for said in quote_text(now):
            typer.echo(said)
        if to is not None:
            made = quote_paper(plan, now, day=today_of(shop))
            typer.echo(f"Wrote {deliver_file(made, path=to)}.")


@price_app.command()
def offer(
    job: JobCalled,
    to: Annotated[str, typer.Option("--to", metavar="NAME", help="To whom it is handed.")],
    at: Annotated[
        str, typer.Option("--at", metavar="AMOUNT", help='The price that you saw, "530.00 GBP".')
    ],
    day: Day = "",
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Hand a quote out: it is kept as it is, and nothing changes it afterwards."""
    from counterhoop.bench.price.job_quote import quote_of_job
    from counterhoop.bench.price.offers import offer as hand_out
    from counterhoop.bench.promise.promises import today_of
    from counterhoop.papers.facts import Lengths
    from counterhoop.quantities.day import say_day
    from counterhoop.quantities.money import parse_money

    with workshop(store, data) as shop:
        kept = job_called(shop, job)
        plan = plan_called(shop, kept)
        now = quote_of_job(shop, kept, plan)
        seen = str(parse_money(at, where="at", otherwise=now.currency))
        need_kept(
            hand_out(
                shop, kept, now, seen=seen, day=day or today_of(shop).isoformat(), to=to,
                say=Lengths(plan.opened.job.units), by=BENCH,
            )
        )  # fmt: skip
        number = len(now.kept.offers) + 1
        made = _kept_quote(shop, kept.id).offer(number)
    typer.echo(f"Offer {number}: {made.quote.price} to {made.to}, until {say_day(made.last_day)}.")


@price_app.command()
def accept(
    job: JobCalled,
    who: Annotated[str, typer.Option("--who", metavar="NAME", help="Who said yes.")],
    how: Annotated[str, typer.Option("--how", metavar="WORDS", help='Such as "by letter".')],
    number: Annotated[int, typer.Option("--offer", metavar="N", help="Which offer; the last.")] = 0,
    day: Day = "",
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Write down a client's yes to a price. It is no yes to the drill: that is given drum by drum.

    What cannot be undone is agreed on the approval sheet.
    """
    from counterhoop.bench.price.kept_quote import kept_quote
    from counterhoop.bench.price.offers import accept as write_yes
    from counterhoop.bench.price.offers import accepted_says
    from counterhoop.bench.promise.promises import today_of

    with workshop(store, data) as shop:
        kept = job_called(shop, job)
        before = kept_quote(kept)
        need_kept(
            write_yes(
                shop, kept, number or len(before.offers), who=who, how=how,
                when=day or today_of(shop).isoformat(), based_on=before.number, by=BENCH,
            )
        )  # fmt: skip
        said = _kept_quote(shop, kept.id).accepted
    if said is not None:
        typer.echo(accepted_says(said.yes, said.offer))


def _kept_quote(shop: Workshop, job_id: str) -> KeptQuote:
    from counterhoop.bench.folders.folder import kept_job
    from counterhoop.bench.price.kept_quote import kept_quote

    return kept_quote(kept_job(shop, job_id))


def quote_text(now: JobQuote) -> list[str]:
    """Return a quote as the terminal shows it: what stands large, lines, what lies beneath."""
    from counterhoop.bench.price.job_quote import named
    from counterhoop.bench.price.offers import accepted_says
    from counterhoop.cli.text import wrapped
    from counterhoop.quantities.day import say_day

    face = now.face or (f"No price yet: {now.fault}.",)
    lines = [*face, ""]
    # The quote's own lines hold what brings them to the price; without one there is none.
    every = now.quote.lines if now.quote else named(now.lines, now.drums)
    lines += [text for one in every for text in wrapped(_line(one), indent=2)]
    lines += ["", *(text for said in (*now.beneath, *now.news) for text in wrapped(said, indent=0))]
    for made in now.kept.offers:
        until = say_day(made.last_day)
        lines.append(f"Offer {made.number}: {made.quote.price}, to {made.to}, until {until}.")
    if now.kept.accepted is not None:
        lines.append(accepted_says(now.kept.accepted.yes, now.kept.accepted.offer))
    return lines


def _line(one: QuoteLine) -> str:
    amount = str(one.stands.amount) if one.stands.amount is not None else "no price"
    count = f"{one.stands.count} " if one.stands.count != 1 else ""
    struck = "" if one.counts else " (struck)"
    return f"{amount:>12}  {count}{one.stands.says}{struck}"

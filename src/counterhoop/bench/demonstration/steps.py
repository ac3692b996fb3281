"""What is done to a job of the demonstration, step by step, by what its pages and commands call."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from typing import Any, Final

from counterhoop.bench.demonstration.putting import Putting, kept
from counterhoop.bench.folders.album import tell_photographs, words_of
from counterhoop.bench.folders.decide import Yes, approve, choose
from counterhoop.bench.folders.history import settle
from counterhoop.bench.folders.kinds import (
    CHOICE,
    HANDOVER,
    PHOTOGRAPHS,
    PROMISE,
    QUOTE,
    STRIPPED,
    SURVEY,
    TUNING,
)
from counterhoop.bench.folders.photographs import put_photograph_in
from counterhoop.bench.folders.recordings import put_recording_in, recording
from counterhoop.bench.folders.tick_off import TickedOtherwise, tick_off
from counterhoop.bench.folders.views import WANTED
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.parts.stripped import stripped_of
from counterhoop.bench.parts.tick_parts import pressed_to, tick_parts
from counterhoop.bench.price.bills import bills_of_job, give_invoice, give_receipt
from counterhoop.bench.price.job_quote import quote_of_job
from counterhoop.bench.price.kept_quote import kept_quote
from counterhoop.bench.price.offers import accept, offer
from counterhoop.bench.price.write_quote import strike, write_line
from counterhoop.bench.promise.promises import write_arrival, write_promise
from counterhoop.bench.record.bill_kept import bill_kept
from counterhoop.papers.facts import Lengths
from counterhoop.parts.ticked import Stage
from counterhoop.quantities.duration import parse_duration
from counterhoop.scheme.verdict import Verdict
from counterhoop.store.body import Json
from counterhoop.store.work_log.write_log import type_after

BILLED: Final = ("invoiced", "paid")
"""Steps that take a running number."""


def photographed(one: Putting, said: Any) -> None:
    """Put pictures in from the places that a camera looks from: as it came, or as it goes."""
    from counterhoop.bench.demonstration.scene import Scene, picture

    after, plan, drum = bool(said.get("after")), one.drum_plan(), one.drum
    scheme = plan.chosen
    told: dict[str, Json] = {}
    for view in said.get("views") or [view.name for view in WANTED]:
        layout = scheme.layout if after and scheme is not None else plan.found
        jpeg = picture(Scene(layout=layout, view=view, after=after))
        name = f"{drum.name} {view} {'as it goes' if after else 'as it came'}.jpg"
        photograph = put_photograph_in(
            one.shop, one.job_id, drum=drum.id, name=name, pieces=[jpeg], by=one.by
        )
        told[photograph] = words_of(
            view=view, drum=drum.id, after=after, says="drawn; no drum was photographed"
        )
    number = one.job.kept(PHOTOGRAPHS).number
    kept(tell_photographs(one.shop, one.job_id, told, based_on=number, by=one.by))


def settled(one: Putting, _said: Any) -> None:
    """Keep the survey as found: from then on it is corrected and not overwritten."""
    settle(one.shop, one.drum.kept(SURVEY))


def chosen(one: Putting, number: int) -> None:
    """Take the scheme of a number."""
    schemes = one.drum_plan().ranked.shown
    scheme = next(each for each in schemes if each.number == number)
    drum = one.drum
    kept(
        choose(
            one.shop, one.job_id, drum.id, code=scheme.code, title=scheme.title, moved=[],
            based_on=drum.kept(CHOICE).number, by=one.by,
        )
    )  # fmt: skip


def priced(one: Putting, rows: Any) -> None:
    """Type what lines of the quote cost, by how they begin; what costs nothing is struck."""
    now, shop = quote_of_job(one.shop, one.job, one.plan()), one.shop
    number = now.kept.number
    for begins, amount in rows:
        line = next(each for each in now.lines if each.stands.says.startswith(begins))
        done = (
            write_line(
                shop, one.job_id, line, amount=amount, currency=now.currency, based_on=number,
                by=one.by,
            )
            if amount
            else strike(shop, one.job_id, [line], based_on=number, by=one.by)
        )  # fmt: skip
        number = kept(done).revision.number


def offered(one: Putting, to: str) -> None:
    """Hand the quote out as it stands."""
    job = one.job
    now = quote_of_job(one.shop, job, one.plan())
    price = str(now.need().price)
    kept(
        offer(one.shop, job, now, seen=price, day=one.today, to=to, say=Lengths(), by=one.by)
    )  # fmt: skip


def agreed(one: Putting, said: Any) -> None:
    """Write down a yes: to the price of the newest offer, and to what cannot be undone."""
    job, who, how = one.job, str(said["who"]), str(said["how"])
    newest = kept_quote(job).offers[-1].number
    kept(
        accept(
            one.shop, job, newest, who=who, when=one.today, how=how,
            based_on=job.kept(QUOTE).number, by=one.by,
        )
    )  # fmt: skip
    scheme = one.scheme()
    yes = Yes(who=who, when=one.today, how=how)
    kept(
        approve(
            one.shop, one.job_id, one.drum, scheme=scheme, shown_code=scheme.code, yes=yes,
            by=one.by,
        )
    )  # fmt: skip


def promised(one: Putting, said: Any) -> None:
    """Promise a day."""
    job = one.job
    kept(
        write_promise(
            one.shop, job, day=said["day"], to=said["to"], share=said.get("share"),
            based_on=job.kept(PROMISE).number, by=one.by,
        )
    )  # fmt: skip


def comes(one: Putting, said: Any) -> None:
    """Write down when a part comes."""
    job = one.job
    kept(
        write_arrival(
            one.shop, job, what=said["what"], day=said["day"], sure=said["sure"],
            based_on=job.kept(PROMISE).number, by=one.by,
        )
    )  # fmt: skip


def worked(one: Putting, rows: Any) -> None:
    """Type into the log what was done: operation, how many, how long."""
    day, drum = dt.date.fromisoformat(one.today), one.drum.id
    with one.shop.store.writing() as connection:
        for operation, count, took in rows:
            type_after(
                connection, job_id=one.job_id, drum=drum, operation=operation, count=count,
                took=parse_duration(took), day=day, stamp=one.shop.stamp(one.by),
            )  # fmt: skip


def counted(one: Putting, stages: Any) -> None:
    """Count off the pieces that came off the drum: found, soaked, dry, refitted."""
    for stage in stages:
        job, drum = one.job, one.drum
        stripped = stripped_of(one.shop, job, drum, one.plan())
        ticks = {
            (line.expected.place, line.expected.sort.piece): counts
            for line in stripped.counted
            if (counts := pressed_to(line, Stage(stage)))
        }
        number = drum.kept(STRIPPED).number
        kept(
            tick_parts(
                one.shop, one.job_id, drum.id, stripped=stripped, ticks=ticks, based_on=number,
                by=one.by,
            )
        )  # fmt: skip


def ticked(one: Putting, verdicts: Any) -> None:
    """Tick the holes that had these verdicts."""
    scheme = one.scheme()
    for hole in scheme.layout.holes:
        if hole.verdict in map(Verdict, verdicts):
            done = tick_off(
                one.shop, one.job_id, one.drum.id, scheme=scheme, hole=hole.number, done=True,
                seen="", by=one.by,
            )  # fmt: skip
            assert not isinstance(done, TickedOtherwise), done


def tuned(one: Putting, said: Any) -> None:
    """Write down what the heads were settled at."""
    drum = one.drum
    before = drum.kept(TUNING)
    change = Change(
        kind=TUNING, name=drum.id, value={**before.table, **said}, based_on=before.number
    )
    kept(write_down(one.shop, one.job_id, change, by=one.by))


def heard(one: Putting, said: Any) -> None:
    """Tap the batter head near its first rod, keep the recording, listen to it, keep what it says.

    The program makes the recording: no drum is struck for it.
    """
    from counterhoop.bench.demonstration.recordings import one_tap
    from counterhoop.bench.tune.kept_reading import to_json
    from counterhoop.bench.tune.listened import listened

    drum = one.drum
    made = one_tap(one.plan().opened, drum.name, batter_n_per_m=said["batter_n_per_m"], chance=1)
    lies = put_recording_in(
        one.shop, one.job_id, drum=drum.id, name=made.name, pieces=[made.wav], by=one.by
    )
    told = listened(made.wav, name=made.name, stage="after")
    reading: dict[str, Json] = {
        "when": one.shop.now().astimezone().strftime("%Y-%m-%dT%H:%M"),
        "by": one.by,
        "head": told.head,
        "stage": told.stage,
        "muted": told.muted,
        "kind": told.kind,
        "sound": recording(one.shop, one.job_id, drum=drum.id, recording_id=lies).file.sha256,
        "file": made.name,
        "rods": [tap.rod for tap in made.taps],
        "says": made.says,
        "result": to_json(told),
    }
    tuned(one, {"readings": {"1": reading}})


def handed_over(one: Putting, said: Any) -> None:
    """Write the hand-over."""
    change = Change(kind=HANDOVER, value=said, based_on=one.job.kept(HANDOVER).number)
    kept(write_down(one.shop, one.job_id, change, by=one.by))


def invoiced(one: Putting, _said: Any) -> None:
    """Give out the invoice of what was agreed."""
    bill_kept(
        one.shop, one.job, give_invoice(one.shop, one.job, day=one.today, by=one.by), by=one.by
    )


def paid(one: Putting, how: str) -> None:
    """Give out the receipt: of the deposit that was asked for, or of all that is due."""
    job = one.job
    bills = bills_of_job(one.shop, job)
    quote = kept_quote(job).offers[-1].quote
    invoice = bills.invoices[-1] if bills.invoices else None
    amount = bills.due(invoice) if invoice else quote.deposit
    receipt = give_receipt(
        one.shop, job, day=one.today, amount=str(amount), how=how,
        against=invoice.number if invoice else "", currency=amount.currency, by=one.by,
    )  # fmt: skip
    bill_kept(one.shop, job, receipt, by=one.by)


STEPS: Final[dict[str, Callable[[Putting, Any], None]]] = {
    each.__name__: each
    for each in (
        photographed, settled, chosen, priced, offered, agreed, promised, comes, worked, counted,
        ticked, tuned, heard, handed_over, invoiced, paid,
    )
}  # fmt: skip


def steps_of(said: dict[str, Any], *, now: dt.datetime, bills: bool) -> (
    Iterator[tuple[dt.datetime, str, Any]]
):  # fmt: skip
    """Yield the steps of a folder: when, which, and what is said with it.

    Parameters
    ----------
    said : dict
        The folder's file; a step says ``at`` what day and time, or how many minutes ``ago``.
    now : datetime.datetime
        On the workshop's own clock.
    bills : bool
        Whether those that take a running number are among them.
    """
    for row in said.get("steps", ()):
        moment = row["at"] if "at" in row else now - dt.timedelta(minutes=row["ago"])
        for name, what in row.items():
            if name not in ("at", "ago") and (bills or name not in BILLED):
                yield moment, name, what

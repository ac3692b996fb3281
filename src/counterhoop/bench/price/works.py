"""The work of each drum as it is priced: in the order of the trade, as the log believes it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from counterhoop.bench.remembered import Remembered
from counterhoop.bench.workshop import Workshop
from counterhoop.job.hours.belief import Belief, believed
from counterhoop.job.hours.hours_said import HoursSaid, hours_of
from counterhoop.job.hours.worked import Worked
from counterhoop.job.price.line import Kind, Origin, QuoteLine, Said
from counterhoop.job.price.tax import to_nearest
from counterhoop.papers.facts import Lengths
from counterhoop.papers.order_of_work import order_of_work
from counterhoop.quantities.money import Money
from counterhoop.scheme.plan import Scheme, WorkLine
from counterhoop.shell.operations import operations_of
from counterhoop.shell.shop_rules import ShopFigures
from counterhoop.store.mark import store_mark
from counterhoop.store.work_log.learned import from_log
from counterhoop.store.work_log.read_log import all_workings

RUNS_OVER: Final = "rules: runs over"
"""Key of the line by which a job takes longer than its lines do."""
_HOURS = Remembered(most=48)


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkPriced:
    """The work of several drums.

    Attributes
    ----------
    lines : tuple of tuple of WorkLine
        Drum by drum, in the order given, each with the minutes that it usually takes: what one
        can check against the operations book or the log.
    hours : HoursSaid
        Of all of them together: a little more than its lines, since what runs over runs further
        than what runs under.
    """

    lines: tuple[tuple[WorkLine, ...], ...]
    hours: HoursSaid

    @property
    def whose(self) -> str:
        """Whose figures the hours are, in a sentence."""
        own = sum(line.whose.startswith("yours") for line in self.hours.lines)
        partly = sum(line.whose.startswith("partly") for line in self.hours.lines)
        every = len(self.hours.lines)
        if not own and not partly:
            return "All hours are the operations book's or your own figures: the log has none yet."
        return (
            f"Of {every} lines of work {own} rest on your own log, {partly} partly,"
            f" {every - own - partly} on figures that were written down."
        )


def log_of(shop: Workshop) -> tuple[Worked, ...]:
    """Return what the work log has to learn from."""
    with shop.store.reading() as connection:
        found: tuple[Worked, ...] = shop.remembered.get(
            ("worked", store_mark(connection)), lambda: from_log(all_workings(connection)).worked
        )
    return found


def work_lines(scheme: Scheme, *, figures: ShopFigures) -> tuple[WorkLine, ...]:
    """Return all work on a drum from booking in to packing, each operation once.

    It holds what the scheme's own price leaves out: booking in, stripping, cleaning, refitting,
    tuning, packing.
    """
    counts: dict[str, int] = {}
    minutes: dict[str, float] = {}
    cure: dict[str, float] = {}
    for step in order_of_work(scheme, figures=figures, say=Lengths()):
        for done in step.done:
            name = done.operation
            counts[name] = counts.get(name, 0) + done.times
            minutes[name] = minutes.get(name, 0.0) + done.minutes
            cure[name] = max(cure.get(name, 0.0), done.cure_hours)
    return tuple(
        WorkLine(operation=name, count=counts[name], minutes=minutes[name], cure_hours=cure[name])
        for name in counts
    )


def work_priced(
    schemes: Iterable[Scheme], *, figures: ShopFigures, log: Sequence[Worked]
) -> WorkPriced:
    """Return the work of schemes with the minutes that the log has made of the book's.

    Parameters
    ----------
    schemes : iterable of Scheme
        One for each drum.
    figures : ShopFigures
        Own minutes go before the book's.
    log : sequence of Worked
    """
    drums = [work_lines(scheme, figures=figures) for scheme in schemes]
    every = [line for lines in drums for line in lines]
    counted = tuple((line.operation, line.count) for line in every)
    beliefs = _beliefs(every, figures, log)
    # Other ways, and the same way after a price was typed, ask for hours that were added already.
    hours: HoursSaid = _HOURS.get(
        (counted, tuple(beliefs.values())), lambda: hours_of(counted, beliefs)
    )
    priced = iter(
        replace(line, minutes=said.usual_min) for line, said in zip(every, hours.lines, strict=True)
    )
    return WorkPriced(
        lines=tuple(tuple(next(priced) for _ in lines) for lines in drums), hours=hours
    )


def _beliefs(
    work: Iterable[WorkLine], figures: ShopFigures, log: Sequence[Worked]
) -> dict[str, Belief]:
    wanted = {line.operation for line in work}
    return {one.name: believed(one, log) for one in operations_of(figures) if one.name in wanted}


def runs_over(work: WorkPriced, priced: Iterable[QuoteLine], *, figures: ShopFigures) -> (
    tuple[QuoteLine, ...]
):  # fmt: skip
    """Return the line that brings the lines of work to what the whole job usually takes."""
    exact = Fraction(work.hours.usual_min) / 60 * figures.hour_minor
    lines = sum(line.amount.minor for line in priced if line.kind is Kind.WORK)
    over = to_nearest(exact) - lines
    if not over:
        return ()
    amount = Money(minor=over, currency=figures.currency)
    return (
        QuoteLine(
            key=RUNS_OVER,
            origin=Origin.RULES,
            kind=Kind.WORK,
            stands=Said(says="work that runs over, as some always does", amount=amount),
        ),
    )

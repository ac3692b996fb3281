"""Notes on two drums of one job: together they add what the job's work adds, and no more.

Truth: worked by hand.
"""

from __future__ import annotations

from fractions import Fraction

from counterhoop.bench.price.job_quote import JobQuote
from counterhoop.bench.price.kept_quote import KeptQuote
from counterhoop.bench.price.since import by_lines, with_drum
from counterhoop.bench.price.terms import Terms
from counterhoop.bench.price.works import RUNS_OVER, WorkPriced
from counterhoop.job.hours.hours_said import HoursSaid
from counterhoop.job.price.line import Kind, Origin, QuoteLine, Said
from counterhoop.job.price.quote import Quote, QuoteRules, quote_of
from counterhoop.quantities.money import Money

NONE = HoursSaid(quick_min=0, usual_min=0, slow_min=0, mean_min=0, lines=())


def work(key: str, minor: int, *, count: int = 1) -> QuoteLine:
    said = Said(says=key, amount=Money(minor=minor, currency="GBP"), count=count)
    return QuoteLine(key=key, origin=Origin.SCHEME, kind=Kind.WORK, stands=said)


def quoted(snare: int, tom: int, *, over: int) -> Quote:
    """So many plugs at 10.00 on each drum; to the penny, and nothing put on."""
    rules = QuoteRules(round_to=Money(minor=1, currency="GBP"), contingency=Fraction(0))
    plugs = [work(f"d{n}/plug", 1000 * of, count=of) for n, of in enumerate((snare, tom), 1)]
    lines = (*plugs, work(RUNS_OVER, over))
    return quote_of(lines, rules=rules)


def as_it_stands(quote: Quote) -> JobQuote:
    return JobQuote(
        kept=KeptQuote(), lines=quote.lines, quote=quote, fault=None, drums=(), without=(),
        work=WorkPriced(lines=(), hours=NONE), terms=Terms(), currency="GBP",
    )  # fmt: skip


def test_what_runs_over_is_on_one_note_only() -> None:
    """Of 200 of work 10 run over; 50 more on each drum are 2.50 more each, and not 5 on both."""
    then, now = quoted(10, 10, over=1000), as_it_stands(quoted(15, 15, over=1500))
    before = by_lines(then, then.lines).price
    more = [(with_drum(then, now, drum).price - before).minor for drum in ("d1", "d2")]
    assert more == [5250, 5250]
    assert before.minor + sum(more) == now.need().price.minor


def test_a_drum_that_stays_as_it_was_costs_no_more() -> None:
    then, now = quoted(10, 10, over=1000), as_it_stands(quoted(15, 10, over=1800))
    assert with_drum(then, now, "d2").price == then.price

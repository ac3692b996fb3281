"""The price page in words: what is asked, what it stands on, where each line came from."""

from __future__ import annotations

from typing import Final

from counterhoop.bench.price.job_quote import JobQuote
from counterhoop.bench.price.kept_quote import KeptQuote, Offer
from counterhoop.bench.price.offers import accepted_says
from counterhoop.bench.price.terms import Terms
from counterhoop.bench.price.works import RUNS_OVER
from counterhoop.job.hours.shared import SHARED_SPREAD
from counterhoop.job.price.line import Kind, Origin, QuoteLine, Said
from counterhoop.job.price.quote import Quote
from counterhoop.job.price.rate import print_rate
from counterhoop.job.price.tax import CHECK, TaxSort
from counterhoop.papers.facts import count, listed
from counterhoop.quantities.day import say_day
from counterhoop.quantities.duration import print_minutes
from counterhoop.quantities.money import Money, print_money
from counterhoop.web.look.say import capfirst

FROM: Final = {
    Origin.SCHEME: "from the scheme",
    Origin.SURVEY: "from the survey",
    Origin.WRAP: "from the wrap",
    Origin.PARTS: "from the parts",
    Origin.RULES: "from the workshop's own terms",
    Origin.TYPED: "typed by hand",
}
KINDS: Final = (
    (str(Kind.OTHER), "something else"),
    (str(Kind.WORK), "work"),
    (str(Kind.PART), "a part"),
    (str(Kind.MATERIAL), "material"),
    (str(Kind.POSTAGE), "postage"),
)
NO_PRICE: Final = "no price yet"
NOTHING_ASKED: Final = "Nothing is asked for yet: wish something of a drum, or add a line."


def amount_says(amount: Money | None) -> str:
    """Return an amount, or that there is none."""
    return NO_PRICE if amount is None else print_money(amount)


def said_says(said: Said) -> str:
    """Return a count and an amount.

    Examples
    --------
    >>> said_says(Said(says="plug a hole", amount=Money(minor=6300, currency="GBP"), count=9))
    '9 for 63.00 GBP'
    """
    amount = amount_says(said.amount)
    return amount if said.count == 1 else f"{said.count} for {amount}"


def line_says(line: QuoteLine) -> str:
    """Return a line in one go, for two versions of it beside each other."""
    left_out = ", left out" if line.struck else ""
    return f"{line.stands.says}, {said_says(line.stands)}{left_out}"


def changed_says(line: QuoteLine) -> str:
    """Return what a line was before a person changed it; empty where nobody did."""
    was, stands = line.stood_on, line.stands
    if was is None:
        return ""
    said = [f"“{was.says}”"] if was.says != stands.says else []
    if (was.count, was.amount) != (stands.count, stands.amount):
        said.append(said_says(was))
    return f"Changed by hand; it came as {', '.join(said)}." if said else ""


def news_says(line: QuoteLine) -> str:
    """Return what changed beneath a person's hand; empty where nothing did."""
    if line.gone:
        return "Nothing asks for it any more; it stays until you take it out."
    if line.now is None or line.stood_on is None:
        return ""
    return (
        f"You changed it when it came as {said_says(line.stood_on)}; it comes as"
        f" {said_says(line.now)} now."
    )


def ceiling_says(ceiling: Money) -> str:
    """Return what stands beneath the price."""
    return f"Not above {print_money(ceiling)} without a call to the client first."


def anew_says(now: JobQuote, agreed: Money) -> str:
    """Return what all of it would be offered at now; empty where that is what was agreed."""
    if now.quote is None or now.quote.price == agreed:
        return ""
    return f"Reckoned anew, all of it would be offered at {print_money(now.quote.price)}."


def covers_says(now: JobQuote) -> str:
    """Return what the price covers, in one line."""
    counting = [line for line in now.lines if line.counts and line.key != RUNS_OVER]
    work = sum(line.kind is Kind.WORK for line in counting)
    what = [f"{count(work, 'sort')} of work"] if work else []
    if rest := len(counting) - work:
        what.append(f"{count(rest, 'sort')} of parts and materials")
    drums = [f"the {one.kept.name} ({one.scheme.title})" for one in now.drums]
    holes = sum(one.scheme.extra_holes for one in now.drums)
    added = f"{count(holes, 'hole')} {'is' if holes == 1 else 'are'} added" if holes else (
        "no hole is added"
    )  # fmt: skip
    covered = listed(what) or "nothing yet"
    return f"{capfirst(listed(drums))}: {covered}; {added}." if drums else f"{capfirst(covered)}."


def stands_says(kept: KeptQuote, quote: Quote | None, *, asks: bool = False) -> str:
    """Return whether anybody was handed this price, or said yes to it.

    Parameters
    ----------
    asks : bool
        Whether it asks for money that nobody said yes to.
    """
    if kept.accepted is not None:
        said = accepted_says(kept.accepted.yes, kept.accepted.offer)
        if asks and quote is not None:
            return (
                f"{said} It would come to {print_money(quote.price)} now, and nobody said yes to"
                " that: what differs stands below."
            )
        return said
    if not kept.offers:
        return "DRAFT: it has not been handed to anybody yet."
    last = kept.offers[-1]
    said = f"{handed_says(last)} No yes to it is written down."
    if quote is not None and quote.price != last.quote.price:
        return f"DRAFT: the price has changed since it was handed out. {said}"
    return said


def wanting_says(now: JobQuote) -> str:
    """Return which drums want the client's yes before the drill; empty where none does."""
    drums = [f"the {one.kept.name}" for one in now.drums if one.scheme.draft]
    if not drums:
        return ""
    return (
        f"Before the drill is picked up: the client's yes to what is for good on {listed(drums)}."
    )


def handed_says(made: Offer) -> str:
    """Return an offer in one sentence."""
    return (
        f"Offer {made.number}, {print_money(made.quote.price)}, was handed to {made.to} on"
        f" {say_day(made.day)} and holds until {say_day(made.last_day)}."
    )


def no_price_says(lines: int) -> str:
    """Return why there is no price, with the way out."""
    which = "One line has" if lines == 1 else f"{lines} lines have"
    return f"{which} no price: type one, or leave the line out."


def hours_says(now: JobQuote) -> list[str]:
    """Return the hours that the price rests on."""
    hours, share = now.work.hours, round(100 * SHARED_SPREAD)
    if not hours.usual_min:
        return []
    return [
        f"Hands at work {print_minutes(hours.usual_min)} as a rule; one job in ten is done within"
        f" {print_minutes(hours.quick_min)}, one in ten takes more than"
        f" {print_minutes(hours.slow_min)}.",
        now.work.whose,
        "A hard shell is hard for every hole: over each line's own spread lies one factor for the"
        f" whole job, give or take {share} % (common practice, no source). Hours that were added"
        " line by line would look surer than they are.",
    ]


def terms_says(terms: Terms) -> list[tuple[str, str]]:
    """Return the terms by which hours and parts become a price."""
    said = [
        ("Put on for what cannot be seen", f"{print_rate(terms.contingency)} of the work"),
        ("The ceiling", f"at least {print_rate(terms.over)} above the price"),
        ("Tax", tax_says(terms)),
        ("Deposit", print_rate(terms.deposit) if terms.deposit else "none"),
        ("The price holds", count(terms.valid_days, "day")),
    ]
    return said + [("Not in it", line) for line in terms.exclusions]


def tax_says(terms: Terms) -> str:
    """Return how tax is reckoned and rounded."""
    if terms.tax is TaxSort.NONE:
        return f"none. {CHECK}"
    rate = print_rate(terms.rate)
    how = {
        TaxSort.ADDED: "in the prices as typed" if terms.included else "added to the prices",
        TaxSort.MARGIN: "within the margin over what the goods were bought for",
    }[terms.tax]
    return f"{rate}, {how}; rounded: {terms.rounding}. {CHECK}"

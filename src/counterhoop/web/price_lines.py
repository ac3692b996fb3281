"""The lines of a quote as its page lists them: drum by drum, what was changed, what is open."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass, replace

from counterhoop.bench.price.job_quote import JobQuote
from counterhoop.job.price.line import Origin, QuoteLine
from counterhoop.job.price.quote import CONTINGENCY, Quote
from counterhoop.job.price.sums import DISCOUNT
from counterhoop.quantities.money import Money, print_money
from counterhoop.web.look.say import capfirst
from counterhoop.web.price_words import FROM, amount_says, changed_says, news_says

WHOLE = "For the whole job"


@dataclass(frozen=True, slots=True, kw_only=True)
class LineShown:
    """One line.

    Attributes
    ----------
    ident : str
        Its id on the page: the same as long as its key is.
    says, amount, origin : str
    typed_amount : str
        As it stands in its form; empty where no price is known.
    changed, news : str
        What it was before a person changed it, and what changed since.
    back : str
        What its last press says: drops a person's change, or takes a line out that is theirs
        alone; empty where there is nothing to drop.
    """

    line: QuoteLine
    ident: str
    says: str
    amount: str
    origin: str
    typed_amount: str
    changed: str
    news: str
    back: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """The lines of one drum, or of the job as a whole.

    Attributes
    ----------
    ident, name, beside : str
        Before every id, what it is called, and by which scheme.
    amount : str
        What its lines that count come to; empty while one has no price.
    """

    ident: str
    name: str
    beside: str
    amount: str
    lines: tuple[LineShown, ...]


def line_ident(key: str) -> str:
    """Return the id of a line on the page.

    Examples
    --------
    >>> line_ident("typed: 1")
    'line-7fdd4b3f'
    """
    return f"line-{hashlib.sha256(key.encode()).hexdigest()[:8]}"


def line_shown(line: QuoteLine) -> LineShown:
    """Return one line."""
    amount = line.stands.amount
    back = ""
    if line.origin is Origin.TYPED or line.gone:
        back = "Take it out"
    elif line.stood_on is not None:
        back = "As it came"
    times = f"{line.stands.count} × " if line.stands.count > 1 else ""
    return LineShown(
        line=line,
        ident=line_ident(line.key),
        says=f"{times}{line.stands.says if times else capfirst(line.stands.says)}",
        amount=amount_says(amount),
        origin=FROM[line.origin],
        typed_amount="" if amount is None else print_money(amount),
        changed=changed_says(line),
        news=news_says(line),
        back=back,
    )


def open_lines(now: JobQuote) -> tuple[LineShown, ...]:
    """Return the lines that hold the price up, their drum's name in front where there are some."""
    names = {one.kept.id: one.kept.name for one in now.drums}
    found = []
    for line in now.lines:
        if line.counts and line.stands.amount is None:
            name = names.get(_drum(line)) if len(names) > 1 else ""
            found.append((line, name))
    return tuple(
        shown if not name else _named(shown, name)
        for line, name in found
        for shown in (line_shown(line),)
    )


def lines_by_drum(now: JobQuote) -> tuple[Lines, ...]:
    """Return all lines, drum by drum, then those of the job as a whole."""
    groups: dict[str, list[QuoteLine]] = {one.kept.id: [] for one in now.drums}
    rest: list[QuoteLine] = []
    for line in now.lines:
        groups.get(_drum(line), rest).append(line)
    made = [
        Lines(
            ident=f"lines-{one.kept.id}",
            name=capfirst(one.kept.name),
            beside=f"scheme {one.scheme.number}{'' if one.taken else ', not taken yet'}",
            amount=_together(groups[one.kept.id]),
            lines=tuple(map(line_shown, groups[one.kept.id])),
        )
        for one in now.drums
    ]
    if rest:
        made.append(
            Lines(
                ident="lines-job", name=WHOLE if now.drums else "Lines", beside="",
                amount=_together(rest), lines=tuple(map(line_shown, rest)),
            )
        )  # fmt: skip
    return tuple(made)


def sums_says(quote: Quote) -> list[tuple[str, str]]:
    """Return how the lines come to the price."""
    rows = {row.key: row for row in quote.sums.rows}
    nothing = Money(minor=0, currency=quote.price.currency)
    own = [row.figures.net for key, row in rows.items() if key not in (CONTINGENCY, DISCOUNT)]
    said = [("The lines", sum(own, start=nothing))]
    said += [
        (capfirst(rows[key].says), rows[key].figures.net)
        for key in (CONTINGENCY, DISCOUNT)
        if key in rows
    ]
    if quote.sums.total.tax.minor:
        said.append(("Tax", quote.sums.total.tax))
    said.append(("The price", quote.price))
    return [(label, print_money(amount)) for label, amount in said]


def priced_so_far(now: JobQuote) -> str:
    """Return what the lines that have a price come to; empty where none has."""
    return _together([one for one in now.lines if one.stands.amount is not None])


def _together(lines: Iterable[QuoteLine]) -> str:
    amounts = [one.stands.amount for one in lines if one.counts]
    known = [one for one in amounts if one is not None]
    if not known or len(known) < len(amounts) or len({one.currency for one in known}) > 1:
        return ""
    return print_money(sum(known[1:], start=known[0]))


def _drum(line: QuoteLine) -> str:
    drum, slash, _ = line.key.partition("/")
    return drum if slash else ""


def _named(shown: LineShown, name: str) -> LineShown:
    return replace(shown, says=f"{capfirst(name)}: {shown.says}")

"""What is not as it was offered and accepted: lines, price, and what is done to each drum."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from counterhoop.bench.change.found import found_on
from counterhoop.bench.change.typed import ON_THE_WAY
from counterhoop.bench.price.job_quote import DrumPriced, JobQuote
from counterhoop.bench.price.kept_quote import Accepted, DrumOffered
from counterhoop.bench.price.works import RUNS_OVER
from counterhoop.errors import BadInput
from counterhoop.job.price.line import Kind, QuoteLine
from counterhoop.job.price.quote import CONTINGENCY, Quote, quote_of
from counterhoop.job.price.sums import Row
from counterhoop.job.yes.differences import Difference, differences
from counterhoop.job.yes.note import ChangeNote, DayMoved
from counterhoop.job.yes.say import Says
from counterhoop.quantities.money import Money, print_money
from counterhoop.scheme.code import code_for
from counterhoop.shell.approval import Approval

FOLLOWS: Final = (CONTINGENCY, RUNS_OVER)
"""Keys of the lines that come of all others: what differs in them is said by the price."""
LEARNED: Final = "The log or your figures have learned since: the same work would be offered at"


@dataclass(frozen=True, slots=True, kw_only=True)
class Since:
    """What differs from the accepted offer.

    Attributes
    ----------
    price : tuple of str
        What differs in lines and price, a sentence each.
    drums : tuple of (str, tuple of Difference)
        By the drum's name for programs, what is done to it that was not offered so.
    learned : str
        What the same would be offered at by the log and the figures of now; empty where they make
        no difference. That is no change: agreed work stays at its price.
    """

    price: tuple[str, ...] = ()
    drums: tuple[tuple[str, tuple[Difference, ...]], ...] = ()
    learned: str = ""

    @property
    def any(self) -> bool:
        """Whether anything does."""
        return bool(self.price or self.drums)


def since_accepted(now: JobQuote, *, say: Says, agreed: Money | None = None) -> Since:
    """Return what is not as the accepted offer had it; nothing where none is accepted.

    Parameters
    ----------
    now : JobQuote
        As the job stands.
    say : Says
        Prints lengths in the client's units.
    agreed : Money, optional
        The price with what was agreed after the offer; without it, that of the offer.
    """
    accepted = now.kept.accepted
    if accepted is None:
        return Since()
    offered = {one.id: one for one in accepted.offer.drums}
    price, learned = list(_drums_apart(now.drums, accepted.offer.drums)), ""
    if now.quote is None:
        price.append(f"Its price cannot be reckoned now: {now.fault}")
    elif (was := accepted.offer.quote.price.currency) != now.quote.price.currency:
        price.append(f"It was agreed in {was} and is reckoned in {now.quote.price.currency} now.")
    else:
        stands = _at_agreed_prices(accepted.offer.quote, now.quote)
        asked = now.quote if now.kept.price else stands
        price += _rows_apart(accepted.offer.quote, stands, asked=asked.price, agreed=agreed)
        if now.quote.price != asked.price:
            learned = f"{LEARNED} {now.quote.price} now."
    drums = []
    for drum in now.drums:
        if (before := offered.get(drum.kept.id)) is None:
            continue
        yes = _as_yes(accepted, before, drum)
        found = differences(yes, drum.scheme, say=say, not_known=holes_found_since(drum, yes.when))
        if found:
            drums.append((drum.kept.id, found))
    return Since(price=tuple(price), drums=tuple(drums), learned=learned)


def change_note(
    now: JobQuote, drum_id: str, *, approved: Sequence[Approval] = (),
    found: tuple[str, ...] = (), day: DayMoved | None = None, say: Says,
) -> ChangeNote:  # fmt: skip
    """Return the note by which a client agrees to what changed on one drum since.

    Its price is what this drum alone makes dearer: a job of several drums has a note for each.

    Parameters
    ----------
    approved : sequence of Approval
        Of the job; the last that stands for this drum is what it differs from, else what the
        accepted offer had of it.
    found : tuple of str
        What was found on the way, a sentence each.
    day : DayMoved, optional

    Raises
    ------
    BadInput
        Where nothing was accepted, the drum was not offered, or nothing differs.
    """
    drum, accepted = now.drum(drum_id), now.kept.accepted
    before = next((one for one in accepted.offer.drums if one.id == drum_id), None) if (
        accepted
    ) else None  # fmt: skip
    if accepted is None or before is None:
        raise BadInput(
            "no price was agreed for this drum yet", where="change note",
            wanted="an offer that was accepted",
        )  # fmt: skip
    standing = [one for one in approved if one.drum == drum.scheme.drum and one.taken_back is None]
    agreed = standing[-1] if standing else _as_yes(accepted, before, drum)
    then = accepted.offer.quote
    more = with_drum(then, now, drum_id).price - by_lines(then, then.lines).price
    return ChangeNote(
        found=found,
        agreed=agreed,
        differs=differences(
            agreed, drum.scheme, say=say, not_known=holes_found_since(drum, agreed.when)
        ),
        more=more,
        in_all=then.price + more,
        day=day,
    )


def holes_found_since(drum: DrumPriced, yes_on: dt.date) -> frozenset[int]:
    """Return the numbers of holes that nobody knew of when the client said yes.

    In the survey they stand behind all others, in the order in which they were found.
    """
    holes = [one.number for one in drum.plan.found.drum.holes if one.purpose == ON_THE_WAY]
    things = [one for one in found_on(drum.kept).stands if one.sort == "hole"]
    return frozenset(
        number
        for number, one in zip(sorted(holes), things, strict=False)
        if one.on is not None and one.on >= yes_on
    )


def with_drum(then: Quote, now: JobQuote, drum_id: str) -> Quote:
    """Return the accepted quote with the lines of one drum as they are now.

    Work that is as much as it was stays at the price at which it was agreed, however long the log
    says by now that it takes; what a person typed since counts. What runs over grows as the work
    does: so the notes on two drums of a job never both have what runs over on either.
    """
    own = f"{drum_id}/"
    agreed = {ln.key: ln for ln in then.lines if ln.counts and ln.key.startswith(own)}
    lines = [_as_agreed(ln, agreed.get(ln.key)) for ln in now.need().lines]
    if _said(then.lines, own) == _said(lines, own):
        return by_lines(then, then.lines)
    others = [ln for ln in then.lines if not ln.key.startswith(own) and ln.key not in FOLLOWS]
    its = [ln for ln in lines if ln.key.startswith(own)]
    return by_lines(then, (*others, *its, *_runs_over(then.lines, (*others, *its))))


def whole_job_apart(accepted: Accepted, now: JobQuote) -> tuple[str, ...]:
    """Return what differs in lines that no drum has for itself, as a wrap cut for several.

    They are on no drum's change note: two notes would ask for them twice.
    """
    then, stands = accepted.offer.quote, _at_agreed_prices(accepted.offer.quote, now.need())
    ids = {*(one.id for one in accepted.offer.drums), *(one.kept.id for one in now.drums)}
    keys = dict.fromkeys(
        line.key
        for line in (*then.lines, *stands.lines)
        if line.key not in FOLLOWS and line.key.partition("/")[0] not in ids
    )
    was = {row.key: row for row in then.sums.rows}
    rows = {row.key: row for row in stands.sums.rows}
    return tuple(said for key in keys if (said := _row_apart(was.get(key), rows.get(key))))


def _at_agreed_prices(then: Quote, now: Quote) -> Quote:
    """Return the quote of now with all that is as much as it was at the price of then."""
    agreed = {ln.key: ln for ln in then.lines if ln.counts}
    lines = [_as_agreed(ln, agreed.get(ln.key)) for ln in now.lines if ln.key not in FOLLOWS]
    over = [ln for ln in now.lines if ln.key == RUNS_OVER and ln.touched]
    over = over or list(_runs_over(then.lines, lines))
    return quote_of((*lines, *over), rules=now.rules, discount=now.discount)


def _runs_over(then: Sequence[QuoteLine], now: Sequence[QuoteLine]) -> Iterator[QuoteLine]:
    """Yield the line of what runs over, with the share of the work that was agreed of it."""
    before = _work([ln for ln in then if ln.key not in FOLLOWS])
    for line in then:
        if line.key != RUNS_OVER:
            continue
        if not line.counts or line.stood_on is not None or not before:
            yield line
            continue
        amount = line.amount.times(Fraction(_work(now), before))
        yield replace(line, stands=replace(line.stands, amount=amount))


def _work(lines: Iterable[QuoteLine]) -> int:
    return sum(ln.amount.minor for ln in lines if ln.counts and ln.kind is Kind.WORK)


def _as_agreed(now: QuoteLine, then: QuoteLine | None) -> QuoteLine:
    same = then is not None and not now.touched and now.stands.count == then.stands.count
    return then if then is not None and same else now


def by_lines(then: Quote, lines: Iterable[QuoteLine]) -> Quote:
    """Return what lines come to on the accepted terms; a price typed for the whole is no line's."""
    return quote_of(lines, rules=then.rules, discount=then.discount)


def _said(lines: Sequence[QuoteLine], own: str) -> list[tuple[str, Money | None]]:
    return [(ln.key, ln.stands.amount) for ln in lines if ln.counts and ln.key.startswith(own)]


def _as_yes(accepted: Accepted, before: DrumOffered, drum: DrumPriced) -> Approval:
    """Return the yes to an offer as one to what it had of a drum; it lifts no DRAFT."""
    return Approval(
        drum=drum.scheme.drum,
        who=accepted.yes.who,
        when=accepted.yes.when,
        how=accepted.yes.how,
        covers=code_for(drum.scheme.drum, before.permanent),
        lines=before.permanent,
    )


def _drums_apart(now: Sequence[DrumPriced], then: Sequence[DrumOffered]) -> tuple[str, ...]:
    before = {one.id: one for one in then}
    here = {one.kept.id for one in now}
    return (
        *(f"The {one.kept.name} was not offered." for one in now if one.kept.id not in before),
        *(
            f"The {one.name} was offered and is not in it now."
            for one in then
            if one.id not in here
        ),
    )


def _rows_apart(then: Quote, now: Quote, *, asked: Money, agreed: Money | None) -> list[str]:
    was = {row.key: row for row in then.sums.rows if row.key not in FOLLOWS}
    rows = {row.key: row for row in now.sums.rows if row.key not in FOLLOWS}
    said = [_row_apart(was.get(key), rows.get(key)) for key in dict.fromkeys((*was, *rows))]
    apart = [one for one in said if one]
    was_agreed = then.price if agreed is None else agreed
    if was_agreed != asked:
        more = asked - was_agreed
        how = "more" if more.minor > 0 else "less"
        off = print_money(Money(minor=abs(more.minor), currency=more.currency))
        apart.append(
            f"In all {print_money(was_agreed)} was agreed; it comes to {print_money(asked)}"
            f" now, {off} {how}."
        )
    return apart


def _row_apart(was: Row | None, now: Row | None) -> str:
    if was is None and now is not None:
        return f"{_first(now.says)}, {_counted(now)}: not in what was agreed."
    if now is None and was is not None:
        return f"{_first(was.says)}, {_counted(was)}: agreed, and asked for no more."
    if was is None or now is None or _alike(was, now):
        return ""
    return f"{_first(now.says)}: {_counted(was)} was agreed, {_counted(now)} now."


def _alike(was: Row, now: Row) -> bool:
    # A coin of tax that is shared out falls now on this line, now on that.
    apart = (now.figures.gross - was.figures.gross).minor
    return was.count == now.count and abs(apart) <= 1


def _counted(row: Row) -> str:
    amount = print_money(row.figures.gross)
    return amount if row.count == 1 else f"{row.count} for {amount}"


def _first(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"

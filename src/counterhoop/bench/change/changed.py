"""What is other than a drum's client agreed to, what that costs, and when it is ready then."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from counterhoop.bench.change.agreed import agreed_changes, charged_on
from counterhoop.bench.change.found import Charged, Found, found_on
from counterhoop.bench.change.on_top import key_of
from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.price.job_quote import JobQuote
from counterhoop.bench.price.kept_quote import Accepted
from counterhoop.bench.price.since import by_lines, change_note, whole_job_apart, with_drum
from counterhoop.bench.price.work_words import each_done
from counterhoop.errors import BadInput
from counterhoop.job.bill.done import ChangeCharged, lines_done
from counterhoop.job.price.line import Kind, QuoteLine
from counterhoop.job.price.quote import Quote
from counterhoop.job.price.sums import add_up
from counterhoop.job.yes.note import ChangeNote, DayMoved
from counterhoop.job.yes.say import Says
from counterhoop.quantities.money import Money
from counterhoop.shell.approval import Approval

WITH_WORK: Final = (Kind.WORK, Kind.OTHER)
"""What hands do and what is none of the other kinds is one charge: a note has one row for it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """What a client is asked about one drum.

    Attributes
    ----------
    note : ChangeNote
        What was found, what differs, price and day.
    things : tuple of int
        Numbers of what was found and waits for an answer, or is in the price after a no.
    offer : int
        Number of the offer whose price moves.
    charges : tuple of Charged
        What comes on the bill with a yes.
    approved : bool
        Whether a yes to what is cut for good stood before, and what differs from it can be said
        line by line: only then is another asked for here.
    code : str
        Of what is cut for good now; empty where nothing is.
    """

    note: ChangeNote
    things: tuple[int, ...]
    offer: int
    charges: tuple[Charged, ...]
    approved: bool
    code: str

    @property
    def asks(self) -> bool:
        """Whether the client must be asked: for what was found, and for what is cut otherwise."""
        return bool(self.things or self.note.differs)

    @property
    def seen(self) -> str:
        """All that was shown, short: an answer is to just this."""
        day = f"{self.note.day.was} {self.note.day.now}" if self.note.day else ""
        return f"{self.code}|{self.note.more}|{self.note.in_all}|{self.things}|{day}"

    @property
    def says(self) -> str:
        """Price and day, in sentences."""
        day = self.note.day.says if self.note.day else ""
        return f"{self.note.price_says} {day}".strip()


def changed_on(
    job: KeptJob, drum_id: str, now: JobQuote, *, approvals: Sequence[Approval],
    day: DayMoved | None = None, say: Says,
) -> Changed:  # fmt: skip
    """Return what differs on a drum from what its client agreed to.

    What was agreed on the way counts as agreed: a second change is asked for by itself. What was
    said no to is named again while it is in a price that differs. The price is what the bill will
    come to with it, to the coin.

    Parameters
    ----------
    now : JobQuote
        As the job stands.
    approvals : sequence of Approval
        Of the job.

    Raises
    ------
    BadInput
        Where no price was agreed for this drum, its price cannot be reckoned, or nothing differs
        and nothing was found.
    """
    kept, drum, accepted = job.drum(drum_id), now.drum(drum_id), now.kept.accepted
    found, charges = found_on(kept), charges_of(job, drum_id, now, accepted) if accepted else ()
    again = _in_the_price(found.said_no, drum_id, now) if charges else ()
    named = (*(one.says for one in found.open), *map(found.said_no_says, again))
    note = change_note(now, drum_id, approved=approvals, found=named, day=day, say=say)
    assert accepted is not None
    approved = all(one.was or one.now for one in note.differs) and any(
        one.drum == drum.scheme.drum and one.taken_back is None for one in approvals
    )
    return Changed(
        note=replace(
            _priced(note, job, drum_id, charges, accepted.offer.quote),
            cuts=approved,
            work=_work(kept, now, accepted) if charges else (),
            beside=whole_job_apart(accepted, now),
        ),
        things=tuple(one.number for one in (*found.open, *again)),
        offer=accepted.offer.number,
        charges=charges,
        approved=approved,
        code=drum.scheme.code if drum.scheme.permanent else "",
    )  # fmt: skip


def _work(drum: KeptDrum, now: JobQuote, accepted: Accepted) -> tuple[str, ...]:
    """Return what is done on a drum that no yes before was about."""
    then = {line.key: line.stands.count for line in accepted.offer.quote.lines if line.counts}
    # Of what was agreed already only what is on top of it.
    more = [
        replace(line, stands=replace(line.stands, count=on_top))
        for line in now.need().lines
        if line.counts
        and line.key.startswith(f"{drum.id}/")
        and (on_top := line.stands.count - then.get(line.key, 0)) > 0
    ]
    before = {said for one in found_on(drum).answers if one.yes for said in one.note.work}
    return tuple(one for one in each_done(more, drum.name) if one not in before)


def _in_the_price(found: Iterable[Found], drum_id: str, now: JobQuote) -> tuple[Found, ...]:
    """Return what its scheme works on, and what has a line of its own."""
    lines = {line.key for line in now.lines if line.counts}
    return tuple(one for one in found if one.place or key_of(drum_id, one.number) in lines)


def charges_of(
    job: KeptJob, drum_id: str, now: JobQuote, accepted: Accepted
) -> tuple[Charged, ...]:
    """Return by kind what the drum's lines come to more than what was agreed of them so far."""
    then = accepted.offer.quote
    sums = _by_kind(with_drum(then, now, drum_id).lines)
    sums.subtract(_by_kind(by_lines(then, then.lines).lines))
    for one in charged_on(job.drum(drum_id), offer=accepted.offer.number):
        sums[one.kind] -= one.amount.minor
    return tuple(
        Charged(kind=kind, minor=minor, currency=then.price.currency)
        for kind, minor in sums.items()
        if minor
    )


def _by_kind(lines: Sequence[QuoteLine]) -> Counter[Kind]:
    sums: Counter[Kind] = Counter()
    for line in lines:
        if line.counts:
            sums[Kind.WORK if line.kind in WITH_WORK else line.kind] += line.amount.minor
    return sums


def _priced(
    note: ChangeNote, job: KeptJob, drum_id: str, charges: Sequence[Charged], then: Quote
) -> ChangeNote:
    agreed = agreed_changes(job)
    new = [
        ChangeCharged(
            key=f"{drum_id}/now/{one.kind}", says="this change", kind=Kind(one.kind),
            amount=Money(minor=one.minor, currency=one.currency),
        )
        for one in charges
    ]  # fmt: skip
    before, after = bill_with(then, agreed), bill_with(then, (*agreed, *new))
    return replace(note, more=after - before, in_all=after)


def bill_with(then: Quote, changes: Sequence[ChangeCharged]) -> Money:
    """Return what the bill of an accepted quote comes to with what was agreed after it."""
    return add_up(
        lines_done(then, changes=changes), tax=then.rules.tax, currency=then.price.currency,
        discount=then.discount,
    ).total.gross  # fmt: skip


def no_price(now: JobQuote, drum_id: str) -> str:
    """Say why no change note can be made of a drum; empty where one can."""
    if now.kept.accepted is None:
        return "No price was agreed yet: what was found is in the quote, not on a change note."
    if all(one.id != drum_id for one in now.kept.accepted.offer.drums):
        return "This drum was not in the price that was agreed: offer it first."
    if now.quote is None:
        fault = now.fault or BadInput("no quote can be made yet")
        return f"Its price cannot be reckoned now: {fault}."
    return ""

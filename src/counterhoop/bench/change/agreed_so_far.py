"""What a client has agreed to pay so far: the accepted offer, moved by every yes after it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from counterhoop.bench.change.changed import bill_with, charges_of
from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.price.job_quote import JobQuote
from counterhoop.bench.price.kept_quote import kept_quote
from counterhoop.bench.record.next_bill import charged, raised_to
from counterhoop.errors import BadInput
from counterhoop.job.bill.done import ChangeCharged, SaidYes, ceiling_now
from counterhoop.job.price.quote import Quote
from counterhoop.quantities.day import say_day
from counterhoop.quantities.money import Money, print_money

NOTE_ENDS: Final = "/"
"""Ends the part of a key that the lines of one note share."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AgreedSoFar:
    """The price that stands.

    Attributes
    ----------
    first : Money
        What the accepted offer asked.
    price, ceiling : Money
        With everything that was agreed after it: what the bill will come to, and may come to.
    later : tuple of (Money, SaidYes)
        What each yes after the first adds, below zero for less; the yes to it.
    """

    first: Money
    price: Money
    ceiling: Money
    later: tuple[tuple[Money, SaidYes], ...] = ()

    @property
    def says(self) -> str:
        """What was agreed when; empty where there is but the yes to the offer."""
        if not self.later:
            return ""
        said = [f"{print_money(self.first)} was agreed with the offer"]
        for apart, yes in self.later:
            how = "more" if apart.minor > 0 else "less"
            off = print_money(Money(minor=abs(apart.minor), currency=apart.currency))
            said.append(f"{off} {how} on {say_day(yes.when)}")
        return f"{', '.join(said)}: {print_money(self.price)} in all."


def agreed_so_far(job: KeptJob) -> AgreedSoFar | None:
    """Return the price that stands for a job; None where no offer is accepted."""
    accepted = kept_quote(job).accepted
    if accepted is None:
        return None
    then = accepted.offer.quote
    try:
        beside = charged(job, currency=then.price.currency)
        raised = raised_to(job, currency=then.price.currency)
    except BadInput:
        # Said on the sheet of bills, where it is put right.
        beside, raised = (), ()
    changes = [one for one in beside if one.yes is not None]
    return AgreedSoFar(
        first=then.price,
        price=bill_with(then, changes),
        ceiling=ceiling_now(then, changes=changes, raised=raised),
        later=tuple(_later(then, changes)),
    )


def asks_more(job: KeptJob, now: JobQuote) -> bool:
    """Tell whether a drum of an accepted offer asks for money that nobody said yes to yet."""
    accepted = now.kept.accepted
    if accepted is None or now.quote is None:
        return False
    if accepted.offer.quote.price.currency != now.quote.price.currency:
        return True
    here = {one.kept.id for one in now.drums}
    return any(
        charges_of(job, one.id, now, accepted) for one in accepted.offer.drums if one.id in here
    )


def _later(then: Quote, changes: Iterable[ChangeCharged]) -> list[tuple[Money, SaidYes]]:
    said: list[tuple[Money, SaidYes]] = []
    so_far: list[ChangeCharged] = []
    before = then.price
    for (_, yes), its in sorted(_by_yes(changes).items(), key=lambda pair: pair[0][1].when):
        so_far += its
        after = bill_with(then, so_far)
        if after != before:
            said.append((after - before, yes))
        before = after
    return said


def _by_yes(
    changes: Iterable[ChangeCharged],
) -> dict[tuple[str, SaidYes], list[ChangeCharged]]:
    found: dict[tuple[str, SaidYes], list[ChangeCharged]] = {}
    for one in changes:
        assert one.yes is not None
        # A note may have work and parts: one yes.
        found.setdefault((one.key.rpartition(NOTE_ENDS)[0] or one.key, one.yes), []).append(one)
    return found

"""What the next invoice of a job will hold: what was agreed, what changed, what comes off."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from counterhoop.bench.change.agreed import agreed_changes
from counterhoop.bench.folders.days import day_written
from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.folders.kinds import BILL
from counterhoop.bench.price.bills import JobBills
from counterhoop.bench.price.kept_quote import Accepted, kept_quote
from counterhoop.bench.price.work_words import works_agreed
from counterhoop.errors import BadInput
from counterhoop.job.bill.done import ChangeCharged, HigherCeiling, SaidYes
from counterhoop.job.bill.invoice import Invoice, invoice_of
from counterhoop.quantities.money import Money, parse_money

RAISED: Final = "raised"
BESIDE: Final = "beside"
HOLD: Final = "hold"
NOT_GIVEN: Final = "not given out"
"""Stands for the number of an invoice that has none yet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NextBill:
    """The next invoice as it would be.

    Attributes
    ----------
    accepted : Accepted or None
        What it rests on.
    changes : tuple of ChangeCharged
    raised : tuple of HigherCeiling
    hold : bool
    bill : Invoice or None
        None where it cannot be made; ``fault`` says why.
    fault : BadInput or None
    """

    accepted: Accepted | None = None
    changes: tuple[ChangeCharged, ...] = ()
    raised: tuple[HigherCeiling, ...] = ()
    hold: bool = False
    bill: Invoice | None = None
    fault: BadInput | None = None

    @property
    def currency(self) -> str:
        """Of the offer; empty without one."""
        return self.accepted.offer.quote.price.currency if self.accepted else ""

    @property
    def seen(self) -> str:
        """What was shown of it, short: an invoice that is given out is just this one."""
        return f"{self.bill.total}|{self.bill.sums.left}" if self.bill else ""


def next_bill(job: KeptJob, bills: JobBills, *, day: dt.date) -> NextBill:
    """Return what the next invoice of a job would hold."""
    accepted = kept_quote(job).accepted
    if accepted is None:
        return NextBill()
    own = accepted.offer.quote.price.currency
    try:
        changes, raised = charged(job, currency=own), raised_to(job, currency=own)
    except BadInput as fault:
        return NextBill(accepted=accepted, fault=fault)
    made = NextBill(
        accepted=accepted, changes=changes, raised=raised,
        hold=job.kept(BILL).table.get(HOLD) is True,
    )  # fmt: skip
    try:
        bill = invoice_of(
            accepted.offer.quote, number=NOT_GIVEN, day=day,
            job=str(job.job.get("number") or job.title), client=str(job.job.get("client") or ""),
            changes=changes, raised=raised, hold=made.hold, deposits=bills.deposits,
            work=works_agreed(accepted),
        )  # fmt: skip
    except BadInput as fault:
        # Its number means nothing to anybody yet.
        return replace(made, fault=BadInput(fault.what, given=fault.given, wanted=fault.wanted,
                                            step=fault.step))  # fmt: skip
    return replace(made, bill=bill)


def charged(job: KeptJob, *, currency: str) -> tuple[ChangeCharged, ...]:
    """Return what goes on the bill beside the offer: agreed changes, then what is typed for it.

    Raises
    ------
    BadInput
        For an amount that cannot be read.
    """
    typed = (
        ChangeCharged(
            key=f"beside {place}",
            says=_text(row, "says") or "beside the offer",
            amount=_money(row, "amount", where=f"{BESIDE}.{place - 1}.amount", currency=currency),
            yes=_yes(row),
        )
        for place, row in enumerate(_rows(job, BESIDE), 1)
        if row.get("amount")
    )
    return (*agreed_changes(job), *typed)


def raised_to(job: KeptJob, *, currency: str) -> tuple[HigherCeiling, ...]:
    """Return every yes to a higher ceiling.

    Raises
    ------
    BadInput
        For an amount that cannot be read, and a yes that nobody gave.
    """
    found = []
    for place, row in enumerate(_rows(job, RAISED)):
        if not row.get("to"):
            continue
        to = _money(row, "to", where=f"{RAISED}.{place}.to", currency=currency)
        yes = _yes(row)
        if yes is None:
            raise BadInput(
                "a higher ceiling without who said yes, when and how", where="raised",
                given=str(to), step="Fill in all three.",
            )  # fmt: skip
        found.append(HigherCeiling(to=to, yes=yes))
    return tuple(found)


def _yes(row: Mapping[str, Any]) -> SaidYes | None:
    who, how, when = _text(row, "who"), _text(row, "how"), day_written(row.get("when"))
    return SaidYes(who=who, when=when, how=how) if who and how and when else None


def _money(row: Mapping[str, Any], name: str, *, where: str, currency: str) -> Money:
    return parse_money(_text(row, name), where=where, otherwise=currency)


def _rows(job: KeptJob, name: str) -> list[Mapping[str, Any]]:
    rows = job.kept(BILL).table.get(name)
    return [row for row in rows if isinstance(row, dict)] if isinstance(rows, list) else []


def _text(row: Mapping[str, Any], name: str) -> str:
    value = row.get(name)
    return value.strip() if isinstance(value, str) else ""

"""Invoices, credit notes and receipts: given out under their numbers, and read again."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from functools import cache
from typing import Any, Final, TypeAlias

from sqlalchemy import Connection

from counterhoop.errors import BadInput
from counterhoop.job.bill.credit import CreditNote
from counterhoop.job.bill.invoice import Invoice
from counterhoop.job.bill.receipt import Receipt
from counterhoop.store.body import Json
from counterhoop.store.running.issue import issue
from counterhoop.store.running.issued import Issued
from counterhoop.store.running.style import NumberStyle
from counterhoop.store.stamp import Stamp

Bill: TypeAlias = Invoice | CreditNote | Receipt

KINDS: Final[dict[str, type[Bill]]] = {
    "invoice": Invoice,
    "credit note": CreditNote,
    "receipt": Receipt,
}


def issue_bill(
    connection: Connection,
    make: Callable[[str], Bill],
    *,
    kind: str,
    style: NumberStyle,
    job_id: str | None,
    day: dt.date,
    stamp: Stamp,
    series: str = "",
    why_earlier: str = "",
    mark: str = "",
) -> tuple[Issued, Bill]:
    """Give out what ``make`` makes of the next number; the rest as for ``issue``.

    Parameters
    ----------
    make : callable
        Given the number, returns the paper; it carries that number and this day.
    kind : str
        One of ``KINDS``.
    series : str
        Where several kinds share a series; else each has its own.

    Raises
    ------
    BadInput
        As ``issue``, and for a paper that is of another kind, number or day.
    """

    def body(number: str) -> Json:
        paper = make(number)
        told = (type(paper), paper.number, paper.day)
        if told != (KINDS.get(kind), number, day):
            raise BadInput(
                "the paper is not what was to be given out",
                where=kind,
                given=f"{paper.number} of {paper.day}",
                wanted=f"{number} of {day}",
            )
        return body_of_bill(paper)

    made = issue(
        connection,
        series=series or kind,
        style=style,
        kind=kind,
        job_id=job_id,
        day=day,
        body=body,
        stamp=stamp,
        why_earlier=why_earlier,
        mark=mark,
    )
    return made, read_bill(made)


def body_of_bill(paper: Bill) -> Json:
    """Return what a paper says as it is kept: money in its smallest coin, days by their numbers."""
    said: Json = _adapters()[type(paper)].dump_python(paper, mode="json")
    return said


def read_bill(paper: Issued) -> Bill:
    """Return the paper as it was given out.

    Raises
    ------
    BadInput
        When the paper is of a kind that is no bill.
    """
    if paper.kind not in KINDS:
        raise BadInput("no bill", where=paper.kind, wanted=", ".join(KINDS))
    read: Bill = _adapters()[KINDS[paper.kind]].validate_python(paper.body)
    return read


@cache
def _adapters() -> dict[Any, Any]:
    from pydantic import TypeAdapter

    return {kind: TypeAdapter(kind) for kind in KINDS.values()}

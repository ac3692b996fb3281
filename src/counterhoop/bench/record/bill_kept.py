"""The papers of bills: set once when they are given out, and handed out again as they were."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.bench.booking_in import client_reached
from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.folders.photographs import lying_in, pieces_of
from counterhoop.bench.folders.source import workshop_printing
from counterhoop.bench.price.kept_quote import kept_quote
from counterhoop.bench.price.terms import terms_of
from counterhoop.bench.record.record_of import head_of_letter
from counterhoop.bench.workshop import Workshop
from counterhoop.job.bill.credit import CreditNote
from counterhoop.job.bill.invoice import Invoice
from counterhoop.papers.invoice import credit_pdf, invoice_pdf, receipt_pdf
from counterhoop.store.enclosures.enclose import Enclosure, enclose
from counterhoop.store.enclosures.keep import keep_file
from counterhoop.store.running.bills import Bill

PDF = "application/pdf"


def bill_name(bill: Bill) -> str:
    """Return how the file of a bill is called: its sort and its running number."""
    sort = (
        "invoice" if isinstance(bill, Invoice)
        else "credit note" if isinstance(bill, CreditNote) else "receipt"
    )  # fmt: skip
    return f"{sort} {bill.number}.pdf"


def bill_kept(shop: Workshop, job: KeptJob, bill: Bill, *, by: str) -> bytes:
    """Put the paper of a bill that is given out into its job's folder, once, and return it.

    What the workshop is called later, or how it wants to be paid then, changes nothing on it.
    """
    if _lying(shop, job, bill) is None:
        file = keep_file(shop.store, [_set(shop, job, bill)])
        with shop.store.writing() as connection:
            enclose(
                connection, job_id=job.id, file=file, name_given=bill_name(bill),
                stamp=shop.stamp(by),
            )  # fmt: skip
    return bill_paper(shop, job, bill)


def bill_paper(shop: Workshop, job: KeptJob, bill: Bill) -> bytes:
    """Return the paper of a bill as it was given out, and write nothing.

    Where the program was cut off before it lay in the folder, it is set by the terms of now.
    """
    there = _lying(shop, job, bill)
    return _set(shop, job, bill) if there is None else b"".join(pieces_of(shop, there))


def _lying(shop: Workshop, job: KeptJob, bill: Bill) -> Enclosure | None:
    """Return the first of its name: what two benches set at once is one paper.

    People put in photographs and sounds, whatever they call them: only bills are PDFs.
    """
    name = bill_name(bill)
    every = lying_in(shop, job.id, with_hidden=True)
    return next(
        (one for one in every if one.name_given == name and one.file.media_type == PDF), None
    )


def _set(shop: Workshop, job: KeptJob, bill: Bill) -> bytes:
    terms, paper = terms_of(shop), workshop_printing(shop).paper
    accepted = kept_quote(job).accepted
    names = {one.id: one.name for one in accepted.offer.drums} if accepted else {}
    names = names or {one.id: one.name for one in job.drums}
    head = replace(
        head_of_letter(job, terms, drums=tuple(names.values()), day=bill.day),
        client_lines=client_reached(job),
    )
    if isinstance(bill, Invoice):
        return invoice_pdf(bill, head=head, to_pay=terms.to_pay, paper=paper)
    if isinstance(bill, CreditNote):
        return credit_pdf(bill, head=head, paper=paper)
    return receipt_pdf(bill, head=head, paper=paper)

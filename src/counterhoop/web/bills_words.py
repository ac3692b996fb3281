"""What the page of a job's bills asks, and which answer a fault is about."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.folders.kinds import BILL
from counterhoop.errors import BadInput
from counterhoop.web.folder_index import job_address
from counterhoop.web.look.say import capfirst
from counterhoop.web.plain_sheet import Lines, Part, Question
from counterhoop.web.plain_write import Sheet

FormName = Literal["invoice", "receipt", "credit"]
YES: Final = (
    Question(name="who", label="Who said yes"),
    Question(name="when", label="On which day", kind="day", help="Year first: 2026-11-02."),
    Question(name="how", label="How", help="Such as by telephone."),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """A form that came back: what was typed in it, and what is wrong.

    Attributes
    ----------
    form : str
        "invoice", "receipt" or "credit"; of a credit note ``number`` says of which invoice.
    values : mapping of str to str
    fault : BadInput
    """

    form: FormName
    number: str = ""
    values: Mapping[str, str] = field(default_factory=dict)
    fault: BadInput

    @property
    def at(self) -> str:
        """The field that the fault is about; empty where it is about the whole."""
        where, what = self.fault.where, self.fault.what
        if where in ("day", "amount") or where.startswith("row."):
            return where
        if what.startswith("dated before"):
            return "why_earlier"
        if "how it was paid" in what:
            return "how"
        if "said why" in what:
            return "why"
        return "amount" if "paid" in what or "payment" in what else ""

    @property
    def says(self) -> str:
        """The fault in words, without its place."""
        fault = self.fault
        return capfirst(
            str(BadInput(fault.what, given=fault.given, wanted=fault.wanted, step=fault.step))
        )


def bill_sheet(job: KeptJob, *, currency: str) -> Sheet:
    """Return the sheet of what the next invoice holds beside the offer."""
    address = f"{job_address(job)}/handed-over/bills"
    return Sheet(
        ident="beside", job=job.id, kind=BILL, parts=_asked(currency), action=address,
        back=f"{address}#next",
    )  # fmt: skip


def _asked(currency: str) -> tuple[Part, ...]:
    return (
        Lines(
            name="beside",
            label="Done or sold beside the offer",
            one="line",
            help="Without a yes it is charged as far as the ceiling lets it; with one the ceiling"
            " moves by it.",
            of=(
                Question(name="says", label="What it was"),
                Question(
                    name="amount", label="What it costs", kind="money", currency=currency,
                    help="Below zero for less.",
                ),
                *YES,
            ),
        ),
        Lines(
            name="raised",
            label="A yes to a higher ceiling",
            one="yes",
            of=(
                Question(name="to", label="Up to", kind="money", currency=currency),
                *YES,
            ),
        ),
        Question(
            name="hold", label="Hold the invoice to the ceiling, whatever it comes to", kind="yes"
        ),
    )  # fmt: skip

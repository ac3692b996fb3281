"""What a thing that was found costs beside the work of its scheme: a line of the quote."""

from __future__ import annotations

from typing import Final

from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.price.job_quote import JobQuote
from counterhoop.bench.price.kept_quote import kept_quote
from counterhoop.bench.price.write_quote import as_it_came, keep_lines
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.price.line import Kind, QuoteLine, typed_line
from counterhoop.quantities.money import parse_money
from counterhoop.store.save import Conflict

SORTS: Final[dict[str, str]] = {
    Kind.WORK: "hands at work",
    Kind.PART: "a part",
    Kind.MATERIAL: "material",
}
LONGEST: Final = 120


def line_of(job: KeptJob, drum_id: str, number: int) -> QuoteLine | None:
    """Return what a thing costs on top, as it is typed; None where nothing is."""
    key = key_of(drum_id, number)
    return next((one for one in kept_quote(job).lines if one.key == key), None)


def key_of(drum_id: str, number: int) -> str:
    """Return the key of that line: it begins as all lines of its drum do."""
    return f"{drum_id}/found: {number}"


def write_on_top(
    shop: Workshop, job: KeptJob, now: JobQuote, *, drum_id: str, number: int, says: str,
    amount: str, sort: str, based_on: int, by: str,
) -> None:  # fmt: skip
    """Write what a thing costs on top; an empty amount takes it away.

    Parameters
    ----------
    now : JobQuote
        Its currency is that of the amount.
    says : str
        What it is for, as the line on the bill says it.
    sort : str
        One of ``SORTS``.
    based_on : int
        The revision of the quote that the writer saw.

    Raises
    ------
    BadInput
        For what cannot be read, and where somebody wrote the same line since.
    """
    held = line_of(job, drum_id, number)
    if not amount.strip():
        if held is None:
            return
        done = as_it_came(shop, job.id, held, based_on=based_on, by=by)
    else:
        words = " ".join(says.split())
        if not words or len(words) > LONGEST:
            raise BadInput(
                "a few words belong here", where="says", given=says or None, wanted="what it is for"
            )
        money = parse_money(amount, where="amount", otherwise=now.currency)
        if money.currency != now.currency:
            raise BadInput(
                "prices of this job are in another currency", where="amount", given=amount,
                wanted=f"an amount in {now.currency}",
            )  # fmt: skip
        kind = Kind(sort) if sort in SORTS else Kind.WORK
        line = typed_line(key_of(drum_id, number), words, amount=money, kind=kind)
        done = keep_lines(shop, job.id, (line,), based_on=based_on, by=by)
    if isinstance(done, Conflict):
        raise BadInput(
            "somebody wrote what it costs on top at the same time", where="based_on",
            step="Look at it above; what you typed stands below",
        )  # fmt: skip

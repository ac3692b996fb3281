"""What the sheet of a drum that is offered shows: its listing, what it lacks, what to ask first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from counterhoop.bench.folders.folder import KeptDrum, KeptJob, kept_job
from counterhoop.bench.trade.drum_told import facts_told
from counterhoop.bench.trade.posting_typed import Posting, posting_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.job.trade.listing import Listing, listing
from counterhoop.web.plans import WAIT_S, Planned, plan_for
from counterhoop.web.trade_words import said_fault

ROWS_SIGNS = 72
"""A line of the text field holds so many signs; by that it is made as high as its text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ListingDesk:
    """The sheet of one drum.

    Attributes
    ----------
    planned : Planned
        Of the job: holes and edges are read from it.
    listing : Listing or None
        None while its plan is under way, and while nobody has said how large the drum is.
    fault : str
        Why there is none, in words.
    posting : Posting
    posting_faults : mapping of str to str
        What cannot be read of the parcel's sheet, by field.
    """

    job: KeptJob
    drum: KeptDrum
    planned: Planned
    listing: Listing | None
    fault: str
    posting: Posting
    posting_faults: Mapping[str, str]

    def need(self) -> Listing:
        """Return the listing.

        Raises
        ------
        CannotDo
            When there is none, or none yet.
        """
        if self.listing is None:
            raise CannotDo(self.fault or "Its schemes are being worked out: open the page again.")
        return self.listing

    @property
    def rows(self) -> int:
        """How many lines the text wants."""
        text = self.listing.text if self.listing else ""
        return sum(1 + len(line) // ROWS_SIGNS for line in text.split("\n")) + 1


def listing_desk(
    shop: Workshop, job_id: str, drum_id: str, *, wait_s: float = WAIT_S
) -> ListingDesk:
    """Return the sheet of a drum; ``wait_s``: how long its plan is waited for."""
    job = kept_job(shop, job_id)
    drum = job.drum(drum_id)
    planned = plan_for(shop, job, wait_s=wait_s)
    made, fault = None, ""
    if planned.working is None:
        try:
            # A drum that the plan leaves out is told without holes rather than with half of them.
            plan = None if drum.id in planned.faults else planned.plan
            made = listing(facts_told(shop, job, drum, plan))
        except BadInput as found:
            fault = str(found)
    posting = posting_of(drum)
    return ListingDesk(
        job=job,
        drum=drum,
        planned=planned,
        listing=made,
        fault=fault,
        posting=posting,
        posting_faults={name: said_fault(one) for name, one in posting.faults.items()},
    )

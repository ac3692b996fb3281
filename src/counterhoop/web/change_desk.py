"""What was found on a drum and what it changes, as one request finds it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from starlette.requests import Request

from counterhoop.bench.change.changed import Changed, changed_on, no_price
from counterhoop.bench.change.found import FoundOnDrum, found_on
from counterhoop.bench.folders.album import Photograph, photographs_of
from counterhoop.bench.folders.folder import KeptDrum, KeptJob, kept_job
from counterhoop.bench.long_work.answers import Done, Working
from counterhoop.bench.promise.promise_of import job_promised, promise_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.yes.note import DayMoved
from counterhoop.papers.facts import Lengths
from counterhoop.web.change_taken import is_gone
from counterhoop.web.folder_index import drum_address
from counterhoop.web.look.mine import Mine, mine_of
from counterhoop.web.plans import WAIT_S, Planned, plan_for

if TYPE_CHECKING:
    from counterhoop.bench.price.job_quote import JobQuote
    from counterhoop.scheme.plan import Scheme


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeDesk:
    """One drum in mid-work.

    Attributes
    ----------
    found : FoundOnDrum
    quote : JobQuote or None
        None while the schemes are worked out, and where the drum is not in it.
    day : DayMoved or None
        Where a day was promised and the plan of the bench is there.
    day_working : Working or None
        Whether it holds is still worked out.
    why_no_day : str
        Why that cannot be worked out.
    """

    shop: Workshop
    job: KeptJob
    drum: KeptDrum
    mine: Mine
    planned: Planned
    found: FoundOnDrum
    quote: JobQuote | None = None
    day: DayMoved | None = None
    day_working: Working | None = None
    why_no_day: str = ""

    @property
    def address(self) -> str:
        """Of its sheet."""
        return f"{drum_address(self.job, self.drum)}/found"

    @property
    def scheme(self) -> Scheme | None:
        """The scheme that the drum is worked by now."""
        return self.quote.drum(self.drum.id).scheme if self.quote else None

    @property
    def gone(self) -> bool:
        """Whether the scheme that was taken is to be taken anew before anything is asked."""
        return is_gone(self.drum, self.planned)

    @property
    def why_no_note(self) -> str:
        """Why the client cannot be asked by a change note."""
        return no_price(self.quote, self.drum.id) if self.quote else ""

    def changed(self, *, for_client: bool = False) -> Changed | None:
        """Return what the client is asked; None for nothing.

        Parameters
        ----------
        for_client : bool
            In the client's units instead of those of who looks.
        """
        plan = self.planned.plan
        if self.quote is None or plan is None or self.why_no_note or self.gone:
            return None
        job = plan.opened.job
        try:
            return changed_on(
                self.job, self.drum.id, self.quote, approvals=job.approvals, day=self.day,
                say=Lengths(job.units if for_client else self.mine.units),
            )  # fmt: skip
        except BadInput:
            # Nothing differs, and nothing waits.
            return None

    def pictures(self) -> dict[str, Photograph]:
        """Return the folder's photographs by their names for programs."""
        return {one.id: one for one in photographs_of(self.shop, self.job)}


def change_desk(
    request: Request, shop: Workshop, job: str, drum: str, *, wait_s: float = WAIT_S
) -> ChangeDesk:
    """Return a drum in mid-work."""
    from counterhoop.bench.price.job_quote import quote_of_job

    kept = kept_job(shop, job)
    its = kept.drum(drum)
    planned = plan_for(shop, kept, wait_s=wait_s)
    quote = quote_of_job(shop, kept, planned.plan) if planned.plan is not None else None
    if quote is not None and all(one.kept.id != its.id for one in quote.drums):
        quote = None
    day, working, why = _day(shop, kept) if quote is not None else (None, None, "")
    return ChangeDesk(
        shop=shop, job=kept, drum=its, mine=mine_of(request), planned=planned,
        found=found_on(its), quote=quote, day=day, day_working=working, why_no_day=why,
    )  # fmt: skip


def _day(shop: Workshop, job: KeptJob) -> tuple[DayMoved | None, Working | None, str]:
    was = job_promised(job)
    if was is None:
        return None, None, ""
    try:
        answer = promise_of(shop, job.id)
        if isinstance(answer, Working):
            shop.works.wait(answer.id, WAIT_S)
            answer = promise_of(shop, job.id)
    except BadInput as fault:
        return None, None, str(fault)
    if isinstance(answer, Working):
        return None, answer, ""
    if not isinstance(answer, Done):
        return None, None, answer.says
    told = answer.value
    return DayMoved(was=was, now=was if told.holds else told.found.day), None, ""

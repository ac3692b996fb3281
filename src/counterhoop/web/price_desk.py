"""The price of a job as one request finds it: what is planned, the quote that comes of it."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass

from starlette.requests import Request

from counterhoop.bench.folders.folder import Kept, KeptJob, drawer, kept_job
from counterhoop.bench.folders.kinds import QUOTE
from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.price.job_quote import JobQuote, quote_of_job
from counterhoop.bench.price.kept_quote import KeptQuote, kept_quote
from counterhoop.bench.price.terms import Terms, terms_of
from counterhoop.bench.price.ways_beside import Ways, ways_beside
from counterhoop.bench.remembered import Remembered
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import CannotDo
from counterhoop.papers.facts import Lengths
from counterhoop.store.mark import Mark, store_mark
from counterhoop.web.folder_index import job_address
from counterhoop.web.look.mine import Mine, mine_of
from counterhoop.web.plans import WAIT_S, Planned, need_plan, plan_for

SENT_S = 20.0
"""What is typed is lost with a refusal: a form rather waits for a plan that is under way."""
_QUOTES = Remembered(most=8)
_WAYS = Remembered(most=24)


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceDesk:
    """A job whose price is asked for, and the browser that asks.

    ``mark`` is of the store as it was when the job was read.
    """

    shop: Workshop
    job: KeptJob
    held: dict[str, Kept]
    mine: Mine
    mark: Mark
    planned: Planned

    @property
    def address(self) -> str:
        """Of its page."""
        return f"{job_address(self.job)}/price"

    @property
    def kept(self) -> KeptQuote:
        """What a person did to the quote, and its offers: there while nothing is planned, too."""
        return kept_quote(self.job)

    @property
    def document(self) -> Kept:
        """The document of the quote."""
        return self.job.kept(QUOTE)

    @property
    def terms(self) -> Terms:
        """What the workshop says once for all prices."""
        return terms_of(self.shop, held=self.held)

    @property
    def say(self) -> Lengths:
        """Prints lengths as this browser reads them."""
        return Lengths(self.mine.units)

    @property
    def quote(self) -> JobQuote | None:
        """The quote as it stands; none while its schemes are worked out, or cannot be."""
        plan = self.planned.plan
        if plan is None:
            return None
        made: JobQuote = _QUOTES.get(self._key(), lambda: quote_of_job(self.shop, self.job, plan))
        return made

    def ways(self, now: JobQuote, drum_id: str) -> Ways:
        """Return the quote beside those by other schemes of a drum."""
        plan = self.need_plan()
        made: Ways = _WAYS.get(
            (*self._key(), drum_id),
            lambda: ways_beside(self.shop, self.job, plan, now, drum_id=drum_id),
        )
        return made

    def need_plan(self) -> JobPlan:
        """Return the plan of the job; raises ``CannotDo`` where there is none."""
        if self.planned.plan is not None:
            return self.planned.plan
        return need_plan(self.shop, self.job, held=self.held)

    def need_quote(self) -> JobQuote:
        """Return the quote for a form that was sent from a page that showed it.

        Raises
        ------
        CannotDo
            While its schemes are worked out anew, and where they cannot be.
        """
        if self.planned.source is None:
            raise CannotDo("Nothing of this job can be priced yet, so nothing was written.")
        self.need_plan()
        found = self.quote
        if found is None:
            raise CannotDo("The schemes are being worked out anew: open the page again.")
        return found

    def _key(self) -> tuple[Hashable, ...]:
        source = self.planned.source
        return (id(self.shop.store), self.job.id, self.mark, source.key if source else "")


def price_desk(request: Request, shop: Workshop, job: str, *, wait_s: float = WAIT_S) -> PriceDesk:
    """Return a job whose price is asked for."""
    # The mark first: what is saved meanwhile is then remembered under a mark that is gone.
    with shop.store.reading() as connection:
        mark = store_mark(connection)
    kept, held = kept_job(shop, job), dict(drawer(shop))
    return PriceDesk(
        shop=shop, job=kept, held=held, mine=mine_of(request), mark=mark,
        planned=plan_for(shop, kept, held=held, wait_s=wait_s),
    )  # fmt: skip

"""The parts of a drum or a job as one request finds them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob, drawer, kept_job
from counterhoop.bench.folders.kinds import STRIPPED
from counterhoop.bench.parts.stripped import Stripped, stripped_of
from counterhoop.bench.parts.wants_of_job import DrumLacks, lacks_of
from counterhoop.bench.workshop import Workshop
from counterhoop.web.folder_index import drum_address, job_address
from counterhoop.web.plans import Planned, plan_for

if TYPE_CHECKING:
    from counterhoop.fittings.book import Book
    from counterhoop.scheme.plan import Scheme


@dataclass(frozen=True, slots=True, kw_only=True)
class PartsDesk:
    """A job, and what is planned of it by now."""

    shop: Workshop
    job: KeptJob
    held: dict[str, Kept]
    planned: Planned

    @property
    def address(self) -> str:
        """Of the job's own sheet of parts."""
        return f"{job_address(self.job)}/parts"

    def drum_address(self, drum: KeptDrum) -> str:
        """Of a drum's sheet of parts."""
        return f"{drum_address(self.job, drum)}/parts"

    def stripped(self, drum: KeptDrum) -> Stripped:
        """The count of a drum as it stands."""
        return stripped_of(self.shop, self.job, drum, self.planned.plan, held=self.held)

    def ticks(self, drum: KeptDrum) -> Kept:
        """The document of a drum's count."""
        return drum.kept(STRIPPED)

    def scheme(self, drum: KeptDrum) -> Scheme | None:
        """The scheme that the bench works by; none while it is worked out."""
        plan = self.planned.drum(drum)
        return plan.chosen if plan else None

    @property
    def book(self) -> Book:
        """The book that the job is planned by."""
        from counterhoop.bench.folders.own_book import own_book

        plan = self.planned.plan
        return plan.opened.shop.book if plan else own_book(self.held).book

    @property
    def stock(self) -> dict[str, int]:
        """What the job is planned with."""
        plan = self.planned.plan
        return dict(plan.opened.shop.stock) if plan else {}

    def lacks(self, drums: Sequence[KeptDrum] | None = None) -> tuple[DrumLacks, ...]:
        """What each drum lacks."""
        book = self.book
        return tuple(
            lacks_of(drum, self.stripped(drum), self.scheme(drum), book=book)
            for drum in (self.job.drums if drums is None else drums)
        )


def parts_desk(shop: Workshop, job: str) -> PartsDesk:
    """Return the parts of a job."""
    kept, held = kept_job(shop, job), dict(drawer(shop))
    return PartsDesk(shop=shop, job=kept, held=held, planned=plan_for(shop, kept, held=held))

"""A job and what a person would do with it."""

from __future__ import annotations

import io
import re
from dataclasses import dataclass
from typing import Any

from counterhoop.bench.folders.folder import KeptDrum, KeptJob, drawer, kept_job
from counterhoop.bench.folders.source import to_plan
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.long_work.answers import Done
from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.price.job_quote import JobQuote, quote_of_job
from counterhoop.bench.price.offers import offer
from counterhoop.bench.workshop import Workshop
from counterhoop.papers.facts import Lengths
from counterhoop.store.save import Saved

BY = "window bench"
READY = "Ready by Friday 24 May 2030 if your yes is here by Thursday 16 May 2030."


@dataclass(slots=True)
class OnTheBench:
    """A job and what a person would do with it."""

    shop: Workshop
    id: str

    @property
    def job(self) -> KeptJob:
        return kept_job(self.shop, self.id)

    @property
    def drum(self) -> KeptDrum:
        return self.job.drums[0]

    def plan(self) -> JobPlan:
        source = to_plan(self.job, shop=drawer(self.shop)).source
        assert source is not None
        answer = self.shop.works.plan(source)
        assert isinstance(answer, Done), answer
        return answer.value

    def quote(self) -> JobQuote:
        return quote_of_job(self.shop, self.job, self.plan())

    def write(self, kind: str, pointer: str, value: Any) -> None:
        change = Change(
            kind=kind, name=self.drum.id, pointer=pointer, value=value,
            based_on=self.drum.kept(kind).number,
        )  # fmt: skip
        assert isinstance(write_down(self.shop, self.id, change, by=BY), Saved)


def saved(done: object) -> None:
    assert isinstance(done, Saved), done


def told(bench: OnTheBench) -> dict[str, Any]:
    """Return what every write is told beside its own."""
    return {"based_on": bench.quote().kept.number, "by": BY}


def text_of(pdf: bytes) -> str:
    from pypdf import PdfReader

    pages = PdfReader(io.BytesIO(pdf)).pages
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in pages))


def offered(bench: OnTheBench, *, day: str) -> None:
    """Hand the quote out as it stands."""
    now = bench.quote()
    saved(
        offer(
            bench.shop, bench.job, now, seen=str(now.need().price), day=day, to="Tobin Ashgrove",
            say=Lengths(), ready=READY, by=BY,
        )
    )  # fmt: skip

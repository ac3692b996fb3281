"""The papers of parts: strip-down sheet and bag labels of a drum, the wants list of a job."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache

from counterhoop.bench.paper_sorts import BAG_LABELS, STRIP_SHEET, WANTS_LIST, Maker
from counterhoop.bench.parts.goes_back import spares_of
from counterhoop.bench.parts.stripped import Stripped, expected_of
from counterhoop.bench.parts.told import PartsTold
from counterhoop.bench.parts.wants_of_job import wants_of_drum
from counterhoop.bench.plan_job import DrumPlan
from counterhoop.papers.bag_labels import bag_labels, labels_pdf, spares_label
from counterhoop.papers.facts import sheet_for
from counterhoop.papers.label_sheet import plain_sheet
from counterhoop.papers.strip_sheet import strip_sheet_pdf
from counterhoop.papers.wants_list import DrumWants, wants_list_pdf
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.schemes import Shop
from counterhoop.shell.job import Job


def drum_parts_papers(
    job: Job, plan: DrumPlan, scheme: Scheme | None, *, shop: Shop, told: PartsTold, paper: str
) -> dict[str, Maker]:
    """Return the strip-down sheet and the bag labels of a drum; none where nothing comes off it."""
    if not (plan.wanted.drum.everything or plan.wanted.drum.hoops):
        return {}

    @cache
    def stripped() -> Stripped:
        return told.counted(expected_of(plan.wanted.drum, plan.found, shop=shop))

    def strip_sheet() -> bytes:
        one = stripped()
        return strip_sheet_pdf(
            job, one.expected, counted=one.counted, spares=spares_of(one, scheme),
            counted_on=dict(told.days).get(plan.key), paper=paper,
        )  # fmt: skip

    def labels() -> bytes:
        one = stripped()
        link = dict(told.links).get(plan.key, "")
        bags = bag_labels(
            one.expected,
            job=job.number,
            owner=job.client,
            counted=one.counted,
            link_of=lambda _sort: link,
        )
        spares = spares_label(
            spares_of(one, scheme), drum=plan.key, job=job.number, owner=job.client, link=link
        )
        return labels_pdf((*bags, spares), sheet=plain_sheet(sheet_for(paper).name))

    return {STRIP_SHEET.named(): strip_sheet, BAG_LABELS.named(): labels}


def wants_papers(
    job: Job, drums: Sequence[DrumPlan], chosen: Mapping[str, Scheme], *, shop: Shop,
    told: PartsTold, paper: str,
) -> dict[str, Maker]:  # fmt: skip
    """Return the wants list of a job; none where nobody has counted and no scheme adds anything."""
    lost = any(placed.missing for one in drums for placed in one.wanted.drum.everything)
    if not (told.ticked or lost or any(scheme.parts for scheme in chosen.values())):
        return {}

    def wants_list() -> bytes:
        wants = [
            DrumWants(
                drum=one.key,
                wants=wants_of_drum(
                    told.counted(expected_of(one.wanted.drum, one.found, shop=shop)),
                    chosen.get(one.key),
                    book=shop.book,
                ),
            )
            for one in drums
        ]
        shelf = dict(shop.stock) if told.shelf is None else dict(told.shelf)
        return wants_list_pdf(
            job, wants, book=shop.book, shelf=shelf or None, bins=dict(told.bins),
            has_new=any(scheme.parts for scheme in chosen.values()),
            counted_on=max((day for _, day in told.days), default=None), paper=paper,
        )  # fmt: skip

    return {WANTS_LIST.named(): wants_list}

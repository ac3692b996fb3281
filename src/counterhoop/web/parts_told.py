"""What the papers of parts are told: ticks, what the shelf has, what the codes on bags open."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Final

from starlette.requests import Request

from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.folders.kinds import STRIPPED
from counterhoop.bench.paper_sorts import BAG_LABELS, READ_ME, STRIP_SHEET, WANTS_LIST
from counterhoop.bench.parts.told import PartsTold
from counterhoop.bench.parts.wants_of_job import lacking
from counterhoop.bench.workshop import Workshop
from counterhoop.papers.facts import listed
from counterhoop.web.parts_desk import parts_desk
from counterhoop.web.phone_address import phone_address

THEIRS: Final = (STRIP_SHEET.start, BAG_LABELS.start, WANTS_LIST.start, READ_ME.start)
"""The first page lists the others, and the wants list is there once something is ticked."""


def ticked_told(job: KeptJob) -> PartsTold:
    """Return what was ticked of a job's strip-downs: by that papers are listed."""
    return PartsTold(
        ticked=tuple(
            (drum.name, json.dumps(kept.table))
            for drum in job.drums
            if (kept := drum.kept(STRIPPED)).table
        ),
        days=tuple(
            (drum.name, kept.made_at.astimezone().date())
            for drum in job.drums
            if (kept := drum.kept(STRIPPED)).table and kept.made_at
        ),
    )


def parts_told(request: Request, shop: Workshop, job: KeptJob, *, name: str) -> PartsTold:
    """Return what the papers that are asked for say of parts.

    Parameters
    ----------
    name : str
        Of the paper; empty for all. Only papers of parts are told of the shelf and of addresses,
        so that what moves there makes no other paper anew.
    """
    ticked = ticked_told(job)
    paper = name.rpartition("/")[2]
    if name and not paper.startswith(THEIRS):
        return PartsTold()
    desk = parts_desk(shop, job.id)
    shelf: tuple[tuple[str, int], ...] | None = None
    bins: tuple[tuple[str, str], ...] = ()
    if not name or paper.startswith(WANTS_LIST.start):
        found = lacking(shop, job, desk.lacks(), stock=desk.stock)
        shelf = tuple(
            (one.sort.piece, one.count - one.to_find) for one in found if one.count > one.to_find
        )
        bins = tuple((one.sort.piece, listed(one.bins)) for one in found if one.bins)
    phone = phone_address(request).address
    links = tuple((drum.name, phone + desk.drum_address(drum)) for drum in job.drums)
    return replace(ticked, shelf=shelf, links=links, bins=bins)

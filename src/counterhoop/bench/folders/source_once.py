"""What a folder is planned from, read once for each version of what is written in it."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping
from typing import Final

from counterhoop.bench.folders.folder import Kept, KeptJob, drawer
from counterhoop.bench.folders.kinds import BILL, PROMISE, QUOTE
from counterhoop.bench.folders.source import ToPlan, to_plan
from counterhoop.bench.parts.shelf_stock import shelf_stock
from counterhoop.bench.remembered import Remembered
from counterhoop.bench.workshop import Workshop

_READ = Remembered(most=64)
MONEY_AND_DAYS: Final = (QUOTE, PROMISE, BILL)
"""What is written of them plans nothing anew."""


def to_plan_once(shop: Workshop, job: KeptJob, *, held: Mapping[str, Kept] | None = None) -> ToPlan:
    """Return what ``to_plan`` returns; a page of papers asks for it once a picture.

    Parameters
    ----------
    held : mapping of str to Kept, optional
        What the workshop's drawer holds, where a page has it at hand already.
    """
    held = drawer(shop) if held is None else held
    versions = (
        *_numbers(job.documents),
        *((drum.id, drum.name, *_numbers(drum.documents)) for drum in job.drums),
        *_numbers(held),
    )
    # Only the counts that a plan of this job may rest on: whatever else moves plans nothing anew.
    lies = shelf_stock(shop, job, held=held)
    books, counts = tuple(job.books.items()), tuple(lies.items())
    key: Hashable = (id(shop.store), job.id, job.title, books, versions, counts)
    made: ToPlan = _READ.get(key, lambda: to_plan(job, shop=held, on_shelf=lies))
    return made


def _numbers(documents: Mapping[str, Kept]) -> Iterable[Hashable]:
    return (
        (kind, kept.document_id, kept.number)
        for kind, kept in sorted(documents.items())
        if kind not in MONEY_AND_DAYS
    )

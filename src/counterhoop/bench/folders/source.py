"""What a folder hands to the worker: the drums that can be planned, as plain tables."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass

from counterhoop.bench.folders.folder import Kept, KeptJob, drawer
from counterhoop.bench.folders.kinds import PRINTER
from counterhoop.bench.folders.own_book import own_books
from counterhoop.bench.folders.read_so_far import tables_to_plan
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.parts.shelf_stock import STOCK, with_shelf
from counterhoop.bench.printing import Printing
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput


@dataclass(frozen=True, slots=True, kw_only=True)
class ToPlan:
    """A folder ready for the worker.

    Attributes
    ----------
    source : JobSource or None
        None while no drum can be read whole.
    faults : mapping of str to tuple of BadInput
        What keeps a drum out of the plan, by the drum's name for programs.
    """

    source: JobSource | None
    faults: Mapping[str, tuple[BadInput, ...]]


def to_plan(
    job: KeptJob, *, shop: Mapping[str, Kept], on_shelf: Mapping[str, int] | None = None
) -> ToPlan:
    """Return what the worker plans a folder from.

    A drum that cannot be read whole is not planned, for a hole left out could be drilled into.

    Parameters
    ----------
    shop : mapping of str to Kept
        The workshop's own documents by kind.
    on_shelf : mapping of str to int, optional
        What lies on the shelf for this job, by ``shelf_stock``: part of its stock.
    """
    tables, faults = tables_to_plan(job, shop=shop)
    if not tables:
        return ToPlan(source=None, faults=faults)
    if on_shelf:
        tables[STOCK] = with_shelf(tables.get(STOCK, {}), on_shelf)
    tables["job"].pop("book", None)
    source = JobSource(
        tables_json=json.dumps(tables).encode(),
        books=tuple(own_books(job, shop).items()),
        name=job.title,
        folder=job.id,
    )
    return ToPlan(source=source, faults=faults)


def printing_of(kept: Kept) -> Printing:
    """Return what the workshop prints on, and what its printer does to lengths.

    Raises
    ------
    BadInput
        When what is written cannot be read.
    """
    table = kept.table
    return Printing.read(
        paper=str(table.get("paper") or "A4"),
        measured=str(table.get("measured") or ""),
        thickness=str(table.get("thickness") or ""),
    )


def workshop_printing(shop: Workshop) -> Printing:
    """Return the workshop's own printing: A4 on a true printer until it says otherwise."""
    return printing_of(drawer(shop).get(PRINTER, Kept()))

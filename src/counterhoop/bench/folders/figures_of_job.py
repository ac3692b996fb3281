"""The figures that a job is worked and priced by: its own over the workshop's, before any plan."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import lru_cache

from counterhoop.bench.folders.folder import Kept, KeptJob, drawer
from counterhoop.bench.folders.own_figures import open_with
from counterhoop.bench.folders.source_once import to_plan_once
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.shell.shop_rules import ShopFigures


def figures_of_job(
    shop: Workshop, job: KeptJob, *, held: Mapping[str, Kept] | None = None
) -> ShopFigures:
    """Return a job's minutes, waiting, prices and currency; no scheme is needed for them.

    While its survey cannot be read whole, the workshop's own serve.

    Parameters
    ----------
    held : mapping of str to Kept, optional
        What the workshop's drawer holds, where it is at hand already.
    """
    held = drawer(shop) if held is None else held
    source = to_plan_once(shop, job, held=held).source
    own = None if source is None else _figures(source)
    return open_with(held).job.figures if own is None else own


@lru_cache(maxsize=32)
def _figures(source: JobSource) -> ShopFigures | None:
    from counterhoop.bench.open_job import opened_tables

    tables, books = json.loads(source.tables_json), dict(source.books)
    try:
        return opened_tables(tables, name=source.name, books=books).job.figures
    except BadInput:
        # Its plan will say what cannot be read.
        return None

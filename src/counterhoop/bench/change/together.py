"""Several documents of a job written with one turn: all of them, or none."""

from __future__ import annotations

from collections.abc import Sequence

from counterhoop.bench.folders.kinds import SURVEY
from counterhoop.bench.folders.tabs import keep_tabs
from counterhoop.bench.folders.write_down import Change, write_change
from counterhoop.bench.workshop import Workshop
from counterhoop.store.save import Conflict


class Overtaken(Exception):
    """Somebody saved one of the documents since it was read: nothing was kept."""


def write_together(shop: Workshop, job_id: str, changes: Sequence[Change], *, by: str) -> None:
    """Write all of several changes, or none.

    Raises
    ------
    Overtaken
        When somebody saved one of the documents since it was read.
    """
    stamp = shop.stamp(by)
    with shop.store.writing() as connection:
        for change in changes:
            if isinstance(write_change(connection, job_id, change, stamp=stamp), Conflict):
                raise Overtaken
        if any(change.kind == SURVEY for change in changes):
            keep_tabs(connection, job_id)

"""Several documents of a job written with one turn: all of them, or none."""

from __future__ import annotations

from collections.abc import Container, Sequence

from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.folders.kinds import SURVEY
from counterhoop.bench.folders.tabs import keep_tabs
from counterhoop.bench.folders.unmoved import has_moved
from counterhoop.bench.folders.write_down import Change, write_change
from counterhoop.bench.workshop import Workshop
from counterhoop.store.save import Conflict


class Overtaken(Exception):
    """Somebody saved one of the documents since it was read: nothing was kept."""


def write_together(
    shop: Workshop, job: KeptJob, changes: Sequence[Change], *, rests_on: Container[str] = (),
    by: str,
) -> None:  # fmt: skip
    """Write all of several changes, or none.

    Parameters
    ----------
    job : KeptJob
        As it was read.
    rests_on : container of str
        Kinds of documents that are not written, but must say what they said.

    Raises
    ------
    Overtaken
        When somebody saved one of the documents since it was read.
    """
    stamp, job_id = shop.stamp(by), job.id
    with shop.store.writing() as connection:
        if has_moved(connection, job, kinds=rests_on):
            raise Overtaken
        for change in changes:
            if isinstance(write_change(connection, job_id, change, stamp=stamp), Conflict):
                raise Overtaken
        if any(change.kind == SURVEY for change in changes):
            keep_tabs(connection, job_id)

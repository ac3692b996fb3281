"""The tabs of a folder: which drums lie in it, and how large they are, without opening a survey."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, delete, insert, select

from counterhoop.quantities.length import Length
from counterhoop.quantities.nanometres import length_of_nm, whole_nm
from counterhoop.store.plain_text import plain_text
from counterhoop.store.tables import drum


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumTab:
    """One drum as it is named on the folder's edge."""

    name: str
    diameter: Length
    depth: Length


def write_tabs(connection: Connection, *, job_id: str, tabs: Sequence[DrumTab]) -> None:
    """Write the tabs of a folder anew, from what its survey says now.

    They say nothing that a document does not say, so they have no history of their own.
    """
    connection.execute(delete(drum).where(drum.c.job_id == job_id))
    for place, tab in enumerate(tabs):
        connection.execute(
            insert(drum).values(
                job_id=job_id,
                name=plain_text(tab.name, where="drum"),
                place=place,
                diameter_nm=whole_nm(tab.diameter),
                diameter_written=tab.diameter.as_written,
                depth_nm=whole_nm(tab.depth),
                depth_written=tab.depth.as_written,
            )
        )


def jobs_with_tabs(connection: Connection) -> frozenset[str]:
    """Return the folders in which the size of any drum is written."""
    return frozenset(connection.execute(select(drum.c.job_id).distinct()).scalars())


def tabs_by_job(connection: Connection) -> dict[str, tuple[DrumTab, ...]]:
    """Return the tabs of every folder, in the order of its survey."""
    its = drum.c
    wanted = select(
        its.job_id, its.name, its.diameter_nm, its.diameter_written, its.depth_nm, its.depth_written
    ).order_by(its.job_id, its.place)
    found: defaultdict[str, list[DrumTab]] = defaultdict(list)
    for job_id, name, across_nm, across, deep_nm, deep in connection.execute(wanted).all():
        tab = DrumTab(
            name=name,
            diameter=length_of_nm(across_nm, as_written=across),
            depth=length_of_nm(deep_nm, as_written=deep),
        )
        found[job_id].append(tab)
    return {job_id: tuple(tabs) for job_id, tabs in found.items()}

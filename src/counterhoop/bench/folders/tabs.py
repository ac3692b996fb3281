"""Keep the tabs on a folder's edge in step with its drums."""

from __future__ import annotations

from counterhoop.bench.folders.folder import KeptDrum, job_of
from counterhoop.bench.folders.kinds import SURVEY
from counterhoop.errors import BadInput
from counterhoop.quantities.size import parse_size
from counterhoop.store.drum_tab import DrumTab, write_tabs
from counterhoop.store.newest import folder_documents
from counterhoop.store.store import Connection


def keep_tabs(connection: Connection, job_id: str) -> None:
    """Write the tabs of a folder anew from the sizes of its drums, where these can be read."""
    job = job_of(job_id, folder_documents(connection, job_id))
    tabs = [tab for drum in job.drums if (tab := tab_of(drum)) is not None]
    write_tabs(connection, job_id=job_id, tabs=tabs)


def tab_of(drum: KeptDrum) -> DrumTab | None:
    """Return the tab of a drum, or nothing while its size is not written."""
    try:
        size = parse_size(drum.kept(SURVEY).table.get("size"))
    except BadInput:
        return None
    return DrumTab(name=drum.name, diameter=size.dia, depth=size.deep)

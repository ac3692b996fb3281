"""What is on the bench: every job in sight, with what it waits for, in a sentence."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from dataclasses import dataclass

from counterhoop.bench.folders.folder import KeptDrum, KeptJob, job_of
from counterhoop.bench.folders.kinds import APPROVAL, CHOICE, HANDOVER, JOB, TICKS
from counterhoop.bench.workshop import Workshop
from counterhoop.store.drum_tab import DrumTab, tabs_by_job
from counterhoop.store.job_folder import LABEL, job_folders
from counterhoop.store.newest import Newest, newest_bodies

KINDS = (LABEL, JOB, CHOICE, APPROVAL, TICKS, HANDOVER)


@dataclass(frozen=True, slots=True, kw_only=True)
class OnTheBench:
    """One job as the first page has it.

    Attributes
    ----------
    id, title : str
        Its name for programs, and what one calls it.
    drums : tuple of str
        Its drums' names.
    tabs : tuple of DrumTab
        Those with their sizes, where these are written.
    changed_at : datetime.datetime
        When anything in it was last saved.
    state : str
        "to survey", "to choose", "waits for a yes", "on the bench", "handed over".
    says : str
        One sentence on it.
    """

    id: str
    title: str
    drums: tuple[str, ...]
    tabs: tuple[DrumTab, ...]
    changed_at: dt.datetime
    state: str
    says: str


def on_the_bench(shop: Workshop) -> tuple[OnTheBench, ...]:
    """Return every job in sight, the last changed first."""
    with shop.store.reading() as connection:
        folders = job_folders(connection)
        found = newest_bodies(connection, kinds=KINDS)
        tabs = tabs_by_job(connection)
    by_job: dict[str, list[Newest]] = defaultdict(list)
    for one in found:
        by_job[one.document.job_id or ""].append(one)
    made = []
    for folder in folders:
        job = job_of(folder.id, by_job[folder.id])
        state, says = state_of(job)
        made.append(
            OnTheBench(
                id=folder.id,
                title=folder.title,
                drums=tuple(drum.name for drum in job.drums),
                tabs=tabs.get(folder.id, ()),
                changed_at=folder.changed_at,
                state=state,
                says=says,
            )
        )
    return tuple(made)


def state_of(job: KeptJob) -> tuple[str, str]:
    """Return how far a job has come, in a word and in a sentence."""
    handed = job.kept(HANDOVER).table.get("handed_over")
    if handed:
        return "handed over", f"Handed over on {handed}."
    if not job.drums:
        return "to survey", "No drum is in the folder yet."
    ticked = [drum for drum in job.drums if drum.kept(TICKS).table.get("done")]
    if ticked:
        holes = sum(len(drum.kept(TICKS).table["done"]) for drum in ticked)
        return "on the bench", f"{_counted(holes, 'hole')} ticked on {_names(ticked)}."
    yes = [drum for drum in job.drums if drum.kept(APPROVAL).rows]
    if yes:
        return "on the bench", f"The client has said yes to {_names(yes)}."
    chosen = [drum for drum in job.drums if drum.kept(CHOICE).table]
    if chosen:
        return "waits for a yes", f"A scheme is taken for {_names(chosen)}; no yes is written down."
    return "to choose", "No scheme has been taken yet."


def _names(drums: list[KeptDrum]) -> str:
    names = [f"the {drum.name}" for drum in drums]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _counted(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"

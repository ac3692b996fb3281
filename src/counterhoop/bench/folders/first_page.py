"""What is on the bench: every job in sight, with what it waits for, in dated sentences."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from counterhoop.bench.change.found import found_on
from counterhoop.bench.folders.days import day_written
from counterhoop.bench.folders.drum_state import DrumState, on, state_of_drum, ticked_says
from counterhoop.bench.folders.folder import KeptJob, job_of
from counterhoop.bench.folders.hand_over import handed_says, is_handed_over
from counterhoop.bench.folders.kinds import APPROVAL, ARRIVAL, CHOICE, FOUND, HANDOVER, JOB, TICKS
from counterhoop.bench.workshop import Workshop
from counterhoop.store.drum_tab import jobs_with_tabs
from counterhoop.store.job_folder import JobFolder, job_folders
from counterhoop.store.mark import job_marks, store_mark
from counterhoop.store.newest import Newest, last_benches, newest_bodies
from counterhoop.store.store import Connection

OF_EVERY_JOB: Final = (JOB, HANDOVER)
OF_OPEN_JOBS: Final = (ARRIVAL, CHOICE, APPROVAL, TICKS, FOUND)
"""Read only for jobs that are not handed over: after years these are few."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OnTheBench:
    """One job as the first page has it.

    Attributes
    ----------
    id, title : str
        Its name for programs, and what one calls it.
    drums : tuple of str
        Its drums' names.
    changed_at, changed_by :
        When anything in it was last saved, at which bench.
    state : str
        "to survey", "to choose", "waits for a yes", "on the bench", "handed over".
    says : str
        What it waits for, in one or a few sentences.
    """

    id: str
    title: str
    drums: tuple[str, ...]
    changed_at: dt.datetime
    changed_by: str
    state: str
    says: str


def on_the_bench(shop: Workshop) -> tuple[OnTheBench, ...]:
    """Return every job in sight, the last changed first.

    Only jobs in which something was written since are read again, whichever program wrote it.
    """
    with shop.store.reading() as connection:
        key = ("on the bench", store_mark(connection))
        every: tuple[OnTheBench, ...] = shop.remembered.get(key, lambda: _every(shop, connection))
    return every


def _every(shop: Workshop, connection: Connection) -> tuple[OnTheBench, ...]:
    folders, marks = job_folders(connection), job_marks(connection)
    keys = {folder.id: ("on the bench", folder.id, marks[folder.id]) for folder in folders}
    known = {job_id: shop.remembered.find(key) for job_id, key in keys.items()}
    for job in _read(connection, [folder for folder in folders if known[folder.id] is None]):
        known[job.id] = job
        shop.remembered.keep(keys[job.id], job)
    return tuple(known[folder.id] for folder in folders)


def _read(connection: Connection, folders: Sequence[JobFolder]) -> Iterator[OnTheBench]:
    ids = [folder.id for folder in folders]
    by_job: dict[str, list[Newest]] = defaultdict(list)
    for one in newest_bodies(connection, kinds=OF_EVERY_JOB, job_ids=ids):
        by_job[one.document.job_id or ""].append(one)
    still = [job_id for job_id in ids if not _gone(by_job[job_id])]
    for one in newest_bodies(connection, kinds=OF_OPEN_JOBS, job_ids=still):
        by_job[one.document.job_id or ""].append(one)
    sized, benches = jobs_with_tabs(connection), last_benches(connection, job_ids=ids)
    for folder in folders:
        job = job_of(folder.id, by_job[folder.id])
        state, says = state_of(job, sized=folder.id in sized)
        yield OnTheBench(
            id=folder.id,
            title=folder.title,
            drums=tuple(drum.name for drum in job.drums),
            changed_at=folder.changed_at,
            changed_by=benches[folder.id],
            state=state,
            says=says,
        )


def state_of(job: KeptJob, *, sized: bool = True) -> tuple[str, str]:
    """Return how far a job has come, in a word and in sentences.

    Parameters
    ----------
    sized : bool
        Whether any of its drums is measured as far as its size.
    """
    handover = job.kept(HANDOVER).table
    if is_handed_over(handover):
        return "handed over", handed_says(handover)
    came = day_written(job.kept(ARRIVAL).table.get("came_on"))
    first = f"Came in{on(came)}. " if came else ""
    if not job.drums:
        return "to survey", f"{first}No drum is in the folder yet."
    drums = [state_of_drum(drum) for drum in job.drums]
    ticked, allowed, taken = (
        [one for one in drums if one.stage == stage] for stage in ("ticked", "allowed", "taken")
    )
    said = [*_ticked(ticked), *_allowed(allowed), *_taken(taken)]
    others = len(drums) - len(ticked) - len(allowed) - len(taken)
    if not said and not sized:
        return "to survey", f"{first}Nothing is measured yet."
    if not said:
        return "to choose", f"{first}No scheme has been taken yet."
    said += _found(job)
    if others:
        said.append(f"{_counted(others, 'drum')} without a scheme yet.")
    state = "on the bench" if ticked or allowed else "waits for a yes"
    return state, first + " ".join(said)


def _gone(found: Sequence[Newest]) -> bool:
    bodies = [one.revision.body for one in found if one.document.kind == HANDOVER]
    return any(isinstance(body, dict) and is_handed_over(body) for body in bodies)


def _ticked(drums: list[DrumState]) -> list[str]:
    if not drums:
        return []
    last = max((one.last_day for one in drums if one.last_day), default=None)
    holes = sum(one.holes for one in drums)
    return [f"{ticked_says(holes, last=last, where=f' on {_names(drums)}')}."]


def _allowed(drums: list[DrumState]) -> list[str]:
    by_yes: dict[tuple[str, dt.date | None], list[DrumState]] = defaultdict(list)
    for one in drums:
        by_yes[one.yes[-1].who, one.yes[-1].day].append(one)
    said = (those[0].yes[-1].says(to=_names(those)) for those in by_yes.values())
    return [f"{_first_large(says)}." for says in said]


def _taken(drums: list[DrumState]) -> list[str]:
    by_yes: dict[str, list[DrumState]] = defaultdict(list)
    for one in drums:
        by_yes[one.no_yes].append(one)
    return [
        f"A scheme is taken for {_names(those)}"
        f"{on(min((one.taken_at for one in those if one.taken_at), default=None))}; {no_yes}."
        for no_yes, those in by_yes.items()
    ]


def _found(job: KeptJob) -> list[str]:
    said = []
    for drum in job.drums:
        waits = found_on(drum).open
        if not waits:
            continue
        what = "Something" if len(waits) == 1 else f"{len(waits)} things"
        day = max((one.on for one in waits if one.on), default=None)
        wait = "waits" if len(waits) == 1 else "wait"
        said.append(f"{what} found on the {drum.name}{on(day)} {wait} for an answer.")
    return said


def _names(drums: list[DrumState]) -> str:
    names = [f"the {one.drum.name}" for one in drums]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _counted(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


def _first_large(text: str) -> str:
    return text[:1].upper() + text[1:]

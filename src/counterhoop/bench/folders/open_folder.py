"""Open a folder, and put drums into it."""

from __future__ import annotations

from typing import Any

from counterhoop.bench.folders.folder import job_of
from counterhoop.bench.folders.kinds import APPROVAL, ARRIVAL, JOB, SURVEY, TICKS, WORDS
from counterhoop.bench.folders.tabs import keep_tabs
from counterhoop.bench.folders.write_down import need_room_for, title_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.body import Json, new_id
from counterhoop.store.job_folder import open_job
from counterhoop.store.newest import folder_documents
from counterhoop.store.revision import find_document, newest
from counterhoop.store.save import Conflict, Saved, save
from counterhoop.store.store import Connection

LONGEST_NAME = 40
MOST_DRUMS = 40


def open_folder(
    shop: Workshop, *, job: dict[str, Json], by: str, arrival: dict[str, Json] | None = None
) -> str:
    """Open a folder for a job and return its name for programs.

    Parameters
    ----------
    job : dict
        The job's own table: number, client, units and so on, as typed.
    arrival : dict, optional
        What is known of how it comes in: who is to be reached, what is asked for.
    """
    stamp = shop.stamp(by)
    body: Json = {"job": job, "drums": []}
    need_room_for(JOB, body)
    if arrival:
        need_room_for(ARRIVAL, arrival)
    with shop.store.writing() as connection:
        job_id = open_job(connection, title=title_of(body), stamp=stamp)
        save(connection, job_id=job_id, kind=JOB, body=body, based_on=0, stamp=stamp)
        if arrival:
            save(connection, job_id=job_id, kind=ARRIVAL, body=arrival, based_on=0, stamp=stamp)
    return job_id


def add_drum(shop: Workshop, job_id: str, *, name: str, survey: dict[str, Json], by: str) -> str:
    """Put a drum into a folder and return its name for programs.

    Raises
    ------
    BadInput
        For no name, or one that another drum of the job has; for more drums than a survey file
        holds; for what no survey file could hold.
    CannotDo
        When another bench put one in at the same moment.
    """
    stamp = shop.stamp(by)
    need_room_for(SURVEY, survey)
    drum_id = new_id()
    with shop.store.writing() as connection:
        found = find_document(connection, job_id=job_id, kind=JOB)
        if found is None:
            raise BadInput("no such job", where="job", given=job_id)
        before = newest(connection, found)
        body: Any = before.body
        drums = body.get("drums", [])
        called = _new_name(name, drums)
        if len(job_of(job_id, folder_documents(connection, job_id)).drums) >= MOST_DRUMS:
            raise BadInput(
                "one drum too many for one job", wanted=f"at most {MOST_DRUMS}",
                step="Open another job for it",
            )  # fmt: skip
        after = {**body, "drums": [*drums, {"id": drum_id, "name": called}]}
        done = save(
            connection, job_id=job_id, kind=JOB, body=after, based_on=before.number, stamp=stamp
        )
        if isinstance(done, Conflict):
            raise CannotDo("Another bench wrote in this job at the same moment: press once more.")
        save(
            connection, job_id=job_id, kind=SURVEY, name=drum_id, body=survey, based_on=0,
            stamp=stamp,
        )  # fmt: skip
        keep_tabs(connection, job_id)
    return drum_id


def call_drum(
    shop: Workshop, job_id: str, drum_id: str, *, name: str, based_on: int, by: str
) -> Saved | Conflict:
    """Call a drum otherwise.

    The codes of its schemes change with its name, so that a scheme that is taken is to be taken
    again.

    Parameters
    ----------
    based_on : int
        The revision of the job's document that the writer saw.

    Raises
    ------
    BadInput
        For no name, or one that another drum of the job has.
    CannotDo
        When a yes or a tick stands under the old name: neither would count under the new one.
    """
    stamp = shop.stamp(by)
    with shop.store.writing() as connection:
        found = find_document(connection, job_id=job_id, kind=JOB)
        if found is None:
            raise BadInput("no such job", where="job", given=job_id)
        body: Any = newest(connection, found).body
        drums = body.get("drums", [])
        if all(one["id"] != drum_id for one in drums):
            raise BadInput("no such drum in this job", where="drum", given=drum_id)
        new = _new_name(name, [one for one in drums if one["id"] != drum_id])
        if [new for one in drums if one == {"id": drum_id, "name": new}]:
            return Saved(revision=newest(connection, found))
        _need_nothing_bound(connection, job_id, drum_id)
        called = [{**one, "name": new} if one["id"] == drum_id else one for one in drums]
        done = save(
            connection, job_id=job_id, kind=JOB, body={**body, "drums": called},
            based_on=based_on, stamp=stamp,
        )  # fmt: skip
        keep_tabs(connection, job_id)
    return done


def _need_nothing_bound(connection: Connection, job_id: str, drum_id: str) -> None:
    for kind in (APPROVAL, TICKS):
        found = find_document(connection, job_id=job_id, kind=kind, name=drum_id)
        body = newest(connection, found).body if found else None
        if body.get("done") if isinstance(body, dict) else body:
            raise CannotDo(
                f"This drum keeps its name: {WORDS[kind]} would not count under another one, for"
                " they go by the scheme's code, and the name is part of that."
            )


def _new_name(name: str, drums: list[Any]) -> str:
    """Return a name as a survey file can have it: one line, single spaces, no other drum's."""
    plain = " ".join(name.split())
    if not plain or not plain.isprintable() or len(plain) > LONGEST_NAME:
        raise BadInput(
            "what the drum is called", where="name", given=name or None,
            wanted='a few words, such as "small tom"',
        )  # fmt: skip
    if any(one["name"].casefold() == plain.casefold() for one in drums):
        raise BadInput(
            "another drum of this job is called so", where="name", given=name,
            wanted="a name that tells the two apart",
        )  # fmt: skip
    return plain

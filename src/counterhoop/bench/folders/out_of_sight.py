"""Put folders, drums, photographs, recordings out of sight and bring them back; none is deleted."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from dataclasses import dataclass

from counterhoop.bench.folders.folder import KeptDrum, job_of
from counterhoop.bench.folders.kinds import JOB, SURVEY
from counterhoop.bench.folders.recordings import SOUNDS
from counterhoop.bench.folders.tabs import keep_tabs
from counterhoop.bench.parts.scheme_moves import release
from counterhoop.bench.workshop import Workshop
from counterhoop.store.enclosures.enclose import hidden_enclosures
from counterhoop.store.hide import Thing, bring_back, hidden_things, hide
from counterhoop.store.job_folder import LABEL
from counterhoop.store.mark import store_mark
from counterhoop.store.newest import Newest, hidden_documents, newest_bodies
from counterhoop.store.revision import document_by_id
from counterhoop.store.shelf.mark import take_the_shelf
from counterhoop.store.stamp import Stamp
from counterhoop.store.store import Connection

_IN_FOLDERS = (Thing.JOB, Thing.DOCUMENT, Thing.ENCLOSURE)


@dataclass(frozen=True, slots=True, kw_only=True)
class PutAway:
    """One thing that is out of sight.

    Attributes
    ----------
    thing : Thing
        A job, a document (a drum's survey stands for the drum) or an enclosure.
    thing_id : str
        Its name for programs.
    says : str
        What it is, in words.
    job_id : str
        The folder that it belongs to.
    drum : str
        The drum that a recording is of; empty for anything else.
    hidden_at, hidden_by :
        When and at which bench.
    """

    thing: Thing
    thing_id: str
    says: str
    job_id: str
    drum: str = ""
    hidden_at: dt.datetime
    hidden_by: str


def put_away(shop: Workshop, *, thing: Thing, thing_id: str, by: str) -> None:
    """Put a thing out of sight.

    Pieces that schemes set aside for a drum, or for the drums of a job, go back to the shelf with
    it; those that a person set aside stay.

    Raises
    ------
    BadInput
        When there is no such thing.
    """
    stamp = shop.stamp(by)
    with shop.store.writing() as connection:
        if thing in (Thing.JOB, Thing.DOCUMENT):
            take_the_shelf(connection)
        hide(connection, thing=thing, thing_id=thing_id, stamp=stamp)
        _tabs(connection, thing, thing_id)
        _release(connection, thing, thing_id, stamp=stamp)


def take_out_again(shop: Workshop, *, thing: Thing, thing_id: str, by: str) -> None:
    """Bring a thing back as it was."""
    with shop.store.writing() as connection:
        bring_back(connection, thing=thing, thing_id=thing_id, stamp=shop.stamp(by))
        _tabs(connection, thing, thing_id)


def put_drum_away(shop: Workshop, drum: KeptDrum, *, by: str) -> None:
    """Put a drum out of sight: its survey is what stands for it."""
    document = drum.kept(SURVEY).document_id
    put_away(shop, thing=Thing.DOCUMENT, thing_id=document, by=by)


def is_away(shop: Workshop, *, thing: Thing, thing_id: str) -> bool:
    """Tell whether a thing is out of sight."""
    with shop.store.reading() as connection:
        return any(one.thing_id == thing_id for one in hidden_things(connection, thing=thing))


def what_is_away(shop: Workshop) -> tuple[PutAway, ...]:
    """Return all that is out of sight, the last put away first."""
    with shop.store.reading() as connection:
        key = ("put away", store_mark(connection))
        away: tuple[PutAway, ...] = shop.remembered.get(key, lambda: _away(connection))
    return away


def _away(connection: Connection) -> tuple[PutAway, ...]:
    # What is out of sight on the shelf is shown there.
    found = [one for one in hidden_things(connection) if one.thing in _IN_FOLDERS]
    documents = {one.id: one for one in hidden_documents(connection)}
    enclosed = {one.id: one for one in hidden_enclosures(connection)}
    lie_in = {one.job_id for one in documents.values() if one.job_id}
    lie_in |= {one.job_id for one in enclosed.values()}
    lie_in |= {one.thing_id for one in found if one.thing is Thing.JOB}
    by_job: dict[str, list[Newest]] = defaultdict(list)
    for newest in newest_bodies(connection, kinds=(LABEL, JOB), job_ids=sorted(lie_in)):
        by_job[newest.document.job_id or ""].append(newest)
    jobs = {job_id: job_of(job_id, said) for job_id, said in by_job.items()}
    titles = {job_id: job.title for job_id, job in jobs.items()}
    names = {(job.id, drum.id): drum.name for job in jobs.values() for drum in job.drums}
    away = []
    for one in found:
        drum = ""
        if one.thing is Thing.JOB:
            job_id, says = one.thing_id, f"the job {titles.get(one.thing_id, '')}"
        elif one.thing is Thing.DOCUMENT:
            document = documents[one.thing_id]
            job_id = document.job_id or ""
            name = names.get((job_id, document.name), document.name)
            says = f"the {name} of {titles.get(job_id, '')}"
        else:
            enclosure = enclosed[one.thing_id]
            job_id = enclosure.job_id
            drum = enclosure.drum if enclosure.file.media_type in SOUNDS else ""
            says = f"{enclosure.name_given} of {titles.get(job_id, '')}"
        away.append(
            PutAway(
                thing=one.thing,
                thing_id=one.thing_id,
                says=says,
                job_id=job_id,
                drum=drum,
                hidden_at=one.hidden_at,
                hidden_by=one.hidden_by,
            )
        )
    return tuple(away)


def _tabs(connection: Connection, thing: Thing, thing_id: str) -> None:
    if thing is not Thing.DOCUMENT:
        return
    found = document_by_id(connection, thing_id)
    if found.kind == SURVEY and found.job_id is not None:
        keep_tabs(connection, found.job_id)


def _release(connection: Connection, thing: Thing, thing_id: str, *, stamp: Stamp) -> None:
    if thing is Thing.JOB:
        release(connection, thing_id, stamp=stamp)
    elif thing is Thing.DOCUMENT:
        found = document_by_id(connection, thing_id)
        if found.kind == SURVEY and found.job_id is not None:
            release(connection, found.job_id, drum_id=found.name, stamp=stamp)

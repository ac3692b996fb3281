"""Put a whole invented workshop on a bench: seven jobs, each at another stage, and put it away."""

from __future__ import annotations

import datetime as dt
import tomllib
from collections.abc import Callable, Iterable
from typing import Any, Final

from counterhoop.bench.demonstration.dates import moved_to
from counterhoop.bench.demonstration.invented import FIRST_CALL, SURVEYED, read, titles
from counterhoop.bench.demonstration.own_drawer import put_drawer, put_drawer_away
from counterhoop.bench.demonstration.putting import Putting, at
from counterhoop.bench.demonstration.steps import STEPS, steps_of
from counterhoop.bench.demonstration.worked_shelf import demo_pieces, put_demo_away
from counterhoop.bench.folders.folder import KeptJob, kept_job
from counterhoop.bench.folders.kinds import CHOICE
from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.folders.out_of_sight import put_away
from counterhoop.bench.folders.worked_job import (
    open_with,
    put_small_job,
    put_worked_job,
    write_beside,
)
from counterhoop.bench.folders.write_down import title_of
from counterhoop.bench.parts.scheme_moves import for_a_scheme
from counterhoop.bench.shelf.whose import client_of, key_of
from counterhoop.bench.workshop import Workshop
from counterhoop.store.hide import Thing
from counterhoop.store.job_folder import job_folders
from counterhoop.store.shelf.by_number import pieces_by_number
from counterhoop.store.shelf.mark import take_the_shelf
from counterhoop.store.shelf.move import move

Progress = Callable[[str, float], None]
WANTS_A_PART: Final = "wants-a-part"
"""What is done to the lone snare, whose survey lies beside the worked job's."""
STRAINER: Final = "Corvane lever strainer"
"""The last one lies on the shelf: the old snare of the worked job gets it, the lone snare waits."""
FOR_DRUM: Final = "old snare"


def put_demonstration(
    shop: Workshop, *, by: str, bills: bool, progress: Progress = lambda _says, _share: None
) -> str:
    """Put all seven jobs on the bench and return the worked job's name for programs.

    What is there already is not put there again. Dates lie as far back as when the jobs were
    written, counted in whole weeks, and the glue is an hour old.

    Parameters
    ----------
    bills : bool
        Whether the job that is handed over gets its invoice and receipts. They take running
        numbers and stay in the books for good, so only a store of its own wants them.
    progress : callable
        Called with a sentence and the share done, 0 to 1.
    """
    progress("the worked job and the shelf", 0.0)
    put_drawer(shop, today=_clock(shop).date(), by=by)
    worked = put_worked_job(shop, by=by)
    _put_first_call(shop, by=by)
    for place, name in enumerate(SURVEYED):
        progress(f"an invented job: {name.replace('-', ' ')}", 0.1 + 0.2 * place)
        _put_surveyed(shop, name, by=by, bills=bills)
    progress("the small job", 0.9)
    small = kept_job(shop, put_small_job(shop, by=by))
    if not small.drums[0].kept(CHOICE).number:
        _strainer_for(shop, kept_job(shop, worked), by=by)
        _take_steps(shop, small.id, _folder(shop, WANTS_A_PART), by=by, bills=bills)
    return worked


def demonstration_in_sight(shop: Workshop) -> tuple[str, ...]:
    """Return those of its jobs that are in sight, by their names for programs."""
    return tuple(_there(shop, titles=titles()).values())


def put_demonstration_away(shop: Workshop, *, by: str) -> None:
    """Put all of it out of sight: the jobs, the shelf, the log, and what its drawer still says.

    What was written over it stays; bills that were given out stay in the books.
    """
    jobs = demonstration_in_sight(shop)
    for job_id in jobs:
        put_away(shop, thing=Thing.JOB, thing_id=job_id, by=by)
    put_demo_away(shop, by=by)
    put_drawer_away(shop, jobs=jobs, by=by)


def _put_first_call(shop: Workshop, *, by: str) -> None:
    said = _folder(shop, FIRST_CALL)
    if _there(shop, titles=[title_of(said)]):
        return
    then = at(shop, said["came"])
    job_id = open_folder(then, job=said["job"], by=by)
    for name in said["drums"]:
        add_drum(then, job_id, name=name, survey={}, by=by)
    write_beside(then, job_id, said, by=by)


def _put_surveyed(shop: Workshop, name: str, *, by: str, bills: bool) -> None:
    survey, said = _text(shop, name, "survey.toml"), _folder(shop, name)
    if _there(shop, titles=[title_of(tomllib.loads(survey))]):
        return
    then = at(shop, said["came"])
    job_id = open_with(then, survey.encode(), said, name=f"{name}.toml", by=by)
    _take_steps(shop, job_id, said, by=by, bills=bills)


def _take_steps(shop: Workshop, job_id: str, said: dict[str, Any], *, by: str, bills: bool) -> None:
    for moment, step, what in steps_of(said, now=_clock(shop), bills=bills):
        STEPS[step](Putting(shop=at(shop, moment), job_id=job_id, by=by), what)


def _strainer_for(shop: Workshop, job: KeptJob, *, by: str) -> None:
    """Set the last strainer aside for the worked job, as its scheme would."""
    drum = next((one for one in job.drums if one.name == FOR_DRUM), None)
    numbers = [one.number for one in demo_pieces() if one.fitting == STRAINER]
    if drum is None:
        return
    key, client, stamp = key_of(job.id, drum.id), client_of(job), shop.stamp(by)
    with shop.store.writing() as connection:
        take_the_shelf(connection)
        for kept in pieces_by_number(connection, numbers).values():
            if kept.free and not kept.hidden:
                aside = for_a_scheme("set aside", kept, 1, key=key, client=client, stamp=stamp)
                move(connection, aside)


def _clock(shop: Workshop) -> dt.datetime:
    return shop.now().astimezone().replace(tzinfo=None)


def _there(shop: Workshop, *, titles: Iterable[str]) -> dict[str, str]:
    """Return jobs in sight by what they are called."""
    wanted = set(titles)
    with shop.store.reading() as connection:
        return {one.title: one.id for one in job_folders(connection) if one.title in wanted}


def _folder(shop: Workshop, name: str) -> dict[str, Any]:
    return tomllib.loads(_text(shop, name, "folder.toml"))


def _text(shop: Workshop, name: str, file: str) -> str:
    return moved_to(read("jobs", name, file), today=_clock(shop).date())

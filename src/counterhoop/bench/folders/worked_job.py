"""Put what comes with the program on a bench: the worked job, a small one, a shelf."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from importlib.resources import files
from typing import Any

from counterhoop.bench.demo import DEMO, no_book
from counterhoop.bench.demonstration.worked_shelf import put_demo_shelf
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.kinds import ARRIVAL, FACTS, JOB
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.folders.tables import documents_in
from counterhoop.bench.folders.write_down import Change, title_of, write_down
from counterhoop.bench.workshop import Workshop
from counterhoop.store.job_folder import job_folders

BESIDE = "folder.toml"
"""What a folder holds besides its survey: how it was booked in, what each drum is."""
SMALL, BESIDE_SMALL = "lone-snare.toml", "lone-snare-folder.toml"
"""Another client's snare, which wants the same last part."""
_STOCK = re.compile(rb"^(?:#[^\n]*\n)*\[stock\]\n(?:[^\n]+\n)+\n?", re.MULTILINE)


def put_worked_job(shop: Workshop, *, by: str) -> str:
    """Open both folders, fill the shelf, and return the worked job's name for programs.

    What is there already is not put there again.
    """
    put_small_job(shop, by=by)
    put_demo_shelf(shop, by=by)
    return _put_once(shop, DEMO, BESIDE, by=by)


def put_small_job(shop: Workshop, *, by: str) -> str:
    """Open the small job's folder unless it is there, and return its name for programs."""
    return _put_once(shop, SMALL, BESIDE_SMALL, by=by)


def open_with(
    shop: Workshop, survey: bytes, beside: Mapping[str, Any], *, name: str, by: str
) -> str:
    """Open a folder with a survey file and what lies beside it; return its name for programs."""
    job_id = take_in(shop, survey, name=name, book_of=no_book, by=by)
    write_beside(shop, job_id, beside, by=by)
    return job_id


def write_beside(shop: Workshop, job_id: str, beside: Mapping[str, Any], *, by: str) -> None:
    """Write down how a job was booked in and what each of its drums is."""
    arrival = Change(kind=ARRIVAL, value=beside["arrival"], based_on=0)
    write_down(shop, job_id, arrival, by=by)
    ids = {drum.name: drum.id for drum in kept_job(shop, job_id).drums}
    for name, facts in beside.get("facts", {}).items():
        change = Change(kind=FACTS, name=ids[name], value=facts, based_on=0)
        write_down(shop, job_id, change, by=by)


def _put_once(shop: Workshop, survey: str, beside: str, *, by: str) -> str:
    content = _survey(survey)
    title = title_of(documents_in(tomllib.loads(content.decode("utf-8")))[JOB, ""])
    with shop.store.reading() as connection:
        there = [one.id for one in job_folders(connection) if one.label.get("title") == title]
    if there:
        return there[0]
    said = tomllib.loads(_read(beside).decode("utf-8"))
    return open_with(shop, content, said, name=survey, by=by)


def _survey(name: str) -> bytes:
    """Return a survey without its stock: beside a shelf, the shelf counts."""
    return _STOCK.sub(b"", _read(name))


def _read(name: str) -> bytes:
    return files("counterhoop.bench").joinpath("demonstration", name).read_bytes()

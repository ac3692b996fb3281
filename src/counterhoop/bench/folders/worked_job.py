"""Put the invented job that comes with the program into a folder."""

from __future__ import annotations

import tomllib
from importlib.resources import files
from typing import Any

from counterhoop.bench.demo import DEMO, no_book
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.kinds import ARRIVAL, FACTS
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.workshop import Workshop

BESIDE = "folder.toml"
"""What a folder holds besides its survey: how it was booked in, what each drum is."""


def put_worked_job(shop: Workshop, *, by: str) -> str:
    """Open a folder with the worked job and return its name for programs."""
    lies = files("counterhoop.bench").joinpath("demonstration")
    job_id = take_in(shop, lies.joinpath(DEMO).read_bytes(), name=DEMO, book_of=no_book, by=by)
    beside: dict[str, Any] = tomllib.loads(lies.joinpath(BESIDE).read_text("utf-8"))
    arrival = Change(kind=ARRIVAL, value=beside["arrival"], based_on=0)
    write_down(shop, job_id, arrival, by=by)
    ids = {drum.name: drum.id for drum in kept_job(shop, job_id).drums}
    for name, facts in beside["facts"].items():
        change = Change(kind=FACTS, name=ids[name], value=facts, based_on=0)
        write_down(shop, job_id, change, by=by)
    return job_id

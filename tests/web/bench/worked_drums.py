"""A job with some of the worked job's drums, and a browser without a script that looks at it."""

from __future__ import annotations

import tomllib
from importlib.resources import files

import tomli_w
from starlette.testclient import TestClient

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite
from planned_once import PLANNED

__all__ = ["DEMO", "PLANNED", "WorkedJob", "survey_of", "untuned"]
DEMO = files("counterhoop.bench").joinpath("demonstration", "survey.toml")


def survey_of(*names, change=lambda tables: None):
    """The worked job's survey file with these drums alone, changed by hand."""
    tables = tomllib.loads(DEMO.read_text("utf-8"))
    tables["drums"] = {name: tables["drums"][name] for name in names}
    tables["match"] = []
    tables["kit"] = {
        name: wished
        for name, wished in tables.get("kit", {}).items()
        if not isinstance(wished, dict) or wished["drum"] in names
    }
    tables["approval"] = [one for one in tables["approval"] if one["drum"] in names]
    change(tables)
    return tomli_w.dumps(tables).encode()


def untuned(tables):
    """Nothing is written of heads and pitches yet."""
    tables.pop("kit", None)
    for drum in tables["drums"].values():
        drum.pop("tuning", None)


class WorkedJob:
    """A folder with some of the worked drums, and who asks for its pages."""

    def __init__(self, shop, *names, change=lambda tables: None):
        content = survey_of(*names, change=change)
        self.shop = shop
        self.id = take_in(shop, content, name="survey.toml", book_of=lambda _: b"", by="bench")
        self.ask = TestClient(WhoMayWrite(make_app(shop)), follow_redirects=False)

    @property
    def kept(self):
        return kept_job(self.shop, self.id)

    def drum(self, name):
        return next(drum for drum in self.kept.drums if drum.name == name)

    def bench(self, name):
        return f"/jobs/{self.id}/drums/{self.drum(name).id}/bench"

    def ticks(self, name):
        return self.drum(name).kept("ticks").table

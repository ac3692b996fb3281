"""A survey typed in a browser: by keyboard alone, on a phone, through reloads and lost lines."""

from __future__ import annotations

from importlib.resources import files

import pytest
from playwright.sync_api import expect
from shell_pages import NewDrum, ShellSheet

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app

DEMO = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_bytes()
TOM = {
    "kind": "tom", "heads": 1, "circumference": "952 mm", "wall": "5 mm", "depth": "200 mm",
    "rows": [
        {"head": "batter", "lugs": 6, "fitting": "Corvane round lug", "first": "30 deg",
         "near": ["37.5 mm", "79.5 mm"], "hole": "6 mm"}
    ],
}  # fmt: skip


@pytest.fixture
def shop(tmp_path):
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=WorksAtOnce())


@pytest.fixture
def bench(shop, app_on):
    """The pages of a workshop of this test's own."""
    return app_on(make_app(shop))


@pytest.fixture
def tom(shop):
    """A job with one small tom in it."""
    job = open_folder(shop, job={"number": "7", "client": "Quennick"}, by="bench")
    return job, add_drum(shop, job, name="small tom", survey=TOM, by="bench")


def survey(shop, tom):
    job, drum = tom
    return kept_job(shop, job).drum(drum).kept("survey").table


def test_how_it_looks(shop, bench, open_page, look, axe):
    job = take_in(shop, DEMO, name="survey.toml", book_of=lambda _: b"", by="bench")
    drum = kept_job(shop, job).drums[0]
    page = open_page(bench)
    ShellSheet(page).open(job, drum.id)
    axe(page)
    look(page, "shell-demo")
    page.goto(f"/jobs/{job}/drums/new")
    axe(page)
    look(page, "new-drum")

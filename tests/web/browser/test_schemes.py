"""Schemes compared, taken, moved, signed for in a browser; long work stopped and begun again."""

from __future__ import annotations

from importlib.resources import files

import pytest

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app

DEMO = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_bytes()
# One plan serves all tests of this file: it goes by what is planned, not by the store.
WORKS = WorksAtOnce()


@pytest.fixture
def shop(tmp_path):
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=WORKS)


@pytest.fixture
def bench(shop, app_on):
    """The pages of a workshop of this test's own."""
    return app_on(make_app(shop))


@pytest.fixture
def demo(shop):
    return take_in(shop, DEMO, name="survey.toml", book_of=lambda _: b"", by="bench")


def drum(shop, job, name):
    return next(one for one in kept_job(shop, job).drums if one.name == name)


def address(shop, job, name):
    return f"/jobs/{job}/drums/{drum(shop, job, name).id}/schemes"


@pytest.mark.parametrize("name", ["small tom", "marching snare"])
def test_how_it_looks(shop, bench, demo, open_page, look, axe, name):
    page = open_page(bench)
    page.goto(address(shop, demo, name))
    axe(page)
    look(page, f"schemes-{name.replace(' ', '-')}")
    page.goto(address(shop, demo, name) + "/sign")
    axe(page)
    look(page, f"sign-{name.replace(' ', '-')}")

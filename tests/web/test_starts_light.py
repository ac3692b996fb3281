"""What the pages load at their start, by the interpreter's own list of modules; not by the clock.

Truth: the list of libraries that a first page has no use for, and the app that has all its pages
from the start, with which the one that grows is compared.
"""

from __future__ import annotations

import json
import subprocess
import sys
import threading

import pytest
from fastapi import APIRouter, FastAPI
from starlette.routing import Match
from starlette.testclient import TestClient

from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import PAGES, app_that_grows, first_pages, make_app, other_pages
from counterhoop.web.joined_later import JoinedLater

# The program as a person starts it; instead of serving it asks for the first page.
PROGRAM = """
import json, sys
from counterhoop.cli import main
from counterhoop.web.guard import serve

class Instead:
    def __init__(self, app, *, settings):
        self.app = app

    def run(self, sockets):
        started = sorted(sys.modules)
        from starlette.testclient import TestClient
        # What is loaded behind the first page, once it is sent.
        self.app.state.grow = lambda: None
        answer = TestClient(self.app).get("/")
        assert answer.status_code == 200, answer.text
        print(json.dumps({"started": started, "answered": sorted(sys.modules)}))

serve.guarded_server = Instead
sys.argv = ["counterhoop", "serve", "--no-browser", "--port", "0", "--data", sys.argv[1]]
main()
"""
LARGE = {
    *("numpy", "scipy", "shapely", "ortools", "typst", "ezdxf", "pypdf", "pypdfium2"),
    *("PIL", "pillow_heif", "cryptography", "psycopg", "alembic"),
}
ROOMS = {
    *("counterhoop.scheme", "counterhoop.survey", "counterhoop.papers.drawing"),
    *("counterhoop.fittings.kinds", "counterhoop.shell.survey_file.models_job"),
}


@pytest.fixture(scope="module")
def loaded(tmp_path_factory):
    """Start twice: the first start makes the store, for which a library of migrations is loaded."""
    data = tmp_path_factory.mktemp("data")
    for _ in range(2):
        command = [sys.executable, "-c", PROGRAM, str(data)]
        done = subprocess.run(command, capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stderr
    return json.loads(done.stdout.splitlines()[-1])


@pytest.mark.parametrize("when", ["started", "answered"])
def test_neither_the_start_nor_the_first_page_loads_what_is_large(loaded, when):
    """Whoever breaks this: import it in the function that needs it, or list the page among
    ``other_pages``."""
    tops = {name.partition(".")[0] for name in loaded[when]}
    assert {"fastapi", "sqlalchemy"} <= tops
    assert tops & LARGE == set()


@pytest.mark.parametrize("when", ["started", "answered"])
def test_neither_loads_the_planner_or_the_models_of_the_survey_file(loaded, when):
    rooms = [f"{room}." for room in ROOMS]
    assert not [name for name in loaded[when] if f"{name}.".startswith(tuple(rooms))]


# --- pages that join later ----------------------------------------------------------------------


def routers_of(app):
    return [one.original_router for one in app.routes if hasattr(one, "original_router")]


def test_the_app_grows_into_the_one_with_all_pages():
    grown = app_that_grows(None)
    assert routers_of(grown) == [*PAGES]
    assert TestClient(grown).get("/nothing/of/this/name").status_code == 404
    assert routers_of(grown) == routers_of(make_app(None)) == [*PAGES, *other_pages()]


def test_it_grows_behind_the_first_page(tmp_path):
    with open_store(address_of(data=tmp_path / "data")) as store:
        grown = app_that_grows(Workshop(store=store, works=WorksAtOnce()))
        assert routers_of(grown) == [*PAGES]
        # This client waits until all that an answer began is done.
        assert TestClient(grown).get("/").status_code == 200
    assert routers_of(grown) == [*PAGES, *other_pages()]


def test_no_page_that_is_there_at_once_answers_for_one_that_joins_later():
    """A page is passed over by what it is not: 405 for a path of another's would hide it."""
    app = first_pages(None)
    for pages in other_pages():
        for route in pages.routes:
            scope = {"type": "http", "method": "GET", "path": route.path, "headers": []}
            found = [one for one in app.routes if one.matches(scope)[0] is not Match.NONE]
            assert found == [], route.path


def test_they_join_once_however_many_ask():
    app, calls = FastAPI(), []
    late = APIRouter()
    late.add_api_route("/late", lambda: "here")

    def load():
        calls.append(threading.get_ident())
        return [late]

    growing = JoinedLater(app, load=load)
    asks = [threading.Thread(target=growing.join) for _ in range(8)]
    for ask in asks:
        ask.start()
    for ask in asks:
        ask.join()
    client = TestClient(app)
    assert client.get("/late").json() == "here"
    assert client.get("/never").status_code == 404
    assert len(calls) == 1


def test_what_cannot_be_loaded_is_tried_again():
    app, tries = FastAPI(), []

    def load():
        tries.append(1)
        if len(tries) == 1:
            raise ImportError("a disk that was away")
        return []

    JoinedLater(app, load=load)
    client = TestClient(app, raise_server_exceptions=False)
    assert client.get("/late").status_code == 500
    assert client.get("/late").status_code == 404
    assert len(tries) == 2


def test_no_page_is_heavy_and_none_loads_what_only_a_worker_needs(tmp_path):
    code = f"""
import sys, pathlib
sys.path.insert(0, {str(tmp_path)!r})
from importlib.resources import files
from starlette.testclient import TestClient
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app
demo = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_bytes()
with open_store(address_of(data=pathlib.Path({str(tmp_path)!r}) / "data")) as store:
    shop = Workshop(store=store, works=WorksAtOnce())
    job = take_in(shop, demo, name="survey.toml", book_of=lambda _: b"", by="bench")
    ask = TestClient(make_app(shop))
    for drum in kept_job(shop, job).drums:
        text = ask.get(f"/jobs/{{job}}/drums/{{drum.id}}/shell").text
        assert len(text) < 150_000, (drum.name, len(text))
heavy = [name for name in ("scipy", "ortools", "typst", "ezdxf") if name in sys.modules]
assert heavy == [], heavy
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr[-2000:]

"""All pages, joined into one app; the guard stands before it."""

from __future__ import annotations

from fastapi import APIRouter, FastAPI

from counterhoop.bench.workshop import Workshop
from counterhoop.web.api import routes as api
from counterhoop.web.faults import answer_faults
from counterhoop.web.joined_later import JoinedLater
from counterhoop.web.look.static_files import FOLDER, KeptFiles
from counterhoop.web.pages import (
    first,
    handed_over,
    history,
    jobs,
    let_in,
    mine,
    new_drum,
    photographs,
    printer,
    put_away,
    rules,
    safe,
    shell,
    what_it_is,
    work,
    workshop,
)

# A new drum stands before the pages of a drum: its address would be taken for a drum's name.
PAGES = (
    *(first.pages, new_drum.pages, mine.pages, let_in.pages, shell.pages, history.pages),
    *(jobs.pages, photographs.pages, what_it_is.pages, handed_over.pages, put_away.pages),
    *(rules.pages, printer.pages, safe.pages, workshop.pages, work.pages),
    api.pages,
)
"""Those that are there at once: none of them may load the planner. Others: planner_pages.py."""
# Bodies longer than the usual: see Settings.most_bytes_at.
UPLOADS: dict[str, int] = {**first.UPLOADS, **photographs.UPLOADS}


def make_app(workshop: Workshop) -> FastAPI:
    """Return the pages of an open workshop.

    Parameters
    ----------
    workshop : Workshop
        What every page reads and writes.
    """
    app = first_pages(workshop)
    for pages in planner_pages():
        app.include_router(pages)
    return app


def app_that_grows(workshop: Workshop) -> FastAPI:
    """Return the same pages; those of the planner join when one of them is first asked for."""
    app = first_pages(workshop)
    JoinedLater(app, load=planner_pages)
    return app


def first_pages(workshop: Workshop) -> FastAPI:
    """Return the pages that are there at once."""
    app = FastAPI(title="Counterhoop", docs_url=None, redoc_url=None, openapi_url=None)
    app.state.workshop = workshop
    for pages in PAGES:
        app.include_router(pages)
    app.mount("/static", KeptFiles(directory=FOLDER))
    answer_faults(app)
    return app


def planner_pages() -> tuple[APIRouter, ...]:
    """Load the others."""
    from counterhoop.web import planner_pages as others

    return others.PAGES

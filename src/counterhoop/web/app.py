"""All pages, joined into one app; the guard stands before it."""

from __future__ import annotations

from fastapi import APIRouter, FastAPI

from counterhoop.bench.workshop import Workshop
from counterhoop.web.answered_once import AnsweredOnce
from counterhoop.web.faults import answer_faults
from counterhoop.web.joined_later import JoinedLater
from counterhoop.web.look.static_files import FOLDER, KeptFiles
from counterhoop.web.pages import first, mine

PAGES = (first.pages, mine.pages)
"""Those that are there at once: none of them may load what takes long. Others: other_pages.py."""
UPLOADS: dict[str, int] = {
    "/jobs/taken-in": 8_000_000,
    # The workshop's dated features as a file.
    "/workshop/dated/file": 8_000_000,
    # Sixty photographs of a usual telephone; how large a single one may be the store says.
    "/jobs/*/photographs": 300_000_000,
    "/jobs/*/photographs/*": 1_000_000,
    "/jobs/*/drums/*/found": 300_000_000,
    "/today/photograph": 300_000_000,
    "/shelf/pieces/*/photographs": 300_000_000,
    "/shelf/pieces/*/photographs/*": 1_000_000,
    # One recording, and the little that is said of it.
    "/jobs/*/drums/*/tuned/recordings": 52_000_000,
    "/jobs/*/drums/*/tuned/recordings/*": 1_000_000,
    "/jobs/*/drums/*/tuned/recordings/*/second": 52_000_000,
    # A sheet of rows, and a little beside it; a sheet of many columns has a long form.
    "/shelf/rows": 41_000_000,
    "/shelf/rows/*": 1_000_000,
    "/workshop/dated/rows": 41_000_000,
    "/workshop/dated/rows/*": 1_000_000,
}
"""Bodies longer than the usual: see ``Settings.most_bytes_at``."""


def make_app(workshop: Workshop) -> FastAPI:
    """Return the pages of an open workshop.

    Parameters
    ----------
    workshop : Workshop
        What every page reads and writes.
    """
    app = first_pages(workshop)
    for pages in other_pages():
        app.include_router(pages)
    return app


def app_that_grows(workshop: Workshop) -> FastAPI:
    """Return the same pages; most join once the first page has been answered, or sooner if asked.

    So the program is there in the time that the first page takes to load.
    """
    app = first_pages(workshop)
    app.state.grow = JoinedLater(app, load=other_pages).join
    return app


def first_pages(workshop: Workshop) -> FastAPI:
    """Return the pages that are there at once."""
    app = FastAPI(title="Counterhoop", docs_url=None, redoc_url=None, openapi_url=None)
    app.state.workshop = workshop
    app.state.grow = None
    for pages in PAGES:
        app.include_router(pages)
    app.mount("/static", KeptFiles(directory=FOLDER))
    answer_faults(app)
    app.add_middleware(AnsweredOnce)
    return app


def other_pages() -> tuple[APIRouter, ...]:
    """Load the others."""
    from counterhoop.web import other_pages as others

    return others.PAGES

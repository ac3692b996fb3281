"""All pages, joined into one app; the guard stands before it."""

from __future__ import annotations

from fastapi import FastAPI

from counterhoop.bench.workshop import Workshop
from counterhoop.web.api import routes as api
from counterhoop.web.faults import answer_faults
from counterhoop.web.look.static_files import FOLDER, KeptFiles
from counterhoop.web.pages import (
    bench,
    first,
    handed_over,
    history,
    jobs,
    let_in,
    mine,
    new_drum,
    papers,
    photographs,
    put_away,
    schemes,
    shell,
    what_it_is,
    work,
)

# A new drum stands before the pages of a drum: its address would be taken for a drum's name.
PAGES = (
    *(first.pages, new_drum.pages, mine.pages, let_in.pages, shell.pages, history.pages),
    *(jobs.pages, photographs.pages, what_it_is.pages, handed_over.pages, put_away.pages),
    *(bench.pages, papers.pages),
    *(schemes.pages, work.pages),
    api.pages,
)
# Bodies longer than the usual: see Settings.most_bytes_at.
UPLOADS: dict[str, int] = {**first.UPLOADS, **photographs.UPLOADS}


def make_app(workshop: Workshop) -> FastAPI:
    """Return the pages of an open workshop.

    Parameters
    ----------
    workshop : Workshop
        What every page reads and writes.
    """
    app = FastAPI(title="Counterhoop", docs_url=None, redoc_url=None, openapi_url=None)
    app.state.workshop = workshop
    for pages in PAGES:
        app.include_router(pages)
    app.mount("/static", KeptFiles(directory=FOLDER))
    answer_faults(app)
    return app

"""All pages but the first ones: with their forms, drawings and the planner a second to load."""

from __future__ import annotations

from counterhoop.web.api import routes as api
from counterhoop.web.pages import (
    bench,
    dated_features,
    fittings,
    handed_over,
    history,
    jobs,
    let_in,
    new_drum,
    papers,
    parts,
    parts_job,
    parts_place,
    photographs,
    printer,
    put_away,
    rules,
    safe,
    schemes,
    shelf,
    shelf_form,
    shelf_labels,
    shelf_photographs,
    shelf_piece,
    shelf_rows,
    shelf_unknown,
    shell,
    tuned,
    tuned_hear,
    tuned_kit,
    tuned_recordings,
    tuned_sound,
    what_it_is,
    work,
    workshop,
    wrap,
)

# A new drum stands before the pages of a drum: its address would be taken for a drum's name.
PAGES = (
    *(new_drum.pages, shell.pages, history.pages),
    *(jobs.pages, photographs.pages, what_it_is.pages, handed_over.pages, put_away.pages),
    *(tuned.pages, tuned_recordings.pages, tuned_sound.pages, tuned_hear.pages, tuned_kit.pages),
    *(
        parts.pages,
        parts_job.pages,
        parts_place.pages,
        bench.pages,
        papers.pages,
        wrap.pages,
        schemes.pages,
    ),
    fittings.pages,
    # Its rows would be taken for a sort of rows.
    shelf_rows.dated,
    dated_features.pages,
    *(rules.pages, printer.pages, safe.pages, let_in.pages, workshop.pages, work.pages),
    shelf_rows.shelf,
    *(shelf.pages, shelf_form.pages, shelf_piece.pages, shelf_labels.pages),
    shelf_photographs.pages,
    shelf_unknown.pages,
    api.pages,
)

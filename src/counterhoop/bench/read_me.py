"""What stands in the folder of papers, in the order in which it is used."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from counterhoop.bench.paper_sorts import sort_of
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.job import Job

WIDTH = 78

PRINTED = 'Print at "actual size" or 100 %, never "fit to page"'
RULED = (
    ", and lay a steel rule on the check bars of every sheet of a template before it goes round the"
    " shell. A drum without a template has no hole that is cut."
)


def read_me(
    job: Job, schemes: Sequence[Scheme], *, names: Sequence[str], drafts: Sequence[str]
) -> str:
    """Return the text that stands on top of the folder.

    Parameters
    ----------
    job : Job
        Whose papers they are.
    schemes : sequence of Scheme
        What they are for.
    names : sequence of str
        Papers below the folder, in the order of use.
    drafts : sequence of str
        A sentence for each drum that is not approved.
    """
    lines = [f"Job {job.number}, {job.client}" if job.client else f"Job {job.number}", ""]
    for scheme in schemes:
        lines += _wrapped(f"{scheme.drum}: scheme {scheme.number}, {scheme.title}", hang="    ")
        if scheme.stopped:
            lines += _wrapped(
                "    STOP: read the findings on its bench sheet before anything else."
            )
    lines += ["", *(line for draft in drafts for line in _wrapped(draft))]
    if drafts:
        lines += [
            "",
            *_wrapped(
                "Never drill from a paper that says DRAFT. The client signs the approval sheet;"
                " write who said yes, when, how and the code into the survey file under"
                " [[approval]], and make the papers again."
            ),
        ]
    lines += ["", "The papers, in the order in which they are used:", ""]
    told: set[str] = set()
    for name in names:
        paper = name.rpartition("/")[2]
        if paper not in told:
            told.add(paper)
            lines += _wrapped(f"{paper}: {sort_of(paper).says}", hang="    ")
    ruled = RULED if any("template" in name for name in names) else "."
    lines += ["", *_folders(names), "", *_wrapped(PRINTED + ruled), ""]
    return "\n".join(lines)


def _folders(names: Sequence[str]) -> list[str]:
    inside = dict.fromkeys(name.rpartition("/")[0] for name in names if "/" in name)
    return _wrapped(f"The papers of each drum are in a folder: {', '.join(inside)}.")


def _wrapped(text: str, *, hang: str = "") -> list[str]:
    return textwrap.wrap(text, WIDTH, subsequent_indent=hang)

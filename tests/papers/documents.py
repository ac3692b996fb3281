"""The documents of an example job, and what they say."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pypdfium2 as pdfium
from example_changes import note_of
from example_jobs import before, full_scheme, job_of, kit_of_three
from example_parts import known_of, strip_of_drum, wants_of_drum
from example_shells import small_tom
from example_threads import drum_of
from example_tuning import drums as tuned_drums
from example_tuning import head as tuned_head

from counterhoop.papers.approval_sheet import approval_sheet_pdf
from counterhoop.papers.bench_sheet import bench_sheet_pdf
from counterhoop.papers.change_note import change_note_pdf
from counterhoop.papers.fit_sheet import fit_rows, fit_sheet_pdf
from counterhoop.papers.hole_list import hole_list_pdf
from counterhoop.papers.identity_sheet import identity_sheet_pdf
from counterhoop.papers.kit_sheet import kit_sheet_pdf
from counterhoop.papers.scheme_sheet import scheme_sheet_pdf
from counterhoop.papers.strip_sheet import strip_sheet_pdf
from counterhoop.papers.thread_list import thread_list_pdf
from counterhoop.papers.tuned_sheet import tuned_sheet_pdf
from counterhoop.papers.tuning_sheet import tuning_sheet_pdf
from counterhoop.papers.wants_list import wants_list_pdf
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.job import Job


def scheme_sheet(job: Job, scheme: Scheme) -> bytes:
    others = tuple(replace(scheme, number=n, title=f"Way {n}", code=f"C{n}") for n in (2, 3, 4, 5))
    return scheme_sheet_pdf(job, scheme, found=before(small_tom()), others=others)


PAPERS: dict[str, Callable[[Job, Scheme], bytes]] = {
    "hole list": hole_list_pdf,
    "bench sheet": bench_sheet_pdf,
    "scheme sheet": scheme_sheet,
    "approval sheet": approval_sheet_pdf,
    "change note": lambda job, scheme: change_note_pdf(job, scheme, note_of(scheme)),
    "kit sheet": lambda job, _scheme: kit_sheet_pdf(job, kit_of_three()),
    "thread list": lambda job, scheme: thread_list_pdf(job, [drum_of(scheme.drum)]),
    "head-fit sheet": lambda job, _scheme: fit_sheet_pdf(job, fit_rows(job)),
    "tuning sheet": lambda job, _scheme: tuning_sheet_pdf(job, tuned_drums()),
    "tuned sheet": lambda job, scheme: tuned_sheet_pdf(
        job, drum=scheme.drum, what="12 x 8 in", heads=[tuned_head()]
    ),
    "wants list": lambda job, scheme: wants_list_pdf(job, [wants_of_drum(scheme.drum)]),
    "strip-down sheet": lambda job, scheme: strip_sheet_pdf(job, strip_of_drum(scheme.drum)),
    "identity sheet": lambda job, scheme: identity_sheet_pdf(
        job, replace(scheme.layout.drum, key=scheme.drum), known=known_of(scheme.drum)
    ),
}
DRILLS = ("hole list", "bench sheet")


@cache
def made(name: str, approved: str = "") -> bytes:
    return PAPERS[name](job_of(), full_scheme(approved=approved))


def words(pdf: bytes) -> str:
    document = pdfium.PdfDocument(pdf)
    text = " ".join(page.get_textpage().get_text_range() for page in document)
    return re.sub(r"\s+", " ", text.replace("\xad", "-").replace("\ufffe", "-"))


def pages(pdf: bytes) -> list[str]:
    return [page.get_textpage().get_text_range() for page in pdfium.PdfDocument(pdf)]

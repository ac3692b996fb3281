"""Every sort of paper there is: its file's name, and what it is for. The one table of names."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from counterhoop.bench.paper_names import plain_name

Maker = Callable[[], bytes]
"""Makes one paper when it is called; the same bytes each time."""


class PaperSort(NamedTuple):
    """One sort of paper.

    Attributes
    ----------
    start : str
        How its file's name begins; what tells papers of one sort apart comes after it.
    ending : str
        With the dot.
    says : str
        What it is for, as the folder's READ ME has it.
    """

    start: str
    ending: str
    says: str

    def named(self, which: str = "") -> str:
        """Return the file's name, ``which`` being a paper's size or a wrap's name."""
        return f"{self.start} {which}{self.ending}" if which else f"{self.start}{self.ending}"


READ_ME = PaperSort("READ ME FIRST", ".txt", "what stands in the folder, in the order of use")
CHECK_SHEET = PaperSort(
    "check sheet",
    ".pdf",
    "print it first and measure both bars; give the readings with the papers",
)
KIT_SHEET = PaperSort("kit sheet", ".pdf", "the choice over all drums, why, and the shopping list")
FIT_SHEET = PaperSort(
    "head fit sheet",
    ".pdf",
    "will the heads go on: what was measured, what would help, and a place for the trial by hand",
)
THREAD_LIST = PaperSort(
    "thread and rod list", ".pdf", "which threads, rods before and after truing, drills"
)
WRAP_LIST = PaperSort(
    "wrap list", ".pdf", "what to cut from which sheet, glue and times, where the seam goes"
)
WANTS_LIST = PaperSort(
    "wants list", ".pdf", "what the drums lack after the strip-down, to take along and to write on"
)
TUNING_SHEET = PaperSort(
    "tuning sheet",
    ".pdf",
    "the kit's pitches: what each head sounds like near a rod, what rods pull, in which order",
)
TUNED_SHEET = PaperSort(
    "tuned sheet", ".pdf", "the drum as it was heard before and after, and what was advised"
)
IDENTITY_SHEET = PaperSort(
    "identity sheet",
    ".pdf",
    "what the drum is, how to know it again, when it was made and what is not its own",
)
SURVEY_SHEET = PaperSort(
    "survey sheet", ".pdf", "the drum as found with all that was read round it"
)
TRUING_SHEET = PaperSort(
    "truing sheet",
    ".pdf",
    "what to take off the edges, station by station; before anything is laid out",
)
STRIP_SHEET = PaperSort(
    "strip-down sheet", ".pdf", "every piece that should come off, to be counted and ticked"
)
BAG_LABELS = PaperSort(
    "bag labels", ".pdf", "for the bags of what comes off, and the spares bag; cut them out"
)
SCHEME_SHEET = PaperSort(
    "1 scheme sheet for the client", ".pdf",
    "for the client to choose by: before, after, what it comes to, other ways",
)  # fmt: skip
APPROVAL_SHEET = PaperSort(
    "1 approval sheet for the client", ".pdf",
    "for the client to sign: every change apart, its place, what can and cannot be undone",
)  # fmt: skip
HOLE_LIST = PaperSort(
    "2 hole list", ".pdf", "every hole, where it is and what happens to it; tick off as you go"
)
BENCH_SHEET = PaperSort(
    "3 bench sheet", ".pdf", "findings, order of work, cautions, rods and parts"
)
TEMPLATE = PaperSort(
    "4 template", ".pdf", "full size, goes round the shell; its first sheet says how"
)
ROLL_TEMPLATE = PaperSort(
    "5 template roll", ".pdf", "the same in one strip, for a shop that prints from a roll"
)
FLAT_DRAWING = PaperSort("shell laid flat", ".svg", "the drawing, for the screen")
FLAT_DXF = PaperSort(
    "shell laid flat", ".dxf", "the drawing in mm, full size, a layer for each verdict"
)
AS_FOUND = PaperSort("as found", ".svg", "the drum before anything is done")

SORTS = (
    READ_ME,
    CHECK_SHEET,
    KIT_SHEET,
    FIT_SHEET,
    THREAD_LIST,
    WRAP_LIST,
    WANTS_LIST,
    TUNING_SHEET,
    IDENTITY_SHEET,
    STRIP_SHEET,
    BAG_LABELS,
    SURVEY_SHEET,
    TRUING_SHEET,
    SCHEME_SHEET,
    APPROVAL_SHEET,
    HOLE_LIST,
    BENCH_SHEET,
    TEMPLATE,
    ROLL_TEMPLATE,
    FLAT_DRAWING,
    FLAT_DXF,
    AS_FOUND,
    TUNED_SHEET,
)
MEDIA_TYPES = {
    ".pdf": "application/pdf",
    ".svg": "image/svg+xml",
    ".dxf": "image/vnd.dxf",
    ".txt": "text/plain; charset=utf-8",
    ".zip": "application/zip",
}


def sort_of(name: str) -> PaperSort:
    """Return what sort of paper a name below the folder is.

    Examples
    --------
    >>> sort_of("1 small tom/4 template A4.pdf").says
    'full size, goes round the shell; its first sheet says how'
    """
    paper = name.rpartition("/")[2]
    return next(s for s in SORTS if paper.startswith(s.start) and paper.endswith(s.ending))


def media_type(name: str) -> str:
    """Return the media type of a paper by its name.

    Examples
    --------
    >>> media_type("2 hole list.pdf")
    'application/pdf'
    """
    return MEDIA_TYPES[name[name.rindex(".") :]]


def check_sheet_name(sheet: str) -> str:
    """Return the name of the check sheet for a size of paper."""
    return CHECK_SHEET.named(plain_name(sheet))


def wrap_list_name(wrap: str) -> str:
    """Return the name of the wrap list of a wrap."""
    return WRAP_LIST.named(plain_name(wrap))

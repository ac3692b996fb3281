"""Write the papers that belong to no job: the printer's check sheet, the blank survey."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from counterhoop.bench.deliver import deliver_file
from counterhoop.bench.paper_sorts import check_sheet_name
from counterhoop.papers.blank_survey import blank_survey_pdf
from counterhoop.papers.check_sheet import check_sheet_pdf
from counterhoop.papers.facts import sheet_for
from counterhoop.papers.sheets import sheet_of

BLANK_SURVEY, CHECK_SHEET = "blank survey", "check sheet"
MADE: dict[str, Callable[[str], tuple[str, bytes]]] = {
    BLANK_SURVEY: lambda paper: (
        f"{BLANK_SURVEY} {sheet_for(paper).name}.pdf",
        blank_survey_pdf(paper=paper),
    ),
    CHECK_SHEET: lambda paper: (
        check_sheet_name(sheet_of(paper).name),
        check_sheet_pdf(paper=paper),
    ),
}
"""How each is made for a size of paper: its file's name, and what is in it."""


def write_check_sheet(path: Path, *, paper: str) -> Path:
    """Write the check sheet for a paper size."""
    return deliver_file(check_sheet_pdf(paper=paper), path=path)


def write_blank_survey(path: Path, *, paper: str) -> Path:
    """Write the sheets that a survey is pencilled on."""
    return deliver_file(blank_survey_pdf(paper=paper), path=path)

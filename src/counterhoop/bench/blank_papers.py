"""Write the papers that belong to no job: the printer's check sheet, the blank survey."""

from __future__ import annotations

from pathlib import Path

from counterhoop.bench.deliver import deliver_file
from counterhoop.papers.blank_survey import blank_survey_pdf
from counterhoop.papers.check_sheet import check_sheet_pdf


def write_check_sheet(path: Path, *, paper: str) -> Path:
    """Write the check sheet for a paper size."""
    return deliver_file(check_sheet_pdf(paper=paper), path=path)


def write_blank_survey(path: Path, *, paper: str) -> Path:
    """Write the sheets that a survey is pencilled on."""
    return deliver_file(blank_survey_pdf(paper=paper), path=path)

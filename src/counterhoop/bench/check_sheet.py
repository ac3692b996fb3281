"""Write the sheet that a printer is checked with."""

from __future__ import annotations

from pathlib import Path

from counterhoop.bench.deliver import deliver_file
from counterhoop.papers.check_sheet import check_sheet_pdf


def write_check_sheet(path: Path, *, paper: str) -> Path:
    """Write the check sheet for a paper size."""
    return deliver_file(check_sheet_pdf(paper=paper), path=path)

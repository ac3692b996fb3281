"""Write a survey file to fill in."""

from __future__ import annotations

from pathlib import Path

from counterhoop.bench.deliver import deliver_file
from counterhoop.shell.survey_file.template import new_survey


def new_survey_file(path: Path, *, number: str) -> Path:
    """Write a commented survey file; never over one that is there."""
    return deliver_file(new_survey(number=number).encode(), path=path)

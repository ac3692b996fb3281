"""A small good survey file to vary in tests."""

from __future__ import annotations

from counterhoop.shell.drum import Drum
from counterhoop.shell.survey_file.read import SurveyRead, read_survey

SIX_LUGS = """
head = "batter"
lugs = 6
fitting = "Tarn lug"
first = "30 deg"
down = ["41 mm", "83 mm"]
hole = "6 mm"
"""


def survey(
    *,
    drum: str = "",
    row: str | None = SIX_LUGS,
    more: str = "",
    girth: str = 'circumference = "950 mm"',
    depth: str = '"203 mm"',
    heads: int = 1,
    job: str = "",
    top: str = "",
) -> str:
    """Return the text of a survey of one drum, "tom"."""
    rows = f"[[drums.tom.rows]]{row}" if row is not None else ""
    return (
        f'format = 1\n[job]\nnumber = "1"\n{job}\n{top}\n'
        f'[drums.tom]\n{girth}\nwall = "5 mm"\ndepth = {depth}\n'
        f"heads = {heads}\n{drum}\n{rows}\n{more}\n"
    )


def read(text: str) -> SurveyRead:
    """Read a text as the file kit.toml."""
    return read_survey(text, name="kit.toml")


def drum_of(text: str) -> Drum:
    """Return the one drum of a text."""
    return read(text).job.drums[0].drum

"""A survey file becomes the records of the drums: places, holes, rows and their exceptions."""

from __future__ import annotations

from pathlib import Path

import pytest

from counterhoop.shell.survey_file.read import read_survey

CASES = Path(__file__).parents[1] / "cases"


def test_the_corvane_tom_is_read_as_it_was_measured() -> None:
    # Bench case A, invented: 302.6 over finish, holes 41 and 83 down, six lugs.
    read = read_survey((CASES / "a_corvane.toml").read_text(), name="a_corvane.toml")
    (wanted,) = read.job.drums
    assert wanted.drum.circumference.mean_mm == pytest.approx(950.646, abs=1e-3)
    assert [hole.place.down_mm for hole in wanted.drum.holes[:4]] == [41.0, 83.0, 41.0, 83.0]
    assert [lug.place.along_deg for lug in wanted.drum.rows[0].lugs] == [0, 60, 120, 180, 240, 300]
    assert wanted.finish.truing.resonant.mean_mm == 3.0
    assert read.findings == {"Corvane tom": ()}

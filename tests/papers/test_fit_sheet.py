"""The head-fit sheet says what was measured, what it comes to, and leaves room for the rest."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pypdfium2 as pdfium
import pytest
from documents import words
from example_jobs import job_of

from counterhoop.papers.fit_sheet import fit_data, fit_rows, fit_sheet_pdf
from counterhoop.shell.drum import Drum, OldFinish
from counterhoop.shell.job import DrumWanted, Job
from counterhoop.shell.readings import EndReadings, HeadRead, Readings, RimReadings
from counterhoop.shell.wish import FinishPlan, SecondHead

BASE = job_of().drums[0].drum
WRAP = FinishPlan(kind="new wrap", thickness_mm=0.5)


def drum(across_mm: float, *, oval_mm: float | None = 1.2, **head: Any) -> Drum:
    sizes = () if oval_mm is None else (oval_mm / 2, 0.0, -oval_mm / 2, 0.0)
    read = RimReadings(
        along_deg=(0.0, 45.0, 90.0, 135.0), value_mm=tuple(across_mm + s for s in sizes),
        instrument="caliper", resolution_mm=0.1,
    )  # fmt: skip
    batter = EndReadings(
        end="batter",
        across=None if oval_mm is None else read,
        head=HeadRead(**head) if head else None,
    )
    girth = math.pi * across_mm
    return replace(
        BASE, key="tom", heads=1, finish=OldFinish(kind="lacquer"),
        circumference=replace(
            BASE.circumference, mean_mm=girth, readings_mm=(("batter", girth),)
        ),
        readings=Readings(batter=batter),
    )  # fmt: skip


def job(made: Drum, **wanted: Any) -> Job:
    given = {"wishes": (), "finish": FinishPlan(), **wanted}
    return job_of(drums=(DrumWanted(drum=made, **given),))


def said(made: Job) -> str:
    return words(fit_sheet_pdf(made, fit_rows(made))).replace("\u00a0", " ")


def test_the_four_diameters_and_both_answers_before_and_after_the_wrap() -> None:
    """By hand: 305.4 largest in 307.4 is 2.0; with 0.5 of wrap 305.4 + 1.5 = 306.9 leaves 0.5."""
    made = job(drum(304.8, collar_mm=307.4, rim_mm=314.0, hoop_mm=316.0), finish=WRAP)
    text = said(made)
    for figure in ("305.4 mm", "304.2 mm", "304.8 mm", "307.4 mm", "314.0 mm", "316.0 mm"):
        assert figure in text
    assert "306.9 mm" in text
    assert "floats, 2.0 mm of room" in text
    assert "is tight, 0.5 mm of room" in text
    assert "goes over, 2.0 mm of room" in text
    assert "Keep a band under the collar free of the new wrap: 1.5 mm" in text
    assert "refused unless client and restorer both insist" in text
    assert "tried by hand" in text
    assert "goes, eased round" in text


def test_what_was_not_measured_is_left_to_write() -> None:
    [row] = fit_data(made := job(drum(304.8)), fit_rows(made))["rows"]
    [column] = row["columns"]
    sizes = dict(zip(row["names"], [cell["says"] for cell in column], strict=True))
    assert sizes["shell, largest, at 0°"] == "305.4 mm"
    for name in ("head, inside its collar", "counterhoop, inside", "as it stands", "eased round"):
        assert sizes[name] == ""
    assert "no head was measured" in said(made)


def test_a_tape_alone_says_which_reading_would_tell() -> None:
    text = said(job(drum(304.8, oval_mm=None, collar_mm=306.3)))
    assert "not known: only a tape was read" in text
    assert "Diameters at four places within the top 20 mm would tell." in text
    assert "sits snug, 1.5 mm of room" in text


@pytest.mark.parametrize(
    ("changes", "wishes", "ends"),
    [
        ({}, (), ["batter"]),
        ({"heads": 2}, (), ["batter", "resonant"]),
        ({}, (SecondHead(),), ["batter", "resonant"]),
    ],
)
def test_every_end_that_a_head_goes_on_has_its_place(
    changes: dict[str, Any], wishes: tuple[Any, ...], ends: list[str]
) -> None:
    made = job(replace(drum(304.8), **changes), wishes=wishes)
    assert [row.end for row in fit_rows(made)] == ends


def test_weather_and_inches_stand_beside() -> None:
    made = replace(job(drum(304.8, collar_mm=307.4)), units="in")
    rows = tuple(replace(row, weather=("Damp air takes 0.3 mm.",)) for row in fit_rows(made))
    text = words(fit_sheet_pdf(made, rows))
    assert "Damp air takes 0.3 mm." in text
    assert "304.8 mm (12 in)" in text  # 12 in is 304.8 mm, exactly


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_kit_goes_two_ends_to_a_sheet(paper: str) -> None:
    one = drum(304.8, collar_mm=305.0, rim_mm=314.0, hoop_mm=313.0)
    made = job_of(
        drums=tuple(
            DrumWanted(drum=replace(one, key=key), wishes=(), finish=FinishPlan())
            for key in ("small tom", "large tom", "floor tom", "bass drum")
        )
    )
    pdf = fit_sheet_pdf(made, fit_rows(made), paper=paper)
    document = pdfium.PdfDocument(pdf)
    assert len(document) <= 3
    high = {"A4": 297.0, "Letter": 279.4}[paper]  # ISO 216; 11 in
    assert document[0].get_height() * 25.4 / 72 == pytest.approx(high, abs=0.1)
    assert all(key in words(pdf) for key in ("small tom, batter end", "bass drum, batter end"))

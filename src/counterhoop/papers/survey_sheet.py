"""The survey sheet: the shell laid flat with all that was read round it, and what that says."""

from __future__ import annotations

from typing import Any

from counterhoop.development.flat import End
from counterhoop.errors import Finding
from counterhoop.fittings.book import Book
from counterhoop.papers.bench_sheet import finding_rows
from counterhoop.papers.drawing.pens import PRINT
from counterhoop.papers.drawing.records import Drawing
from counterhoop.papers.drawing.survey_picture import survey_pictures
from counterhoop.papers.facts import Fact, Lengths, foot_facts, listed, sheet_for
from counterhoop.papers.job_facts import NOT_WRITTEN
from counterhoop.papers.printable import set_readable
from counterhoop.papers.sheets import MARGIN_MM, SIZES, PaperSize
from counterhoop.papers.survey_words import (
    air_words,
    circle_rows,
    depth_words,
    flat_words,
    girth_words,
    head_words,
    profile_words,
    rests_on,
    round_words,
    thread_words_read,
)
from counterhoop.papers.svg import to_svg
from counterhoop.quantities.day import say_day
from counterhoop.shell.drum import Drum
from counterhoop.shell.job import Job
from counterhoop.survey.drum_survey import DrumSurvey

FOOT_MM = 17.0
HEAD_MM = 23.0
"""What the foot of a sheet and the lines over the picture take."""
ENDS: tuple[End, End] = ("batter", "resonant")


def survey_sheet_pdf(
    job: Job, drum: Drum, survey: DrumSurvey, *, book: Book | None = None,
    findings: tuple[Finding, ...] = (), says: tuple[str, ...] = (), paper: str = "A4",
) -> bytes:  # fmt: skip
    """Set the survey sheet of a drum as found.

    Parameters
    ----------
    job : Job
        Whose names and units are printed.
    drum, survey : Drum, DrumSurvey
        The drum as found, and what its readings come to.
    book : Book, optional
        For the bases of its fittings.
    findings : tuple of Finding
        What was noticed of the survey.
    says : tuple of str
        More to know, a sentence each.
    paper : str
        "A3" and "Letter" are set on those, anything else on A4, all lying.
    """
    sheet = _sheet(paper)
    pictures = survey_pictures(
        drum, survey, book=book, wide_mm=sheet.long_mm - 2 * MARGIN_MM,
        high_mm=sheet.short_mm - MARGIN_MM - FOOT_MM - HEAD_MM,
    )  # fmt: skip
    data = survey_data(job, drum, survey, pictures=pictures, findings=findings, says=says)
    images = {
        f"picture-{n}": to_svg(picture, palette=PRINT, ident=f"picture-{n}-")
        for n, picture in enumerate(pictures)
    }
    return set_readable(
        "survey_sheet", {**data, "wide": sheet.long_mm, "high": sheet.short_mm},
        title=f"Survey sheet, {drum.key}", images=images,
    )  # fmt: skip


def survey_data(
    job: Job, drum: Drum, survey: DrumSurvey, *, pictures: tuple[Drawing, ...],
    findings: tuple[Finding, ...], says: tuple[str, ...],
) -> dict[str, Any]:  # fmt: skip
    """Return what the sheet says, as plain data."""
    say = Lengths(job.units)
    return {
        "facts": foot_facts(job, what="survey sheet", drum=drum.key),
        "under-title": _under_title(job, pictures[0]),
        "not-read": _not_read(survey),
        "pictures": [
            {
                "name": f"picture-{n}",
                "alt": f"{p.title}. {p.says}",
                "wide": p.width_mm * p.scale,
                "high": p.height_mm * p.scale,
            }
            for n, p in enumerate(pictures)
        ],
        "block": _block(job, drum, say=say),
        "ends": _by_end(drum, survey, say=say),
        "whole": [
            {"name": "Once round", "lines": girth_words(drum, say=say)},
            {"name": "Depth", "lines": depth_words(drum, say=say)},
            *_screws(drum),
            {"name": "Day, wood", "lines": [air_words(drum)]},
            *([{"name": "Also", "lines": list(says)}] if says else []),
        ],
        "circles": circle_rows(survey),
        "findings": finding_rows(findings),
    }


def _sheet(paper: str) -> PaperSize:
    return SIZES["A3"] if paper.strip().casefold() == "a3" else sheet_for(paper)


def _under_title(job: Job, picture: Drawing) -> str:
    who = f" by {job.measured_by}" if job.measured_by else ""
    day = f" on {say_day(job.date)}" if job.date else ""
    measured = f"measured{who}{day}" if who or day else "day and hand not written down"
    scale = f"drawn about 1 : {1.0 / picture.scale:.2g}, readings enlarged as stated"
    return " · ".join((measured, scale, "millimetres"))


def _not_read(survey: DrumSurvey) -> str:
    """What the picture therefore does not show."""
    missing = []
    for end in ENDS:
        found = survey.at(end)
        missing += [f"{end} edge"] if found.edge is None else []
        missing += [f"round the {end} end"] if found.across is None else []
    return f"Not read, and so not drawn: {listed(missing)}." if missing else ""


def _block(job: Job, drum: Drum, *, say: Lengths) -> list[Fact]:
    cells = (
        ("job", f"{job.number}, {job.client}" if job.client else job.number),
        ("drum", drum.key),
        ("called", drum.size_as_written),
        ("paper", "survey sheet"),
        ("surface", drum.circumference.skin.value),
        ("once round", say.length(drum.circumference.mean_mm)),
        ("depth", say.length(drum.depth_read_mm)),
        ("wall", say.length(drum.wall_mm, resolution_mm=0.1)),
        ("heights", "before truing"),
        ("units", "mm" if job.units == "mm" else "mm, inches beside"),
        ("date", say_day(job.date) or NOT_WRITTEN),
        ("measured by", job.measured_by or NOT_WRITTEN),
    )
    return [cell for cell in cells if cell[1]]


def _by_end(drum: Drum, survey: DrumSurvey, *, say: Lengths) -> list[dict[str, Any]]:
    """Rows of what is said of both ends side by side."""
    rows: dict[str, list[list[str]]] = {}
    for end in ENDS:
        found, read = survey.at(end), drum.readings.at(end)
        cells = {
            "Round": round_words(drum, found, say=say),
            "Flat": flat_words(drum, found),
            "Edge": profile_words(read.profile),
            "Head, hoop": head_words(read.head, say=say),
            "Rests on": rests_on(
                found,
                (("diameters", read.across), ("radii", read.radii), ("edge", read.edge)),
            ),
        }
        for name, lines in cells.items():
            rows.setdefault(name, []).append(lines)
    return [{"name": name, "batter": both[0], "resonant": both[1]} for name, both in rows.items()]


def _screws(drum: Drum) -> list[dict[str, Any]]:
    read = [f"{thread_words_read(thread)}." for thread in drum.readings.threads]
    return [{"name": "Screws", "lines": read}] if read else []

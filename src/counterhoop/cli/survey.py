"""A survey file: begin one, read it, hear what its readings come to."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from counterhoop.cli.options import DrumName, SurveyFile


def new(
    survey: Annotated[Path, typer.Argument(metavar="SURVEY", help="The file to write.")],
    number: Annotated[str, typer.Option(metavar="JOB", help="The job's number.")] = "1",
) -> None:
    """Write a survey file to fill in, with every line explained.

    Eight numbers off the drum come first; they are enough to see it laid flat. Fill in the rest as
    you measure, in any unit, as you would write it on masking tape.
    """
    from counterhoop.bench.new_survey import new_survey_file

    path = new_survey_file(survey, number=number)
    typer.echo(
        f"Wrote {path}. Fill it in with the drum on the bench, then: counterhoop check {path}"
    )


def check(survey: SurveyFile) -> None:
    """Read a survey file and say what does not add up.

    Gaps that do not close on the circumference, a size an inch out, a hole too near the edge: each
    with where it is and what to measure again. Nothing is written.
    """
    from counterhoop.bench.open_job import open_job
    from counterhoop.bench.plan_job import noticed_in
    from counterhoop.bench.survey_job import survey_job
    from counterhoop.cli.text import survey_text

    opened = open_job(survey)
    typer.echo(survey_text(opened, noticed_in(opened, survey_job(opened))))


def readings(survey: SurveyFile, drum: DrumName = "") -> None:
    """Say whether shells are round, edges flat, and whether heads will go on.

    What truing takes off at each station, how much could come off before something stops it, what
    the screws are, and which readings cannot be right. Nothing is written.
    """
    from counterhoop.bench.open_job import open_job
    from counterhoop.bench.survey_job import of_drum, survey_job
    from counterhoop.cli.survey_text import readings_text

    opened = open_job(survey)
    typer.echo(readings_text(opened.job, of_drum(survey_job(opened), name=drum)))

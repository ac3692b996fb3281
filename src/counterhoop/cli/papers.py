"""Papers: those of a job, those to fill in, and the page that measures a printer."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from counterhoop.cli.options import DrumName, Printer, Sheet, SurveyFile
from counterhoop.cli.schemes import need_all


def papers(
    survey: SurveyFile,
    to: Annotated[Path, typer.Option("--to", metavar="FOLDER", help="Where to write them.")],
    drum: DrumName = "",
    scheme: Annotated[
        int, typer.Option("--scheme", metavar="N", help="This scheme, not the one that is chosen.")
    ] = 0,
    paper: Sheet = "A4",
    printer: Printer = "",
    paper_thickness: Annotated[
        str, typer.Option("--thickness", metavar="LENGTH", help='Of the paper, say "0.1 mm".')
    ] = "0.1 mm",
) -> None:
    """Write templates, hole lists, bench sheets and the client's sheet to a folder.

    All papers are finished before the folder appears. A folder that earlier papers were written to
    is replaced whole; any other folder that holds something is left alone. A survey file says
    nothing of when a drum was made: its identity sheet is had in the browser alone.
    """
    from counterhoop.bench.open_job import open_job
    from counterhoop.bench.plan_job import plan_job
    from counterhoop.bench.printing import Printing
    from counterhoop.bench.write_papers import write_papers
    from counterhoop.cli.progress import watched

    printing = Printing.read(paper=paper, measured=printer, thickness=paper_thickness)
    opened = open_job(survey)
    with watched() as progress:
        plan = plan_job(opened, progress=progress)
        # A set of papers that lacks a drum's would be taken for whole at the bench.
        need_all((plan.drum(drum),) if drum else plan.drums)
        written = write_papers(
            plan, folder=to, drum=drum, scheme=scheme, printing=printing, progress=progress
        )
    typer.echo(f"{len(written.names)} papers in {written.folder}")
    for name in written.names:
        typer.echo(f"  {name}")
    for line in written.drafts:
        typer.echo(line)


def check_sheet(
    to: Annotated[Path, typer.Option("--to", metavar="FILE", help="The PDF to write.")],
    paper: Sheet = "A4",
) -> None:
    """Write a page with two bars to measure, so that templates come out true to size.

    Few printers are exact. Measure both bars with a steel rule and give what you read to the papers
    command; more than 2 % out means that the page was scaled, not that the printer is poor.
    """
    from counterhoop.bench.blank_papers import write_check_sheet

    path = write_check_sheet(to, paper=paper)
    typer.echo(f'Wrote {path}. Print it at "actual size", measure both bars with a steel rule,')
    typer.echo('then give both readings with the papers: --printer "179.6 mm, 249.5 mm"')


def blank_survey(
    to: Annotated[Path, typer.Option("--to", metavar="FILE", help="The PDF to write.")],
    paper: Sheet = "A4",
) -> None:
    """Write sheets to fill in with a pencil at the drum, then to type from."""
    from counterhoop.bench.blank_papers import write_blank_survey

    typer.echo(f"Wrote {write_blank_survey(to, paper=paper)}.")

"""The commands, in the order of the work. Everything heavy is imported by the command itself."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from counterhoop import __version__
from counterhoop.errors import CounterhoopError

HELP = """From the survey of an old drum to schemes, a hole list and full-size templates.

You measure a shell and type what you read; Counterhoop works out which old holes can stay, what
must be plugged, what will show, whether everything clears, and where to drill.

The usual way:  new, check, readings, schemes, papers.  Never drill from a paper that says DRAFT.
"""

app = typer.Typer(
    name="counterhoop",
    help=HELP,
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    context_settings={"max_content_width": 100, "terminal_width": 100},
)

SurveyFile = Annotated[Path, typer.Argument(metavar="SURVEY", help="A survey file.")]
DrumName = Annotated[str, typer.Option("--drum", metavar="NAME", help="Only this drum.")]
Sheet = Annotated[
    str, typer.Option("--paper", metavar="SIZE", help="A4, A3, Letter, or roll for one strip.")
]
Printer = Annotated[
    str,
    typer.Option(
        "--printer",
        metavar="SHORT,LONG",
        help="What you measured on the check sheet's two bars, short side first, for example"
        ' "179.6 mm, 249.5 mm".',
    ),
]


@app.command()
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


@app.command()
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


@app.command()
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


@app.command()
def schemes(
    survey: SurveyFile,
    drum: DrumName = "",
    json: Annotated[
        bool,
        typer.Option(
            "--json", help="Print everything as JSON (docs/reference/schemes.schema.json)."
        ),
    ] = False,
) -> None:
    """Work out every way to reach what the client wants, and compare them.

    The best comes first and says why. Every scheme says what it cuts, what will show, what it
    costs, and what stops it or wants care.
    """
    from counterhoop.bench.open_job import open_job
    from counterhoop.bench.plan_job import plan_job
    from counterhoop.cli.progress import watched

    opened = open_job(survey)
    with watched(quiet=json) as progress:
        plan = plan_job(opened, progress=progress)
    chosen = (plan.drum(drum),) if drum else plan.drums
    if json:
        from counterhoop.bench.listing import listing

        typer.echo(listing(plan, drums=chosen).model_dump_json(indent=2))
        return
    from counterhoop.cli.text import schemes_text

    typer.echo(schemes_text(plan, chosen))


@app.command()
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
    is replaced whole; any other folder that holds something is left alone.
    """
    from counterhoop.bench.open_job import open_job
    from counterhoop.bench.plan_job import plan_job
    from counterhoop.bench.write_papers import Printing, write_papers
    from counterhoop.cli.progress import watched

    printing = Printing.read(paper=paper, measured=printer, thickness=paper_thickness)
    opened = open_job(survey)
    with watched() as progress:
        plan = plan_job(opened, progress=progress)
        written = write_papers(
            plan, folder=to, drum=drum, scheme=scheme, printing=printing, progress=progress
        )
    typer.echo(f"{len(written.names)} papers in {written.folder}")
    for name in written.names:
        typer.echo(f"  {name}")
    for line in written.drafts:
        typer.echo(line)


@app.command()
def wrap(survey: SurveyFile) -> None:
    """Lay the pieces of all new wraps out on sheets, and say where seams go.

    Fewest sheets first, then the largest offcut left, with proof or the gap said; how long the glue
    must dry, and whether the heads still go on over it. The papers command draws it.
    """
    from counterhoop.bench.open_job import open_job
    from counterhoop.bench.plan_job import plan_job
    from counterhoop.cli.progress import watched
    from counterhoop.cli.wrap_text import wrap_text
    from counterhoop.scheme.wrapping import wrap_plans

    opened = open_job(survey)
    with watched() as progress:
        plan = plan_job(opened, progress=progress)
    chosen = [drum.chosen for drum in plan.drums if drum.chosen is not None]
    plans = wrap_plans(opened.job, chosen, rules=opened.shop.rules)
    typer.echo(wrap_text(plans, currency=opened.job.figures.currency))


@app.command()
def thread(
    outside: Annotated[
        str, typer.Argument(metavar="OUTSIDE", help='Over the crests, say "5.44 mm".')
    ],
    over: Annotated[
        str, typer.Option("--over", metavar="LENGTH", help='Length over ten threads, "10.6 mm".')
    ] = "",
    threads: Annotated[
        int, typer.Option("--threads", metavar="N", help="When it was not ten.")
    ] = 10,
    pitch: Annotated[
        str, typer.Option("--pitch", metavar="PITCH", help='By a gauge, "24 tpi" or "1 mm".')
    ] = "",
    flanks: Annotated[
        str, typer.Option("--flanks", metavar="ANGLE", help='By a gauge, say "55 deg".')
    ] = "",
) -> None:
    """Say which thread a screw has, and the one more reading that would settle it.

    ISO metric, Unified, Whitworth and BA. Threads that a reading cannot tell apart are named
    together; nothing is ever forced.
    """
    from counterhoop.bench.identify_thread import identify

    typer.echo(identify(outside, over=over, threads=threads, pitch=pitch, flanks=flanks))


@app.command()
def fitting(
    name: Annotated[
        str, typer.Argument(metavar="NAME", help="As the book calls it, or part of it.")
    ] = "",
    book: Annotated[
        Path | None,
        typer.Option("--book", metavar="FILE", help="Your own book, over the packaged one."),
    ] = None,
) -> None:
    """Show what the fittings book says of a fitting; without a name, list them all."""
    from counterhoop.bench.show_fitting import show_fitting

    typer.echo(show_fitting(name, book_path=book))


@app.command(name="check-sheet")
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


@app.command(name="blank-survey")
def blank_survey(
    to: Annotated[Path, typer.Option("--to", metavar="FILE", help="The PDF to write.")],
    paper: Sheet = "A4",
) -> None:
    """Write sheets to fill in with a pencil at the drum, then to type from."""
    from counterhoop.bench.blank_papers import write_blank_survey

    typer.echo(f"Wrote {write_blank_survey(to, paper=paper)}.")


@app.command()
def demo(
    to: Annotated[Path, typer.Option("--to", metavar="FOLDER", help="Where to write the papers.")],
) -> None:
    """Work the invented job that comes with Counterhoop, and write all its papers."""
    from counterhoop.bench.demo import open_demo
    from counterhoop.bench.plan_job import plan_job
    from counterhoop.bench.write_papers import Printing, write_papers
    from counterhoop.cli.progress import watched
    from counterhoop.cli.text import demo_text

    with watched() as progress:
        plan = plan_job(open_demo(), progress=progress)
        written = write_papers(plan, folder=to, printing=Printing(), progress=progress)
    typer.echo(demo_text(plan, written))


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"counterhoop {__version__}")
        raise typer.Exit


@app.callback()
def _top(
    version: Annotated[
        bool,
        typer.Option("--version", callback=_version, is_eager=True, help="Print the version."),
    ] = False,
) -> None:
    pass


def main() -> None:
    """Run a command; a person's mistake is one line and exit code 2."""
    try:
        app()
    except CounterhoopError as fault:
        typer.echo(str(fault), err=True)
        sys.exit(2)

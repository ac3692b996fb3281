"""The commands, in the order of the work. Everything heavy is imported by the command itself."""

from __future__ import annotations

import sys
from typing import Annotated

import typer

from counterhoop import __version__
from counterhoop.cli.fittings import fitting, thread
from counterhoop.cli.papers import blank_survey, check_sheet, demo, papers
from counterhoop.cli.schemes import schemes, wrap
from counterhoop.cli.serve import serve
from counterhoop.cli.survey import check, new, readings
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

for command in (
    *(serve, new, check, readings, schemes, papers, wrap, thread, fitting),
    *(check_sheet, blank_survey, demo),
):
    app.command()(command)


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

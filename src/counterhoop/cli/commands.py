"""The commands, in the order of the work. Everything heavy is imported by the command itself."""

from __future__ import annotations

import os
import sys
from typing import Annotated

import typer

from counterhoop import __version__
from counterhoop.cli.bill import bill_app, money
from counterhoop.cli.dated import dated
from counterhoop.cli.demo import demo
from counterhoop.cli.fits import fits
from counterhoop.cli.fittings import fitting, thread
from counterhoop.cli.hear import hear
from counterhoop.cli.kit import kit
from counterhoop.cli.listen import listen
from counterhoop.cli.log import log_app
from counterhoop.cli.own_ways import hours, terms
from counterhoop.cli.papers import blank_survey, check_sheet, papers
from counterhoop.cli.parts import parts
from counterhoop.cli.price import price_app
from counterhoop.cli.promise import calendar, promise_app, today, weeks
from counterhoop.cli.schemes import schemes, wrap
from counterhoop.cli.serve import serve
from counterhoop.cli.shelf import shelf_app
from counterhoop.cli.shelf_rows import dated_rows_app, shelf_in, shelf_out
from counterhoop.cli.store import (
    backup,
    export,
    hand_out,
    import_folder,
    jobs,
    restore,
    store_app,
    take_in,
)
from counterhoop.cli.survey import check, new, readings
from counterhoop.cli.trade import sold_app, worth
from counterhoop.cli.unknown import unknown
from counterhoop.errors import CounterhoopError

HELP = """From the survey of an old drum to schemes, a hole list and full-size templates.

You measure a shell and type what you read; Counterhoop works out which old holes can stay, what
must be plugged, what will show, whether everything clears, and where to drill.

In the browser:  serve.  With files:  new, check, readings, schemes, parts, papers.
Heads and tuning:  kit, hear, listen.
With the store:  price, promise, today, weeks, log, bill, money.
Never drill from a paper that says DRAFT.
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
    *(
        serve,
        new,
        check,
        readings,
        schemes,
        papers,
        parts,
        wrap,
        kit,
        listen,
        hear,
        thread,
        unknown,
        fits,
        fitting,
    ),
    dated,
    *(today, weeks, calendar, money, hours, terms),
    worth,
    *(check_sheet, blank_survey, jobs, take_in, hand_out, backup, restore, export),
):
    app.command()(command)
app.command(name="import")(import_folder)
app.add_typer(store_app, name="store")
app.add_typer(dated_rows_app, name="dated-rows")
shelf_app.command(name="out")(shelf_out)
shelf_app.command(name="in")(shelf_in)
app.add_typer(shelf_app, name="shelf")
for group, name in ((price_app, "price"), (promise_app, "promise"), (log_app, "log")):
    app.add_typer(group, name=name)
app.add_typer(bill_app, name="bill")
app.add_typer(sold_app, name="sold")
app.command()(demo)


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
    # Matrices here are small: a second thread for one only waits, and keeps a core from the rest.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    try:
        app()
    except CounterhoopError as fault:
        typer.echo(str(fault), err=True)
        sys.exit(2)

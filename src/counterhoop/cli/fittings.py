"""Fittings: what the book says of one, and which thread a screw has."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer


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

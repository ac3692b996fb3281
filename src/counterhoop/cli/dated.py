"""When a drum was made, from dated features."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

LOOK = "FEATURE=FORM"


def dated(
    family: Annotated[
        str, typer.Option("--family", metavar="NAME", help="Whose drum it is, as --list has it.")
    ] = "",
    line: Annotated[str, typer.Option("--line", metavar="NAME", help="Its line, if known.")] = "",
    size: Annotated[
        str, typer.Option("--size", metavar="SIZE", help='Say "14 in dia x 5.5 in deep".')
    ] = "",
    saw: Annotated[
        list[str] | None,
        typer.Option("--saw", metavar=LOOK, help='What you saw yourself, say "badge=oval".'),
    ] = None,
    told: Annotated[
        list[str] | None, typer.Option("--told", metavar=LOOK, help="What somebody told you.")
    ] = None,
    guessed: Annotated[
        list[str] | None, typer.Option("--guessed", metavar=LOOK, help="What you guess.")
    ] = None,
    serial: Annotated[
        str, typer.Option("--serial", metavar="NUMBER", help="As it is written on the drum.")
    ] = "",
    reference: Annotated[
        Path | None,
        typer.Option("--reference", metavar="FILE", help="Your own dated features, over ours."),
    ] = None,
    list_: Annotated[
        bool, typer.Option("--list", help="List families, features and their forms.")
    ] = False,
) -> None:
    """Say when a drum was made, which parts look later, and what to look at next.

    The packaged features are invented, to show how they are written: lay your own over them.
    """
    from counterhoop.bench.evidence.told_in_words import date_by_words, reference_from
    from counterhoop.bench.workshop import utc_now
    from counterhoop.cli.dated_text import dated_text, known_text

    known = reference_from(reference)
    if list_ or not family:
        typer.echo(known_text(known, family=family))
        return
    looks = {"seen": saw or (), "told": told or (), "guessed": guessed or ()}
    found = date_by_words(
        looks, known, family=family, line=line, size=size, serial=serial,
        looked_at=utc_now().year,
    )  # fmt: skip
    typer.echo(dated_text(found))

"""What fits some holes of a drum."""

from __future__ import annotations

from typing import Annotated

import typer

from counterhoop.cli.options import DataFolder, StoreAddress, SurveyFile


def fits(
    survey: SurveyFile,
    drum: Annotated[str, typer.Option("--drum", metavar="NAME", help="Which drum.")],
    hole: Annotated[
        list[int],
        typer.Option("--hole", metavar="N", help="A hole that may serve; once for each."),
    ],
    kind: Annotated[
        list[str] | None,
        typer.Option("--kind", metavar="KIND", help="What may go there, say lug or strainer."),
    ] = None,
    turn: Annotated[
        str,
        typer.Option("--turn", metavar="HOW", help='"upright", "half turn too" or "any".'),
    ] = "upright",
    mirror: Annotated[
        bool, typer.Option("--mirror", help="The other hand of a pair may serve.")
    ] = False,
    takes: Annotated[
        str,
        typer.Option("--takes", metavar="LENGTH", help="The arm that is to go in, 22.2 mm."),
    ] = "",
    shelf: Annotated[
        bool, typer.Option("--shelf", help="Look on the shelf too, and name what lies there first.")
    ] = False,
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Say what goes on old holes of a drum: as it is, after a change, or not and why.

    Holes have the numbers of the hole list. Nothing is set aside: that is done on the pages.
    """
    from counterhoop.bench.parts.ask_fits import ask_fits, asked_of
    from counterhoop.cli.fits_text import fits_text
    from counterhoop.cli.progress import watched

    asked = asked_of(holes=hole, kinds=kind or (), turn=turn, mirror=mirror, takes=takes)
    with watched() as progress:
        if shelf or data is not None or store:
            from counterhoop.cli.store import workshop

            with workshop(store, data) as shop:
                found = ask_fits(survey, drum, asked, shop=shop, progress=progress)
        else:
            found = ask_fits(survey, drum, asked, progress=progress)
    typer.echo(fits_text(found))

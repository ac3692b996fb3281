"""What is this? An unknown part, from what was measured on it."""

from __future__ import annotations

from typing import Annotated, Literal

import typer

from counterhoop.cli.options import DataFolder, StoreAddress


def unknown(
    measured: Annotated[
        list[str],
        typer.Argument(metavar="READING...", help='Such as "holes apart 42.5 mm" "24 tpi".'),
    ],
    kind: Annotated[
        str, typer.Option("--kind", metavar="KIND", help="What it looks like: lug, rod, hoop ...")
    ] = "",
    seen: Annotated[
        str,
        typer.Option("--seen", metavar="WORD", help="Its finish or its material, if you are sure."),
    ] = "",
    shelf: Annotated[
        bool,
        typer.Option("--shelf", help="Hold it against your own book and your shelf as well."),
    ] = False,
    inches: Annotated[
        bool, typer.Option("--inches", help="A length without a unit is in inches.")
    ] = False,
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Say what an unknown part is, how surely, and what to measure next.

    It is held against the packaged fittings book; with --shelf, --data or --store also against
    your own book and the pieces on your shelf. What fits nothing is said to fit nothing. For the
    thread of a screw alone there is the command thread.
    """
    from counterhoop.bench.shelf.ask_unknown import ask_unknown
    from counterhoop.cli.store import workshop

    line = ", ".join(measured)
    units: Literal["mm", "in"] = "in" if inches else "mm"
    if shelf or data is not None or store:
        with workshop(store, data) as shop:
            said = ask_unknown(line, kind=kind, seen=seen, units=units, shop=shop)
    else:
        said = ask_unknown(line, kind=kind, seen=seen, units=units)
    typer.echo(said)

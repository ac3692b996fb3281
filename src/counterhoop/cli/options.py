"""What several commands take, said once."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

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
DataFolder = Annotated[
    Path | None,
    typer.Option("--data", metavar="FOLDER", help="Where everything is kept; your own folder."),
]
StoreAddress = Annotated[
    str,
    typer.Option(
        "--store", metavar="ADDRESS", help="A PostgreSQL store that several benches share."
    ),
]

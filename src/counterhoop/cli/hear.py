"""Hear a scheme before it is drilled."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from counterhoop.cli.options import SurveyFile
from counterhoop.errors import BadInput


def hear(
    survey: SurveyFile,
    drum: Annotated[str, typer.Option("--drum", metavar="NAME", help="Which drum.")],
    to: Annotated[Path, typer.Option("--to", metavar="FOLDER", help="A folder for the sounds.")],
    scheme: Annotated[
        int,
        typer.Option("--scheme", metavar="N", min=0, help="Which scheme; 0 is the chosen one."),
    ] = 0,
) -> None:
    """Write how a drum sounds before and after a scheme, as WAV files.

    A sketch: the pitches are the model's, struck in the middle and near the rim with even heads.
    How long it rings is typical of such drums and no forecast.
    """
    from counterhoop.bench.deliver import deliver
    from counterhoop.bench.hear_it import hear_it
    from counterhoop.bench.open_job import open_job
    from counterhoop.bench.plan_job import plan_job
    from counterhoop.cli.progress import watched
    from counterhoop.cli.text import wrapped

    opened = open_job(survey)
    with watched() as progress:
        plan = plan_job(opened, progress=lambda says, share: progress(says, 0.8 * share))
        found = plan.drum(drum)
        wanted = None
        if scheme:
            wanted = next((one for one in found.ranked.shown if one.number == scheme), None)
            if wanted is None:
                raise BadInput(
                    f"the {found.key} has no such scheme", where="--scheme", given=scheme,
                    wanted=f"1 to {len(found.ranked.shown)}" if found.ranked.shown else "0",
                )  # fmt: skip
        progress("sounds", 0.8)
        sounds = hear_it(found, scheme=wanted)
    folder = deliver({one.file_name: one.wav for one in sounds.sounds}, folder=to)
    lines = [f"{sounds.drum}: {sounds.scheme}"]
    lines += [line for said in sounds.says for line in wrapped(said, indent=0)]
    typer.echo("\n".join([*lines, f"{len(sounds.sounds)} sounds are in {folder}"]))

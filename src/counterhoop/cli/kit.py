"""The pitches of a kit."""

from __future__ import annotations

import json as as_json
from typing import Annotated

import typer

from counterhoop.cli.options import SurveyFile


def kit(
    survey: SurveyFile,
    json: Annotated[bool, typer.Option("--json", help="Print everything as JSON.")] = False,
) -> None:
    """Plan the pitches of a kit: each drum, each head, and what that asks of its rods.

    What the player wants stands in [kit] of the survey file; every drum stays where its heads ring
    and its rods pull less than your own limit. Torque and turns are guides: the ear decides.
    """
    from counterhoop.bench.open_job import open_job
    from counterhoop.bench.plan_job import plan_job
    from counterhoop.bench.tune.kit_pitches import kit_pitches
    from counterhoop.cli.progress import watched

    opened = open_job(survey)
    with watched(quiet=json) as progress:
        plan = plan_job(opened, progress=lambda says, share: progress(says, share / 2.0))
        progress("pitches", 0.5)
        made = kit_pitches(plan)
    if json:
        from counterhoop.bench.tune.kit_listing import kit_listing

        typer.echo(as_json.dumps(kit_listing(made), ensure_ascii=False, indent=2))
    else:
        from counterhoop.cli.tune_text import kit_text

        typer.echo(kit_text(made))

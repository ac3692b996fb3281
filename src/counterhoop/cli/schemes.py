"""Schemes worked out, and new wraps laid out."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Annotated

import typer

from counterhoop.cli.options import DrumName, SurveyFile

if TYPE_CHECKING:
    from counterhoop.bench.plan_job import DrumPlan


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
    else:
        from counterhoop.cli.text import schemes_text

        typer.echo(schemes_text(plan, chosen))
    need_all(chosen)


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
    need_all(plan.drums)
    chosen = [drum.chosen for drum in plan.drums if drum.chosen is not None]
    plans = wrap_plans(opened.job, chosen, rules=opened.shop.rules)
    typer.echo(wrap_text(plans, currency=opened.job.figures.currency))


def need_all(drums: Iterable[DrumPlan]) -> None:
    """Stop at a wish that cannot be met, in its own words.

    Raises
    ------
    BadInput
        Of the first drum whose wish or finish plan was refused.
    """
    for drum in drums:
        if drum.refused is not None:
            raise drum.refused

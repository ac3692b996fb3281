"""The parts of a job: what should come off each drum, and what is wanted."""

from __future__ import annotations

from typing import TYPE_CHECKING

import typer

from counterhoop.cli.options import DrumName, SurveyFile

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counterhoop.bench.plan_job import DrumPlan, JobPlan
    from counterhoop.parts.wants import Wants


def parts(survey: SurveyFile, drum: DrumName = "") -> None:
    """List every piece that should come off, place by place, and what is wanted.

    Nothing is counted in a survey file: wanted is what its survey says is gone and what the chosen
    schemes add. Count and tick in the browser, or on the strip-down sheet of the papers command.
    """
    from counterhoop.bench.open_job import open_job
    from counterhoop.bench.plan_job import plan_job
    from counterhoop.cli.progress import watched

    opened = open_job(survey)
    with watched() as progress:
        plan = plan_job(opened, progress=progress)
    picked = (plan.drum(drum),) if drum else plan.drums
    typer.echo("\n".join(line for one in picked for line in _drum(one, plan)).strip("\n"))


def _drum(one: DrumPlan, plan: JobPlan) -> Iterator[str]:
    from counterhoop.bench.parts.goes_back import spares_of
    from counterhoop.bench.parts.stripped import counted_of, expected_of
    from counterhoop.bench.parts.wants_of_job import wants_of_drum
    from counterhoop.papers.facts import count, labels, listed
    from counterhoop.parts.rows_of_places import rows_of_places

    shop = plan.opened.shop
    stripped = counted_of(expected_of(one.wanted.drum, one.found, shop=shop), {})
    pieces = sum(line.count for line in stripped.expected.lines)
    yield f"{one.key}: {count(pieces, 'piece')} should come off"
    for row in rows_of_places(stripped.counted):
        named, lines = labels(place for place, _ in row), row[0][1]
        each = "; ".join(f"{o.expected.count} × {o.expected.sort.piece}" for o in lines)
        gone = ", gone" if all(o.expected.lost for o in lines) else ""
        yield f"  {named}{', each' if len(row) > 1 else ''}{gone}: {each}"
    for line in stripped.expected.unsaid:
        yield f"  {line}"
    yield from _wanted(wants_of_drum(stripped, one.chosen, book=shop.book))
    spares = spares_of(stripped, one.chosen)
    if spares:
        yield f"  Spares bag: {listed([f'{s.count} × {s.sort.piece}' for s in spares])}."
    yield ""


def _wanted(wants: Wants) -> Iterator[str]:
    from counterhoop.papers.wants_list import places_of

    if not wants.lines:
        yield "  Wanted: nothing, before anything is counted."
        return
    yield "  Wanted, before anything is counted:"
    for want in wants.lines:
        places = places_of(want).replace("\u00a0", " ")
        yield f"    {want.count} × {want.sort.piece}: {places}"

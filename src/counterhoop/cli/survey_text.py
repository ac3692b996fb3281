"""What the survey command prints: the readings of each drum in the words of the bench."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from counterhoop.cli.text import finding_lines, wrapped
from counterhoop.papers.facts import Lengths
from counterhoop.papers.survey_words import (
    air_words,
    depth_words,
    flat_words,
    girth_words,
    head_words,
    round_words,
)
from counterhoop.papers.truing_sheet import finest_mm
from counterhoop.quantities.print_length import print_mm
from counterhoop.scheme.wrapping.sizes import marked_down_mm
from counterhoop.survey.thread_next import thread_words

if TYPE_CHECKING:
    from counterhoop.bench.survey_job import DrumSurveyed
    from counterhoop.scheme.budget import Budget
    from counterhoop.shell.job import Job
    from counterhoop.survey.drum_survey import EndSurvey
    from counterhoop.survey.truing_plan import EdgeCut, TruingPlan

NEXT_LIMITS = 2
"""Further limits named after the one that stops an edge."""


def readings_text(job: Job, drums: Sequence[DrumSurveyed]) -> str:
    """Say how round and flat each drum is, what truing takes, whether its heads go on."""
    say = Lengths(job.units)
    lines: list[str] = []
    for one in drums:
        drum = one.drum
        lines += [f"{drum.key}: {drum.says or drum.kind}"]
        lines += _said("girth", girth_words(drum, say=say))
        lines += _said("depth", depth_words(drum, say=say))
        for end in (one.survey.batter, one.survey.resonant):
            lines += _end(one, end, say=say)
        for cut in _cuts(one.plan):
            lines += _said(f"truing the {cut.end} edge", [_cut_words(cut)])
        for budget in one.budgets:
            lines += _said(f"what the {budget.end} edge can lose", [_budget_words(budget)])
        for thread in one.survey.threads:
            lines += _said(thread.read.of, thread_words(thread.odds))
        lines += _said("air and wood", [air_words(drum), *(one.weather if _has_head(one) else ())])
        lines += finding_lines((*one.suspects, *one.findings), most=100)
        lines.append("")
    return "\n".join(lines).rstrip()


def _has_head(one: DrumSurveyed) -> bool:
    """Whether a head was measured: then a millimetre of weather may matter."""
    return any(
        end.head is not None for end in (one.drum.readings.batter, one.drum.readings.resonant)
    )


def _end(one: DrumSurveyed, end: EndSurvey, *, say: Lengths) -> list[str]:
    read = one.drum.readings.at(end.end)
    lines = []
    if end.across is not None:
        lines += _said(f"{end.end} end, round", round_words(one.drum, end, say=say))
    if end.flat is not None:
        lines += _said(f"{end.end} edge, flat", flat_words(one.drum, end))
    if read.head is not None:
        lines += _said(f"{end.end} head", head_words(read.head, say=say))
    if not lines:
        lines += _said(f"{end.end} end", ["Neither round nor flat nor a head was read."])
    return lines


def _cuts(plan: TruingPlan | None) -> Iterable[EdgeCut]:
    cuts = () if plan is None else (plan.batter, plan.resonant)
    return (cut for cut in cuts if cut is not None)


def _cut_words(cut: EdgeCut) -> str:
    step = finest_mm(cut)
    most, mean = (print_mm(mm, resolution_mm=step) for mm in (cut.most_mm, cut.mean_mm))
    each = ", ".join(
        f"{name.removeprefix('station ')}: {print_mm(mm, resolution_mm=step, with_unit=False)}"
        for name, mm in zip(cut.names, cut.removal_mm, strict=True)
    )
    return (
        f"{most} at the most, {mean} taken all round. Take off, station by station, in mm: {each}."
    )


def _budget_words(budget: Budget) -> str:
    most = print_mm(marked_down_mm(budget.most_mm))
    then = "".join(
        f"; at {print_mm(marked_down_mm(mm))} {what}"
        for what, mm in budget.limits[1 : 1 + NEXT_LIMITS]
    )
    past = f" Past its limit already: {'; '.join(budget.already)}." if budget.already else ""
    unknown = f" {budget.not_counted}" if budget.not_counted else ""
    return f"{most}, until {budget.stopped_by}{then}.{past}{unknown}"


def _said(heading: str, sentences: Iterable[str]) -> list[str]:
    return wrapped(f"{heading}: {' '.join(sentences)}", indent=2)

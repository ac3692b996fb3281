"""What the readings of every drum of a job say."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from counterhoop.bench.open_job import OpenJob
from counterhoop.errors import BadInput, Finding
from counterhoop.scheme.budget import Budget, budgets
from counterhoop.scheme.findings.survey_checks import look_over_survey
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.rods import plan_rods
from counterhoop.scheme.schemes import as_found
from counterhoop.scheme.trued import truing_plan
from counterhoop.shell.drum import Drum
from counterhoop.shell.job import DrumWanted
from counterhoop.survey.crosscheck import readings_held
from counterhoop.survey.drum_survey import DrumSurvey, survey_drum
from counterhoop.survey.truing_plan import TruingPlan
from counterhoop.survey.weather_words import weather_words


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumSurveyed:
    """One drum's readings and all that rests on them alone.

    Attributes
    ----------
    survey : DrumSurvey
        Roundness, flatness and threads.
    found : Layout
        The drum as it stands.
    suspects : tuple of Finding
        Readings that do not agree with each other.
    findings : tuple of Finding
        What the readings come to.
    plan : TruingPlan or None
        The planes that the finish plan has the edges sanded to.
    budgets : tuple of Budget
        How much could come off each end before the first stroke.
    weather : tuple of str
        What other weather would do, a sentence each.
    """

    wanted: DrumWanted
    survey: DrumSurvey
    found: Layout
    suspects: tuple[Finding, ...]
    findings: tuple[Finding, ...]
    plan: TruingPlan | None
    budgets: tuple[Budget, ...]
    weather: tuple[str, ...]

    @property
    def drum(self) -> Drum:
        """The drum as found."""
        return self.wanted.drum


def survey_job(
    opened: OpenJob, *, found: Mapping[str, Layout] | None = None
) -> tuple[DrumSurveyed, ...]:
    """Work out the readings of every drum.

    Parameters
    ----------
    found : mapping of str to Layout, optional
        The drums as they stand, by name, where they are worked out already.
    """
    return tuple(
        _surveyed(wanted, opened, found=(found or {}).get(wanted.drum.key))
        for wanted in opened.job.drums
    )


def _surveyed(wanted: DrumWanted, opened: OpenJob, *, found: Layout | None) -> DrumSurveyed:
    shop = opened.shop
    survey = survey_drum(wanted.drum)
    layout = found or as_found(wanted.drum, shop=shop)
    with_rods = replace(layout, rods=plan_rods(layout, book=shop.book, rules=shop.rules))
    held = readings_held(wanted.drum, survey, rules=shop.rules)
    return DrumSurveyed(
        wanted=wanted,
        survey=survey,
        found=layout,
        suspects=(*opened.noticed.get(wanted.drum.key, ()), *held),
        findings=look_over_survey(layout, rules=shop.rules),
        plan=truing_plan(wanted),
        budgets=budgets(with_rods, rules=shop.rules),
        weather=weather_words(wanted.drum, rules=shop.rules),
    )


def of_drum(surveyed: Sequence[DrumSurveyed], *, name: str) -> tuple[DrumSurveyed, ...]:
    """Return the one drum of that name, or all when no name is given.

    Raises
    ------
    BadInput
        When the job has no drum of that name.
    """
    plain = name.strip().casefold()
    found = tuple(one for one in surveyed if not plain or one.drum.key.casefold() == plain)
    if not found:
        names = ", ".join(f'"{one.drum.key}"' for one in surveyed)
        raise BadInput("no drum of that name in the job", given=name, wanted=f"one of {names}")
    return found

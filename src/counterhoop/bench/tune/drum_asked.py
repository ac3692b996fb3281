"""One drum of a job as listening asks for it, without planning the others further than it needs."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from counterhoop.bench.open_job import OpenJob
from counterhoop.bench.plan_job import plan_job
from counterhoop.bench.take import take
from counterhoop.bench.tune.against_plan import PitchPlanned, pitch_planned, to_be_compared
from counterhoop.bench.tune.drum_to_tune import DrumToTune, drum_between, drum_to_tune
from counterhoop.bench.tune.kit_pitches import kit_pitches, pitches_of, sounding_together, wished_of
from counterhoop.development.flat import End
from counterhoop.errors import BadInput
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.rank import Ranked
from counterhoop.scheme.schemes import as_found, schemes_for
from counterhoop.scheme.trued import changes_anything
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.tuning import Stage
from counterhoop.survey.drum_survey import survey_drum


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumAsked:
    """A drum that was tapped.

    Attributes
    ----------
    tune : DrumToTune
    planned : PitchPlanned or None
        What the head that was tapped is to sound like; None where nothing is planned for it.
    """

    tune: DrumToTune
    planned: PitchPlanned | None = None


def drum_asked(opened: OpenJob, name: str, *, head: End, stage: Stage) -> DrumAsked:
    """Return one drum and the pitch of one of its heads, the same as the whole plan would.

    Schemes are worked out for drums of its kit alone, and chosen among over the whole job only
    where they would sound differently.

    Parameters
    ----------
    name : str
        Of the drum; may be left out where there is one drum.

    Raises
    ------
    BadInput
        When the job has no such drum, and without a name where it has several.
    """
    wanted = _named(opened, name)
    found = {one.drum.key: as_found(one.drum, shop=opened.shop) for one in opened.job.drums}

    def at_stage(one: DrumToTune) -> Any:
        return one.at(stage), one.heads_then, one.depth_m

    if (tune := _tune(opened, wanted, found=found, told_by=at_stage)) is None:
        return _by_whole_plan(opened, wanted.drum.key, head=head, stage=stage)
    wished = wished_of(tune, opened.job.kit)
    if not to_be_compared(tune, stage=stage, wished=wished):
        return DrumAsked(tune=tune)
    kinds = {one.drum.key: one.drum.kind for one in opened.job.drums}
    group = next(keys for keys in sounding_together(kinds) if tune.key in keys)
    tunes: dict[str, DrumToTune] = {}
    for one in opened.job.drums:
        if one.drum.key not in group:
            continue
        other = tune if one is wanted else _tune(opened, one, found=found, told_by=_of_pitch)
        if other is None:
            return _by_whole_plan(opened, tune.key, head=head, stage=stage)
        tunes[one.drum.key] = other
    pitches = pitches_of(tunes, kinds={key: kinds[key] for key in tunes}, wish=opened.job.kit)
    return DrumAsked(tune=tune, planned=pitch_planned(pitches, tune, head=head))


def _named(opened: OpenJob, name: str) -> DrumWanted:
    drums = opened.job.drums
    names = ", ".join(f'"{one.drum.key}"' for one in drums)
    plain = name.strip().casefold()
    if not plain and len(drums) > 1:
        raise BadInput("which drum was tapped?", where="--drum", wanted=f"one of {names}")
    for one in drums:
        if not plain or one.drum.key.casefold() == plain:
            return one
    raise BadInput("no drum of that name in the job", given=name, wanted=f"one of {names}")


def _tune(
    opened: OpenJob,
    wanted: DrumWanted,
    *,
    found: Mapping[str, Layout],
    told_by: Callable[[DrumToTune], Any],
) -> DrumToTune | None:
    """Return a drum as its scheme leaves it; None where its schemes differ in what is asked."""
    survey = survey_drum(wanted.drum)
    ways = [
        drum_between(wanted, found=found[wanted.drum.key], then=then, survey=survey)
        for then in _ways(opened, wanted, found)
    ]
    told = [told_by(one) for one in ways]
    return ways[0] if all(one == told[0] for one in told) else None


def _ways(opened: OpenJob, wanted: DrumWanted, found: Mapping[str, Layout]) -> list[Layout]:
    own = found[wanted.drum.key]
    if not wanted.wishes and not changes_anything(wanted.finish):
        return [own]
    others = tuple(layout for key, layout in found.items() if key != wanted.drum.key)
    try:
        ranked = schemes_for(wanted, shop=opened.shop, others=others)
        chosen = _chosen(opened, wanted, ranked, others)
    except BadInput:
        # A wish that cannot be met leaves the drum as it stands.
        return [own]
    return [chosen] if chosen is not None else [one.layout for one in ranked.every] or [own]


def _chosen(
    opened: OpenJob, wanted: DrumWanted, ranked: Ranked, others: tuple[Layout, ...]
) -> Layout | None:
    if wanted.chosen is None:
        return None
    try:
        taken = take(wanted.chosen, ranked, shop=opened.shop, others=others)
    except BadInput:
        return None
    return None if taken is None else taken.scheme.layout


def _of_pitch(tune: DrumToTune) -> Any:
    """What the pitches of a kit rest on: not where along the shell its rods are."""
    rods = [(one.head, len(one.rods), one.thread) for one in tune.rods_then]
    return tune.depth_m, tune.heads_then, rods


def _by_whole_plan(opened: OpenJob, key: str, *, head: End, stage: Stage) -> DrumAsked:
    plan = plan_job(opened)
    tune = drum_to_tune(plan.drum(key))
    wished = wished_of(tune, opened.job.kit)
    if not to_be_compared(tune, stage=stage, wished=wished):
        return DrumAsked(tune=tune)
    return DrumAsked(tune=tune, planned=pitch_planned(kit_pitches(plan), tune, head=head))

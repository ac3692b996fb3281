"""What is heard, worked out beside the pages: taps, a kit's pitches, a scheme before and after."""

from __future__ import annotations

import json
from pathlib import Path

from counterhoop.bench.hear_it import HearIt, hear_it
from counterhoop.bench.long_work.results import KitTold, TapsHeard
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.long_work.tasks import kept_under, part_of, plan
from counterhoop.bench.long_work.tuning_apart import pitch_key
from counterhoop.bench.plan_job import DrumPlan, JobPlan, Progress
from counterhoop.bench.taps_told import TapsTold
from counterhoop.bench.tune.against_plan import pitch_planned, to_be_compared
from counterhoop.bench.tune.conversion_told import conversion_told
from counterhoop.bench.tune.drum_to_tune import DrumToTune, drum_to_tune
from counterhoop.bench.tune.kit_pitches import kit_pitches, wished_of
from counterhoop.bench.tune.listened import listened
from counterhoop.bench.tune.phone_places import Also
from counterhoop.bench.tune_papers import sound_of
from counterhoop.errors import BadInput
from counterhoop.shell.shop_rules import default_rules

MOST_KITS = 3
_kits: dict[str, KitTold] = {}
"""By what pitches rest on: no reading that is kept changes them."""


def listen(
    source: JobSource, drum: str, file: str, name: str, told: TapsTold, *, planned: bytes | None,
    progress: Progress,
) -> TapsHeard:  # fmt: skip
    """Listen to a recording.

    Parameters
    ----------
    drum : str
        The drum's name; empty where it cannot be planned, so that its rods are not known.
    file, name : str
        Where the recording lies, and what it is called.
    told : TapsTold
        How it was taken.
    """
    tune, rules, pitch = None, default_rules(), None
    if drum:
        found = plan(source, planned=planned, progress=part_of(progress, 0.0, 0.1))
        tune, rules = drum_to_tune(drum_in(found, drum)), found.opened.job.rules
        wished = wished_of(tune, found.opened.job.kit)
        if to_be_compared(tune, stage=told.stage, wished=wished):
            pitches = kit(source, planned=planned, progress=part_of(progress, 0.1, 0.2)).pitches
            pitch = pitch_planned(pitches, tune, head=told.head)
    heard = listened(
        Path(file).read_bytes(),
        name=name,
        tune=tune,
        head=told.head,
        stage=told.stage,
        muted=told.muted,
        rods=told.rods or None,
        first_rod=told.first_rod,
        back=told.back,
        phone_deg=phone_deg(tune, told, rod=told.phone_rod),
        also=_also(tune, told),
        planned=pitch,
        even_enough_cents=rules.even_enough_cents,
        progress=part_of(progress, 0.2, 1.0),
    )
    return TapsHeard(heard=heard, sound=None if tune is None else sound_of(heard, tune))


def _also(tune: DrumToTune | None, told: TapsTold) -> list[Also]:
    """Return the recording from the second place of the phone, where there is one."""
    one = told.also
    if one is None:
        return []
    return [
        Also(
            data=Path(one.file).read_bytes(),
            name=one.name,
            rods=one.rods or None,
            first_rod=one.first_rod,
            back=told.back,
            phone_deg=phone_deg(tune, told, rod=one.phone_rod),
        )
    ]


def phone_deg(tune: DrumToTune | None, told: TapsTold, *, rod: int) -> float | None:
    """Return where along the shell the phone lay, beside that rod; None where nobody says."""
    rods = None if tune is None else tune.at(told.stage).rods(told.head)
    near = [one.along_deg for one in rods.rods if one.number == rod] if rods else []
    return near[0] if near else None


def kit(source: JobSource, *, planned: bytes | None, progress: Progress) -> KitTold:
    """Plan a kit's pitches, and say what a second head does to each drum."""

    def made() -> KitTold:
        found = plan(source, planned=planned, progress=part_of(progress, 0.0, 0.4))
        progress("the kit's pitches", 0.4)
        pitches = kit_pitches(found)
        told = {one.key: conversion_told(drum_to_tune(one)) for one in found.drums}
        return KitTold(
            pitches=pitches,
            second_head={name: one.says for name, one in told.items() if one is not None},
        )

    key = pitch_key(source, json.loads(source.tables_json))
    return kept_under(_kits, key, made, most=MOST_KITS)


def hear(source: JobSource, drum: str, *, planned: bytes | None, progress: Progress) -> HearIt:
    """Play a drum as it is and as its scheme leaves it."""
    found = plan(source, planned=planned, progress=part_of(progress, 0.0, 0.3))
    progress("the drum is struck, before and after", 0.3)
    return hear_it(drum_in(found, drum))


def drum_in(found: JobPlan, name: str) -> DrumPlan:
    """Return a drum of a plan.

    Raises
    ------
    BadInput
        When it could not be planned.
    """
    for one in found.drums:
        if one.key == name:
            return one
    raise BadInput("this drum could not be planned", where=name, step="Look at its shell first")

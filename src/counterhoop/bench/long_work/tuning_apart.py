"""Heads, pitches and readings kept apart from the rest of a job: no scheme rests on them.

So a plan is not worked out anew when a reading is kept.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping
from dataclasses import replace
from typing import Any

from counterhoop.bench.long_work.source import JobSource, digest
from counterhoop.bench.open_job import OpenJob
from counterhoop.bench.plan_job import JobPlan

TUNING, KIT = "tuning", "kit"
NOT_PLANNED_BY = ("readings", "heights")
"""Of a drum's tuning: what no pitch is planned by."""


def plan_key(source: JobSource, tables: Mapping[str, Any]) -> str:
    """Return the hash of what schemes rest on."""
    bare = {name: held for name, held in tables.items() if name != KIT}
    return _key(source, {**bare, "drums": _drums(tables, without=())})


def pitch_key(source: JobSource, tables: Mapping[str, Any]) -> str:
    """Return the hash of what pitches rest on."""
    return _key(source, {**tables, "drums": _drums(tables, without=NOT_PLANNED_BY)})


def with_tuning(plan: JobPlan, opened: OpenJob) -> JobPlan:
    """Return a plan of the same drums with their heads and pitches as they are written now."""
    wanted = {one.drum.key: one for one in opened.job.drums}
    drums = tuple(
        replace(
            drum,
            wanted=wanted[drum.key],
            surveyed=replace(drum.surveyed, wanted=wanted[drum.key]),
        )
        for drum in plan.drums
    )
    return replace(plan, opened=opened, drums=drums)


def _drums(tables: Mapping[str, Any], *, without: Collection[str]) -> Any:
    """Return all drums with no tuning, or with their tuning without some of its names."""
    drums = tables.get("drums")
    if not isinstance(drums, dict):
        return drums
    return {name: _drum(held, without=without) for name, held in drums.items()}


def _drum(held: Any, *, without: Collection[str]) -> Any:
    if not isinstance(held, dict) or TUNING not in held:
        return held
    bare = {name: one for name, one in held.items() if name != TUNING}
    tuning = held[TUNING]
    if not without:
        return bare
    left = (
        {name: one for name, one in tuning.items() if name not in without}
        if isinstance(tuning, dict)
        else tuning
    )
    return {**bare, TUNING: left} if left else bare


def _key(source: JobSource, tables: Mapping[str, Any]) -> str:
    books = (part.encode() for book in source.books for part in book)
    return digest(json.dumps(tables).encode(), source.name.encode(), *books)

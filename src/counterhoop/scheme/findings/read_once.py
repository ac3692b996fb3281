"""What the readings of an end say, worked out once for all schemes of a drum."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import get_args

from counterhoop.development.flat import End
from counterhoop.scheme.ground import NEW_WRAP_MM
from counterhoop.scheme.heads import heads_of
from counterhoop.scheme.layout import Layout
from counterhoop.shell.drum import Drum
from counterhoop.shell.readings import EndReadings
from counterhoop.shell.wish import FinishPlan
from counterhoop.survey.drum_survey import EndSurvey, end_survey, girth_at_mm

READ_WITHIN_MM = 20.0
"""Diameters, girth and head are read so near to the edge: common practice, no source."""


def surveyed(drum: Drum, end: End) -> EndSurvey:
    """Return what the readings of one end say; asked again, they are not worked out again."""
    return _surveyed(drum.readings.at(end), girth_at_mm(drum, end))


@lru_cache(maxsize=64)
def _surveyed(read: EndReadings, girth_mm: float) -> EndSurvey:
    return end_survey(read, girth_mm=girth_mm)


def ends_with_a_head(layout: Layout) -> tuple[End, ...]:
    """Return the ends that a head goes on: lugs serve it there, or one was measured for it."""
    served = {head.head for head in heads_of(layout)}
    read = layout.drum.readings
    return tuple(end for end in get_args(End) if end in served or read.at(end).head is not None)


def cut_away(layout: Layout, end: End) -> bool:
    """Whether so much comes off an end that what was read there is gone."""
    off = layout.truing.batter if end == "batter" else layout.truing.resonant
    return off.mean_mm >= READ_WITHIN_MM


def finish_of(layout: Layout) -> FinishPlan:
    """Return the finish plan with the thickness that the layout counts a new wrap with."""
    finish = layout.finish
    if finish.kind == "new wrap" and finish.thickness_mm is None:
        return replace(finish, thickness_mm=NEW_WRAP_MM)
    return finish

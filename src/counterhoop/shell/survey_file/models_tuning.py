"""Heads, tuning and the kit's pitches, as a person writes them."""

from __future__ import annotations

import datetime as dt
import json
import math
import re
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import ConfigDict, Field, PlainValidator, WithJsonSchema

from counterhoop.errors import BadInput
from counterhoop.shell.survey_file.field import (
    MOST_LISTED,
    FilmRead,
    HeightsRead,
    Pull,
    RodTurn,
    Size,
    ThreadName,
    ToneText,
    WeightRead,
    Written,
    YesNo,
    one_word_of,
    text_field,
    whole_field,
)
from counterhoop.shell.survey_file.models_hole import End, Note, Short
from counterhoop.shell.survey_file.shown import shown
from counterhoop.shell.tuning import BOTTOM_CENTS, STAGES

MOST_READINGS_KEPT = 200
MOST_RESULT_BYTES = 200_000
MOST_PLACES = 8
"""Places of the phone beyond the first; nobody goes round that often."""
StageWord: TypeAlias = Annotated[Literal["before", "between", "after"], one_word_of(*STAGES)]


class HeadWritten(Written):
    """A head: its film, ply by ply, or what it weighs without its hoop, and how far across."""

    film: FilmRead | None = None
    films: Annotated[tuple[FilmRead, ...], Field(min_length=1, max_length=4)] | None = None
    weight: WeightRead | None = None
    across: Size | None = None
    calf: YesNo = False
    says: Note = ""


class TonesWritten(Written):
    """What the heads are to sound like, once it is settled by hand."""

    batter: ToneText | None = None
    resonant: ToneText | None = None


class TurnWritten(Written):
    """All rods of a head turned alike, and its pitch near the rim before and after."""

    model_config = ConfigDict(populate_by_name=True)

    head: End = "batter"
    rod: ThreadName | None = None
    from_: ToneText = Field(alias="from")
    to: ToneText
    turns: RodTurn


class HoopHeightsWritten(Written):
    """How high the hoop stands at each rod, in their order."""

    head: End = "batter"
    stage: StageWord = "before"
    hoop_flat: YesNo = False
    at: HeightsRead


def _moment(given: object) -> dt.datetime:
    wanted = "day and time, such as 2026-05-02T10:12"
    if isinstance(given, dt.datetime):
        return given
    if not isinstance(given, str) or not re.match(r"[0-9]{4}-[0-9]{2}-[0-9]{2}[T ]", given):
        raise BadInput("not a day with its time", given=shown(given), wanted=wanted)
    try:
        return dt.datetime.fromisoformat(given.strip())
    except ValueError:
        raise BadInput("there is no such time", given=given, wanted=wanted) from None


def _result(given: object) -> dict[str, Any]:
    if not isinstance(given, dict):
        raise BadInput("a table belongs here", given=shown(given), wanted="what was kept")
    left: list[object] = [given]
    while left:
        one = left.pop()
        if isinstance(one, dict):
            left += [*one, *one.values()]
        elif isinstance(one, list):
            left += one
        elif not isinstance(one, str | bool | int) and not (
            isinstance(one, float) and math.isfinite(one)
        ):
            raise BadInput("not as it was kept", given=shown(one), wanted="numbers and texts")
    if len(json.dumps(given)) > MOST_RESULT_BYTES:
        raise BadInput("far more than one reading comes to", wanted="what was kept")
    return given


Moment: TypeAlias = Annotated[
    dt.datetime,
    PlainValidator(_moment),
    WithJsonSchema({"type": "string", "format": "date-time", "examples": ["2026-05-02T10:12"]}),
]
Result: TypeAlias = Annotated[
    dict[str, Any], PlainValidator(_result), WithJsonSchema({"type": "object"})
]


RodsTapped: TypeAlias = Annotated[
    tuple[Annotated[int, whole_field(least=0, most=40, noun="a rod's number")], ...],
    Field(max_length=MOST_LISTED),
]


class SoundWritten(Written):
    """The same taps recorded from a further place of the phone."""

    sound: Annotated[str, text_field(most=64)]
    file: Annotated[str, text_field(most=200, empty=True)] = ""
    rods: RodsTapped = ()


class ReadingWritten(Written):
    """What was made of a recording; the pages and ``listen`` write it, nobody types it."""

    when: Moment
    by: Annotated[str, text_field(most=80, empty=True)] = ""
    head: End = "batter"
    stage: StageWord = "before"
    muted: YesNo = False
    kind: Annotated[Literal["round the rim", "single"], one_word_of("round the rim", "single")] = (
        "round the rim"
    )
    sound: Annotated[str, text_field(most=64, empty=True)] = ""
    file: Annotated[str, text_field(most=200, empty=True)] = ""
    rods: RodsTapped = ()
    also: Annotated[tuple[SoundWritten, ...], Field(max_length=MOST_PLACES)] = ()
    says: Note = ""
    result: Result


class TuningWritten(Written):
    """Heads and tuning of one drum."""

    batter: HeadWritten | None = None
    resonant: HeadWritten | None = None
    rod: ThreadName | None = None
    most_per_rod: Pull | None = None
    pitch: TonesWritten | None = None
    turns: Annotated[tuple[TurnWritten, ...], Field(max_length=60)] = ()
    heights: Annotated[tuple[HoopHeightsWritten, ...], Field(max_length=60)] = ()
    readings: Annotated[
        dict[Annotated[str, text_field(most=10)], ReadingWritten],
        Field(max_length=MOST_READINGS_KEPT),
    ] = Field(default_factory=dict)


class DrumToneWritten(Written):
    """A drum of the job and a pitch."""

    drum: Short
    pitch: ToneText


class KitWritten(Written):
    """What the player wants of the kit's pitches."""

    lowest: DrumToneWritten | None = None
    highest: DrumToneWritten | None = None
    as_heard: Annotated[tuple[DrumToneWritten, ...], Field(max_length=40)] = ()
    bottom: Annotated[str, one_word_of(*BOTTOM_CENTS)] | None = None
    heard: Annotated[
        Literal["in the middle", "near the rim"], one_word_of("in the middle", "near the rim")
    ] = "in the middle"
    a4: ToneText | None = None

"""What is read round the ends, on heads and screws, and in the air, as a person writes it."""

from __future__ import annotations

from typing import Annotated, TypeAlias

from pydantic import ConfigDict, Field

from counterhoop.shell.readings import CUTS, WOODS
from counterhoop.shell.survey_file.field import (
    Along,
    Damp,
    Height,
    HeightsRead,
    Lean,
    OffsetsRead,
    Pitch,
    Size,
    SizesRead,
    Warmth,
    Written,
    YesNo,
    one_word_of,
    whole_field,
)
from counterhoop.shell.survey_file.models_hole import End, Note, Short

Cut: TypeAlias = Annotated[str, one_word_of(*CUTS)]
Wood: TypeAlias = Annotated[str, one_word_of(*WOODS)]


class AirWritten(Written):
    """Temperature and humidity of the day."""

    temperature: Warmth
    humidity: Damp


class RoundWritten(Written):
    """How round one end is.

    ``across`` are diameters at equal steps over half a turn. ``dial`` with ``zero``, or ``radii``,
    go from a bar or card near the middle to the skin, at equal steps over a whole turn. The first
    of each stands at ``from``, or at the datum.
    """

    model_config = ConfigDict(populate_by_name=True)

    across: SizesRead | None = None
    overlap_read: YesNo = False
    dial: OffsetsRead | None = None
    zero: Size | None = None
    radii: SizesRead | None = None
    from_: Along | None = Field(default=None, alias="from")
    finest: Size | None = None


class RoundsWritten(Written):
    """Both ends."""

    batter: RoundWritten | None = None
    resonant: RoundWritten | None = None


class ProfileWritten(Written):
    """The cut of a bearing edge as found."""

    cut: Cut
    apex: Height | None = None
    inner: Lean | None = None
    outer: Height | None = None


class EdgeWritten(Written):
    """One end of the shell as found.

    ``gaps`` are feeler gauges under the edge on a flat plate; ``heights`` are how far it stands
    out beyond the plane that heights are measured from. Both at equal steps over a whole turn.
    """

    model_config = ConfigDict(populate_by_name=True)

    there: YesNo = True
    wrap_to_edge: YesNo = False
    surveyed: YesNo = True
    gaps: HeightsRead | None = None
    heights: OffsetsRead | None = None
    from_: Along | None = Field(default=None, alias="from")
    finest: Size | None = None
    profile: ProfileWritten | None = None
    says: Note = ""


class EdgesWritten(Written):
    """Both ends; one that is left out is a plain edge."""

    batter: EdgeWritten | None = None
    resonant: EdgeWritten | None = None


class FitWritten(Written):
    """A head and a counterhoop as measured; never their nominal sizes."""

    collar: Size
    rim: Size | None = None
    hoop: Size | None = None
    finest: Size | None = None
    says: Note = ""


class FitsWritten(Written):
    """Both ends."""

    batter: FitWritten | None = None
    resonant: FitWritten | None = None


class ThreadWritten(Written):
    """One external thread: over its crests, over so many threads or by a gauge, its flanks."""

    of: Short
    head: End | None = None
    outside: Size
    over: Size | None = None
    threads: Annotated[int, whole_field(least=1, most=100, noun="a number of threads")] | None = (
        None
    )
    pitch: Pitch | None = None
    flanks: Lean | None = None
    finest: Size | None = None


Threads: TypeAlias = Annotated[tuple[ThreadWritten, ...], Field(max_length=40)]

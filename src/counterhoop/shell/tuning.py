"""Heads as they are on a drum or are to be, and what was written down while it was tuned."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import dataclass
from typing import Any, Final, Literal, TypeAlias

from counterhoop.development.flat import End

Stage: TypeAlias = Literal["before", "between", "after"]
STAGES: Final[tuple[Stage, ...]] = ("before", "between", "after")
"""Before anything was done, on the way, when it was done."""

BOTTOM_CENTS: Final = {
    "a fourth lower": -500.0,
    "a third lower": -400.0,
    "a little lower": -200.0,
    "same": 0.0,
    "a little higher": 200.0,
    "a third higher": 400.0,
    "a fourth higher": 500.0,
    "a fifth higher": 700.0,
}
"""How far the bottom head may sit from the top, in a player's words; a little is a whole tone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadSaid:
    """A head, as far as somebody wrote down what it is.

    Attributes
    ----------
    films_m : tuple of float
        Thickness of each ply of film; empty where it is not known.
    weight_kg : float or None
        Of the head without its hoop.
    across_m : float or None
        Of the head that was weighed, laid flat over its collar from rim to rim.
    calf : bool
        A skin.
    says : str
        What else there is to say: coated, a dot, old.
    """

    films_m: tuple[float, ...] = ()
    weight_kg: float | None = None
    across_m: float | None = None
    calf: bool = False
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tone:
    """A pitch that was written down; notes are read by the job's own A."""

    hz: float
    as_written: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnHeard:
    """All rods of a head turned alike, and its pitch near the rim before and after.

    Attributes
    ----------
    head : End
    rod : str
        Thread of the rods, since turns of one thread are worth nothing on another.
    from_hz, to_hz : float
        Heard before and after.
    turns : float
        Of each rod, tighter above zero.
    """

    head: End
    rod: str
    from_hz: float
    to_hz: float
    turns: float


@dataclass(frozen=True, slots=True, kw_only=True)
class HoopHeights:
    """How high the hoop stands at each rod of a head, in the order of the rods.

    ``hoop_flat`` says that the hoop was laid on a flat plate before, on both faces.
    """

    head: End
    stage: Stage
    hoop_flat: bool
    at_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SoundKept:
    """The same taps from a further place of the phone: their recording, read with the first.

    ``sound``, ``file`` and ``rods`` are as of the reading itself.
    """

    sound: str
    file: str = ""
    rods: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingKept:
    """What was made of a recording, as it was kept.

    Attributes
    ----------
    number : str
        Its running number on the drum.
    when : datetime.datetime
    by : str
        The bench that kept it.
    head, stage : End, Stage
        Which head was struck, and when in the work.
    muted : bool
        Whether the other head was muted.
    kind : {"round the rim", "single"}
    sound, file : str
        Hash of the recording, and how it was called.
    rods : tuple of int
        The rod of each stroke, from 1; 0 for a stroke left out.
    also : tuple of SoundKept
        Recordings that were read together with that one; empty where there is one alone.
    says : str
    result_json : str
        What was read.
    """

    number: str
    when: dt.datetime
    by: str = ""
    head: End = "batter"
    stage: Stage = "before"
    muted: bool = False
    kind: Literal["round the rim", "single"] = "round the rim"
    sound: str = ""
    file: str = ""
    rods: tuple[int, ...] = ()
    also: tuple[SoundKept, ...] = ()
    says: str = ""
    result_json: str = "{}"

    @property
    def sounds(self) -> tuple[str, ...]:
        """Hashes of all recordings that it was made of."""
        return (self.sound, *(one.sound for one in self.also))

    @property
    def result(self) -> dict[str, Any]:
        """What was read, as it is kept."""
        held: dict[str, Any] = json.loads(self.result_json)
        return held


@dataclass(frozen=True, slots=True, kw_only=True)
class Tuning:
    """Heads and tuning of one drum.

    Attributes
    ----------
    batter, resonant : HeadSaid or None
        None where nobody wrote which head it is.
    rod : str
        Thread of its rods, where the book's entry of its lugs does not say it.
    most_per_rod_n : float or None
        The most that one rod may pull on these castings, in the restorer's own judgement.
    batter_tone, resonant_tone : Tone or None
        What the heads are to sound like, where that was settled by hand.
    turns, heights, readings : tuple
        Turns with the pitches heard, heights of the hoop, kept readings by their numbers.
    """

    batter: HeadSaid | None = None
    resonant: HeadSaid | None = None
    rod: str = ""
    most_per_rod_n: float | None = None
    batter_tone: Tone | None = None
    resonant_tone: Tone | None = None
    turns: tuple[TurnHeard, ...] = ()
    heights: tuple[HoopHeights, ...] = ()
    readings: tuple[ReadingKept, ...] = ()

    def head(self, end: End) -> HeadSaid | None:
        """Return what is written of the head at one end."""
        return self.batter if end == "batter" else self.resonant

    def tone(self, end: End) -> Tone | None:
        """Return what the head at one end is to sound like, if that was settled by hand."""
        return self.batter_tone if end == "batter" else self.resonant_tone


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumTone:
    """A drum and a pitch."""

    drum: str
    tone: Tone


@dataclass(frozen=True, slots=True, kw_only=True)
class KitWish:
    """What the player wants of the kit's pitches.

    Attributes
    ----------
    lowest, highest : DrumTone or None
        The drum that is to be lowest and the one that is to be highest, with their pitches.
    as_heard : tuple of DrumTone
        Drums that are to stay as they sound.
    bottom : str
        How far the bottom heads sit from the top ones: a word of ``BOTTOM_CENTS``.
    heard : {"in the middle", "near the rim"}
        Where the drums are struck for the pitches of this wish.
    a4_hz : float
        What the band tunes its A to.
    """

    lowest: DrumTone | None = None
    highest: DrumTone | None = None
    as_heard: tuple[DrumTone, ...] = ()
    bottom: str = "same"
    heard: Literal["in the middle", "near the rim"] = "in the middle"
    a4_hz: float = 440.0

"""What a person says of a recording of taps: no microphone hears it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from counterhoop.development.flat import End
from counterhoop.shell.tuning import STAGES, Stage

ENDS: Final[tuple[End, ...]] = ("batter", "resonant")


@dataclass(frozen=True, slots=True, kw_only=True)
class AlsoTold:
    """The same taps recorded once more with the phone in a second place.

    Attributes
    ----------
    file, name : str
        Where that recording lies, and what it is called.
    first_rod, phone_rod, rods :
        As of the first recording.
    """

    file: str
    name: str = ""
    first_rod: int = 1
    phone_rod: int = 0
    rods: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class TapsTold:
    """How taps were recorded.

    Attributes
    ----------
    head : End
        The head that was tapped.
    stage : Stage
        When in the work: before anything was turned, between, after.
    muted : bool
        Whether the other head was.
    first_rod : int
        The rod that was tapped first; the others follow in order.
    back : bool
        They follow against the numbers of the rods, in every recording.
    phone_rod : int
        The rod that the phone lay nearest to; 0 where nobody says.
    rods : tuple of int
        The rod of each stroke, 0 for one left out; empty where they follow in order.
    also : AlsoTold or None
    """

    head: End = "batter"
    stage: Stage = "before"
    muted: bool = False
    first_rod: int = 1
    back: bool = False
    phone_rod: int = 0
    rods: tuple[int, ...] = ()
    also: AlsoTold | None = None


def end_named(word: str) -> End:
    """Return a head by its word, the batter for any other.

    Examples
    --------
    >>> end_named("resonant"), end_named("x")
    ('resonant', 'batter')
    """
    return next((end for end in ENDS if end == word), "batter")


def stage_named(word: str) -> Stage:
    """Return a stage of the work by its word, the first for any other."""
    return next((stage for stage in STAGES if stage == word), "before")

"""What was heard in a recording: all that a page, a paper and the next turn of a rod ask for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from counterhoop.bench.tune.rods_at import RodAt
from counterhoop.bench.tune.way_round import order_said
from counterhoop.development.flat import End
from counterhoop.listen.advice import EVEN_ENOUGH_CENTS, Advice
from counterhoop.listen.rim_words import second_place
from counterhoop.listen.round_rim import RimReading
from counterhoop.shell.tuning import Stage

Quality = Literal["good", "fair", "poor", "none"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ToneHeard:
    """One tone of a stroke, once it has settled.

    Attributes
    ----------
    hz, doubt_hz : float
    decay_per_s : float
        Its level falls as ``exp(-decay_per_s t)``.
    level_db : float
        Over the strongest one.
    """

    hz: float
    doubt_hz: float
    decay_per_s: float
    level_db: float


@dataclass(frozen=True, slots=True, kw_only=True)
class StrokeHeard:
    """One stroke.

    Attributes
    ----------
    number : int
        In the order of the recording, from 1.
    starts_s, ends_s : float
    rod : int
        The rod that it was near; 0 where it is left out, or no rod is known.
    dropped : str
        Why it is not used, a sentence; "" where it is.
    hz, doubt_hz : float or None, float
        Its lowest tone, settled; None where none is sure, and ``says`` says why.
    glide_cents : float
        How far it came down to there.
    quality : Quality
    tones : tuple of ToneHeard
        From low to high, that one among them.
    says : tuple of str
    """

    number: int
    starts_s: float
    ends_s: float
    rod: int = 0
    dropped: str = ""
    hz: float | None = None
    doubt_hz: float = 0.0
    glide_cents: float = 0.0
    quality: Quality = "none"
    tones: tuple[ToneHeard, ...] = ()
    says: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class AlsoHeard:
    """The same taps as they were heard with the phone in another place.

    Attributes
    ----------
    name : str
        What the recording is called.
    seconds, rate_hz, sound_says, strokes :
        As of the first one.
    refusal : str
        Why it is left out; "" where it was read together with the first.
    """

    name: str = ""
    seconds: float
    rate_hz: int
    sound_says: tuple[str, ...] = ()
    strokes: tuple[StrokeHeard, ...] = ()
    refusal: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spectrum:
    """Level over pitch: of the strokes that were used, each as loud as the others."""

    from_hz: float
    step_hz: float
    db: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fade:
    """Level over time, of the stroke that is heard best, from when it lands."""

    step_s: float
    db: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """A recording read.

    Attributes
    ----------
    head, stage, muted :
        Which head was struck, when in the work, and whether the other was muted.
    kind : {"round the rim", "single"}
        Taps near the rods, read together; or strokes, each for itself.
    seconds, rate_hz : float, int
        Of the recording.
    sound_says : tuple of str
        What was noticed of it.
    rods : tuple of RodAt
        Of that head, by number; empty where no drum was named.
    strokes : tuple of StrokeHeard
        In order, those that were left out too.
    rim : RimReading or None
        What the taps say together; its taps are in the order of the strokes that were used, those
        of further places of the phone after the others.
    also : tuple of AlsoHeard
        The same taps from further places of the phone.
    way_doubt : str
        That the taps seem to have gone the other way round; "" where they do not.
    advice : Advice or None
    even_enough_cents : float
        The split at which the workshop stops.
    refusal : str
        Why nothing can be read, and what to do; "" where something can.
    spectrum, fade : Spectrum or None, Fade or None
        For drawing.
    """

    head: End = "batter"
    stage: Stage = "before"
    muted: bool = True
    kind: Literal["round the rim", "single"] = "single"
    seconds: float
    rate_hz: int
    sound_says: tuple[str, ...] = ()
    rods: tuple[RodAt, ...] = ()
    strokes: tuple[StrokeHeard, ...] = ()
    rim: RimReading | None = None
    also: tuple[AlsoHeard, ...] = ()
    way_doubt: str = ""
    advice: Advice | None = None
    even_enough_cents: float = EVEN_ENOUGH_CENTS
    refusal: str = ""
    spectrum: Spectrum | None = None
    fade: Fade | None = None

    @property
    def wants_second_place(self) -> bool:
        """Whether the taps are to be heard from one more place of the phone."""
        asked = {second_place(place) for place in (0, 1)}
        return self.rim is not None and not asked.isdisjoint(self.rim.ask)

    @property
    def order_says(self) -> tuple[str, ...]:
        """In which order the rods are taken to have been tapped, where anything hangs on it."""
        if self.rim is None:
            return ()
        said = order_said(
            [one.rod for one in self.strokes if one.rod and not one.dropped],
            along_deg={rod.number: rod.along_deg for rod in self.rods},
            head=self.head,
            even=self.rim.axis_deg is None or (self.advice is not None and not self.advice.pattern),
        )
        return tuple(line for line in (self.way_doubt, said) if line)

    @property
    def hz(self) -> float | None:
        """The pitch of the head: the middle one of the taps, else the middle of the strokes'."""
        if self.rim is not None and self.rim.mean_hz is not None:
            return self.rim.mean_hz
        found = sorted(one.hz for one in self.strokes if one.hz is not None)
        return found[len(found) // 2] if found else None

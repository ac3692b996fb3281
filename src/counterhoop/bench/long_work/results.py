"""Papers, pictures and a kit's pitches as long work hands them over."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:  # heads take a second to load
    from counterhoop.bench.tune.heard import Heard
    from counterhoop.bench.tune.kit_pitches import KitPitches
    from counterhoop.papers.tuned_sheet import SoundShown


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """One paper, or all of them in one file.

    Attributes
    ----------
    name : str
        Below the folder of papers.
    media_type : str
        Of the content.
    content : bytes
        The same for the same job, byte for byte.
    """

    name: str
    media_type: str
    content: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Preview:
    """A picture of one page of a paper.

    Attributes
    ----------
    media_type : str
        "image/png" for a page, "image/svg+xml" for a drawing.
    content : bytes
        The picture.
    page, pages : int
        Which page it shows, of how many.
    """

    media_type: str
    content: bytes
    page: int
    pages: int


@dataclass(frozen=True, slots=True, kw_only=True)
class TapsHeard:
    """A recording listened to.

    Attributes
    ----------
    heard : Heard
        What it says.
    sound : SoundShown or None
        What rang and how it died, for drawing; None where its drum is not known.
    """

    heard: Heard
    sound: SoundShown | None


@dataclass(frozen=True, slots=True, kw_only=True)
class KitTold:
    """The pitches of a job's drums.

    Attributes
    ----------
    pitches : KitPitches
        Drum by drum, and what was refused.
    second_head : mapping of str to tuple of str
        For each drum that gets another number of heads, what that does, in sentences.
    """

    pitches: KitPitches
    second_head: Mapping[str, tuple[str, ...]]

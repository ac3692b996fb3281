"""What happens to one hole."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape
from counterhoop.shell.hole import Origin


class Verdict(StrEnum):
    """The words used on every paper."""

    KEEP = "keep"
    ENLARGE = "enlarge"
    SLOT = "slot"
    PLUG = "plug"
    DRILL = "drill"
    PLUG_AND_DRILL = "plug and drill"
    LEAVE_OPEN = "leave open"  # a hole that stays as it is and holds nothing (a vent, say)
    PLUGGED_ALREADY = "plugged already"  # an earlier owner's plug that stays

    @property
    def cuts(self) -> bool:
        """Whether wood is cut that cannot be put back."""
        return self in (Verdict.ENLARGE, Verdict.SLOT, Verdict.DRILL, Verdict.PLUG_AND_DRILL)

    @property
    def drills(self) -> bool:
        """Whether a new hole is made."""
        return self in (Verdict.DRILL, Verdict.PLUG_AND_DRILL)


@dataclass(frozen=True, slots=True, kw_only=True)
class HolePlan:
    """One hole under a scheme; heights are from the batter edge in the scheme's own geometry.

    Attributes
    ----------
    number : int
        As found holes keep their number; new ones go on counting.
    verdict : Verdict
        What happens to it. *Plug and drill*: a new hole whose wood holds one or more old holes
        that must be plugged first (``through`` names them); the old hole itself is *plug*.
    old : HoleShape or None
        What is there now.
    new : HoleShape or None
        What is there afterwards; None for a plug.
    place : Place
        Centre of what is drilled, or of the old hole. A slot's or an enlarged hole's centre is
        that of the opening (``new_place``).
    new_place : Place or None
        Centre of the opening afterwards when it is not ``place``.
    of, serves : str
        Label of the fitting ("long lug 3"), and which of its holes this is ("long lug 3, upper");
        empty for a bare plug.
    off_mm : float
        How far the old hole lies from where it is wanted (keep, enlarge, slot).
    through : tuple of int
        Old holes, plugged first, that the new hole overlaps or stands too near to.
    plug_mm, plug_place : float or None, Place or None
        Diameter of the plug, and its centre where that is not ``place`` (a plug wide enough to
        be drilled again lies between the old hole and the new).
    backing_washer_mm : float or None
        A washer wanted inside, by least diameter.
    covered : bool
        Whether a base, plate or washer hides it outside afterwards.
    origin : Origin or None
        Factory, extra, not sure; None for a new hole.
    """

    number: int
    verdict: Verdict
    place: Place
    old: HoleShape | None = None
    new: HoleShape | None = None
    new_place: Place | None = None
    of: str = ""
    serves: str = ""
    off_mm: float = 0.0
    through: tuple[int, ...] = ()
    plug_mm: float | None = None
    plug_place: Place | None = None
    backing_washer_mm: float | None = None
    covered: bool = False
    origin: Origin | None = None
    doubt_mm: float = 0.5
    as_written: str = ""

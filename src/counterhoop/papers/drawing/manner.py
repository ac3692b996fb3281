"""The manners in which the shell is drawn: what is shown, and how large it is lettered."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

What: TypeAlias = Literal["working", "template", "client", "as found"]
Units: TypeAlias = Literal["mm", "in"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Manner:
    """What a drawing shows and the sizes on paper of what is not to scale.

    Attributes
    ----------
    what : What
        Working drawing, full-size template, client's copy, or the shell as found.
    scale : float
        Paper millimetres for one millimetre of the shell.
    number_mm, note_mm, scale_mm : float
        Font sizes on paper of hole numbers, notes and scale figures; a capital is 0.7275 of it.
    arms_mm : float
        How far the arms of a centre mark reach beyond the hole, on paper.
    numbers, notes, gone : bool
        Whether holes are numbered, fittings named, bases that go away outlined.
    units : Units
        What the scales along and down are ruled in.
    lead_step_mm : float
        Steps, on the shell, of how far the picture goes beyond the datum: it then stands still
        while a lug across the datum is moved a little. 0: as far as it must.
    """

    what: What
    scale: float = 1.0
    number_mm: float = 3.5
    note_mm: float = 3.5
    scale_mm: float = 3.5
    arms_mm: float = 1.6
    numbers: bool = True
    notes: bool = True
    gone: bool = True
    units: Units = "mm"
    lead_step_mm: float = 0.0

    def mm(self, paper_mm: float) -> float:
        """Millimetres of the shell that a length on paper covers."""
        return paper_mm / self.scale


WORKING = Manner(what="working")
TEMPLATE = Manner(
    what="template", number_mm=4.6, note_mm=4.6, scale_mm=4.6, arms_mm=3.0, gone=False
)
CLIENT = Manner(what="client", numbers=False, gone=False, arms_mm=1.2)
AS_FOUND = Manner(what="as found")


def manner_of(what: What, *, scale: float = 1.0) -> Manner:
    """Return the manner of that name at a scale."""
    found = {"working": WORKING, "template": TEMPLATE, "client": CLIENT, "as found": AS_FOUND}
    return replace(found[what], scale=scale)

"""A place on a drum that waits for a fitting: its holes, what should be hidden, and its room."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.development.outline import Outline
from counterhoop.errors import BadInput
from counterhoop.fittings.entry import Kind


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleAt:
    """A hole of the place; of an oval or a slot the round hole that fits in it.

    Attributes
    ----------
    along_mm, down_mm : float
        Its centre, right and down of the place's own middle on the skin laid flat.
    diameter_mm : float
        Clear for a screw.
    doubt_mm : float
        Half-width of the doubt of the centre.
    number : int
        Its number on the hole list; 0 where it has none.
    """

    along_mm: float
    down_mm: float
    diameter_mm: float
    doubt_mm: float = 0.5
    number: int = 0

    def __post_init__(self) -> None:
        if not (math.isfinite(self.along_mm) and math.isfinite(self.down_mm)):
            raise BadInput(
                "not a place", where="hole", given=(self.along_mm, self.down_mm), wanted="mm"
            )
        if not 0.0 < self.diameter_mm < math.inf or not 0.0 <= self.doubt_mm < math.inf:
            raise BadInput(
                "not a hole",
                where="hole",
                given=(self.diameter_mm, self.doubt_mm),
                wanted="a diameter above 0 mm and a doubt of 0 mm or more",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkAt:
    """What should be hidden, as it lies on the place: a bare plug, a hole, a shadow."""

    called: str
    outline: Outline


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a fitting is wanted, in millimetres right and down of the place's own middle.

    Attributes
    ----------
    holes : tuple of HoleAt
        Old holes that may serve.
    marks : tuple of MarkAt
        Bare plugs and shadows.
    kinds : tuple of Kind
        What may go there; empty: anything that is fixed to the shell.
    thread : str
        What the rods here have, in any spelling; empty: it does not matter.
    takes_mm : float or None
        Diameter of the arm, post or leg that is to go in.
    room : Outline or None
        The base has to lie inside it.
    """

    holes: tuple[HoleAt, ...] = ()
    marks: tuple[MarkAt, ...] = ()
    kinds: tuple[Kind, ...] = ()
    thread: str = ""
    takes_mm: float | None = None
    room: Outline | None = None

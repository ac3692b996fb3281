"""Each head's hoop, lugs and lug mouths under a layout."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from counterhoop.development.flat import End
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.scheme.layout import FittingPlan, HoopPlan, Layout

LUGS = (Kind.LUG, Kind.LONG_LUG)


@dataclass(frozen=True, slots=True, kw_only=True)
class MouthAt:
    """A lug's mouth and its depth below the edge that its rod comes from."""

    lug: FittingPlan
    below_edge_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadPlan:
    """What holds one head: ``plan`` is None when no hoop is named for it."""

    head: End
    plan: HoopPlan | None
    lugs: tuple[FittingPlan, ...]
    mouths: tuple[MouthAt, ...]

    @property
    def hoop(self) -> Fitting | None:
        """The hoop's entry in the book."""
        return None if self.plan is None else self.plan.hoop


def heads_of(layout: Layout) -> tuple[HeadPlan, ...]:
    """Return both heads, as far as lugs serve them."""
    hoops = {plan.head: plan for plan in layout.hoops}
    found = []
    for head in get_args(End):
        lugs = tuple(lug for lug in layout.lugs(head) if lug.fitting.kind in LUGS)
        if lugs:
            mouths = tuple(mouth for lug in lugs for mouth in mouths_of(lug, layout, head=head))
            found.append(HeadPlan(head=head, plan=hoops.get(head), lugs=lugs, mouths=mouths))
    return tuple(found)


def mouths_of(lug: FittingPlan, layout: Layout, *, head: End) -> tuple[MouthAt, ...]:
    """Return the mouths of a lug that look to a head, as the lug stands."""
    upside_down = lug.turned_deg % 360.0 == 180.0
    toward = {
        "batter": "resonant" if upside_down else "batter",
        "resonant": "batter" if upside_down else "resonant",
    }
    return tuple(
        MouthAt(
            lug=lug,
            below_edge_mm=layout.flat.from_end_mm(
                lug.height_mm(mouth.down_mm), end=head, along_deg=lug.place.along_deg
            ),
        )
        for mouth in lug.fitting.mouths
        if toward[mouth.toward] == head
    )

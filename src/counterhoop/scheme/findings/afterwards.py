"""What is on the shell once a layout is carried out, gathered once for all checks."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.development.flat import Development
from counterhoop.development.outline import Outline
from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape, Round
from counterhoop.development.surface import Surface
from counterhoop.errors import Grade
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import PatternHole
from counterhoop.scheme.draft import is_vent
from counterhoop.scheme.layout import FittingPlan, Layout
from counterhoop.scheme.level import Level
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.hole import Condition, Hole
from counterhoop.shell.shop_rules import ShopFigures, ShopRules

STAYS_DOUBT_MM = 0.5  # a base that stays stands as true as the tape that found it


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """A hole that is open afterwards.

    ``cut`` says that the scheme makes or changes it, ``of`` is the label of the fitting that it
    serves, ``wanted`` what that fitting's pattern asks for there and ``seat`` where that lies.
    ``doubt_mm`` is that of the readings it hangs on: none for a hole that is drilled by plan.
    """

    plan: HolePlan
    place: Place
    shape: HoleShape
    cut: bool
    doubt_mm: float
    of: str = ""
    wanted: PatternHole | None = None
    seat: Place | None = None
    found: Hole | None = None

    @property
    def number(self) -> int:
        """Its number on the hole list."""
        return self.plan.number

    @property
    def grade(self) -> Grade:
        """Grade of a rule that it breaks: stop for what is cut, note for what was there."""
        return Grade.STOP if self.cut else Grade.NOTE

    @property
    def is_vent(self) -> bool:
        """Whether the survey calls it the vent."""
        return self.found is not None and is_vent(self.found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plug:
    """A plug in the shell afterwards; one plug may fill several old holes.

    ``condition`` is what it is made of: what the scheme plugs is plugged with face grain.
    ``fresh`` says that the scheme makes it.
    """

    numbers: tuple[int, ...]
    place: Place
    shape: HoleShape
    condition: Condition
    fresh: bool
    doubt_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Base:
    """A base on the skin afterwards; the box is its reach left, up, right and down in mm."""

    plan: FittingPlan
    outline: Outline
    box_mm: tuple[float, float, float, float]
    along_mm: float
    new: bool

    @property
    def label(self) -> str:
        """How the fitting is called on this drum."""
        return self.plan.label

    @property
    def place(self) -> Place:
        """Where its reference point lies."""
        return self.plan.place

    @property
    def doubt_mm(self) -> float:
        """Doubt of where it stands."""
        return 0.0 if self.new else STAYS_DOUBT_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class Afterwards:
    """A layout made ready for checks.

    ``figures`` and ``book`` are what the workshop pays and can take; where they are not at hand
    the findings say nothing of money.
    """

    layout: Layout
    rules: ShopRules
    openings: tuple[Opening, ...]
    plugs: tuple[Plug, ...]
    bases: tuple[Base, ...]
    figures: ShopFigures | None = None
    book: Book | None = None

    @property
    def flat(self) -> Development:
        """The working geometry."""
        return self.layout.flat

    @property
    def surface(self) -> Surface:
        """The skin that is worked on."""
        return self.layout.flat.surface


def afterwards(
    layout: Layout,
    *,
    rules: ShopRules,
    figures: ShopFigures | None = None,
    book: Book | None = None,
) -> Afterwards:
    """Gather openings, plugs and bases of a layout."""
    found = {hole.number: hole for hole in layout.drum.holes}
    seats = _seats(layout)
    openings: list[Opening] = []
    plugs: dict[tuple[Place, HoleShape, Condition], Plug] = {}
    for plan in layout.holes:
        shape = plan.new if plan.new is not None else plan.old
        hole = found.get(plan.number)
        if plan.verdict in (Verdict.PLUG, Verdict.PLUGGED_ALREADY):
            plug = _plug(plan, hole)
            key = (plug.place, plug.shape, plug.condition)
            if key in plugs:
                numbers = (*plugs[key].numbers, plan.number)
                plug = Plug(
                    numbers=numbers,
                    place=plug.place,
                    shape=plug.shape,
                    condition=plug.condition,
                    fresh=plug.fresh,
                    doubt_mm=max(plug.doubt_mm, plugs[key].doubt_mm),
                )
            plugs[key] = plug
        elif shape is not None:
            openings.append(_opening(plan, shape, hole, seats))
    surface = layout.flat.surface
    bases = []
    for fitting in layout.standing:
        outline = fitting.outline
        if outline is not None:
            bases.append(
                Base(
                    plan=fitting,
                    outline=outline,
                    box_mm=outline.bounds_mm,
                    along_mm=surface.along_mm(fitting.place.along_deg),
                    new=fitting.status == "new",
                )
            )
    return Afterwards(
        layout=layout,
        rules=rules,
        openings=tuple(openings),
        plugs=tuple(plugs.values()),
        bases=tuple(bases),
        figures=figures,
        book=book,
    )


def pattern_places(plan: FittingPlan, *, flat: Development) -> tuple[Place, ...]:
    """Where a fitting's pattern wants its holes, as the fitting stands.

    A new lug is set level with the edge that its row follows.
    """
    turned = Outline(tuple((h.right_mm, h.down_mm) for h in plan.fitting.holes))
    per_mm = 360.0 / flat.surface.circumference_mm
    level = Level(flat=flat, row=plan.row if plan.status == "new" else "")
    height_mm = level.height_mm(plan.place)
    return tuple(
        level.place(plan.place.along_deg + x * per_mm, height_mm + y)
        for x, y in turned.turned(plan.turned_deg).points
    )


def off_mm(surface: Surface, wanted: Place, place: Place) -> tuple[float, float]:
    """How far a place lies to the right of and below where it is wanted."""
    along = surface.apart_mm(wanted.along_deg, place.along_deg)
    return (along, place.down_mm - wanted.down_mm)


def _seats(layout: Layout) -> dict[int, tuple[FittingPlan, PatternHole | None, Place | None]]:
    """Give each hole of a standing fitting the hole of its pattern that it lies nearest to."""
    surface = layout.flat.surface
    plans = {plan.number: plan for plan in layout.holes}
    seats: dict[int, tuple[FittingPlan, PatternHole | None, Place | None]] = {}
    for fitting in layout.standing:
        wanted = tuple(
            zip(fitting.fitting.holes, pattern_places(fitting, flat=layout.flat), strict=True)
        )
        for number in fitting.holes:
            plan = plans.get(number)
            if plan is None:
                continue
            if not wanted:
                seats[number] = (fitting, None, None)
                continue
            here = plan.place
            offs = [math.hypot(*off_mm(surface, seat, here)) for _, seat in wanted]
            hole, seat = wanted[offs.index(min(offs))]
            seats[number] = (fitting, hole, seat)
    return seats


def _opening(
    plan: HolePlan,
    shape: HoleShape,
    hole: Hole | None,
    seats: dict[int, tuple[FittingPlan, PatternHole | None, Place | None]],
) -> Opening:
    fitting, wanted, seat = seats.get(plan.number, (None, None, None))
    return Opening(
        plan=plan,
        place=plan.new_place or plan.place,
        shape=shape,
        cut=plan.verdict.cuts,
        doubt_mm=0.0 if plan.verdict.drills else plan.doubt_mm,
        of=plan.of if fitting is None else fitting.label,
        wanted=wanted,
        seat=seat,
        found=hole,
    )


def _plug(plan: HolePlan, hole: Hole | None) -> Plug:
    old = plan.old if plan.old is not None else Round(plan.plug_mm or 0.0)
    fresh = plan.verdict is Verdict.PLUG
    widened = plan.plug_mm is not None and plan.plug_mm > old.around_mm
    condition = Condition.FACE_GRAIN
    if hole is not None and not fresh:
        condition = hole.condition
    return Plug(
        numbers=(plan.number,),
        place=(plan.plug_place if fresh else None) or plan.new_place or plan.place,
        shape=Round(plan.plug_mm) if widened and plan.plug_mm is not None else old,
        condition=condition,
        fresh=fresh,
        doubt_mm=plan.doubt_mm,
    )

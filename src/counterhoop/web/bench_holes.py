"""The hole list as it is worked off: stage after stage, each hole with its numbers and its tick."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from counterhoop.development.shape import Round
from counterhoop.papers.facts import Lengths
from counterhoop.papers.hole_list import notes_on, serves_words
from counterhoop.papers.screen.hole_words import length, shape_words
from counterhoop.quantities.angle import print_deg
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.drum import Material
from counterhoop.web.bench_mark import mark_id
from counterhoop.web.look.mine import Units

OPEN = (Verdict.KEEP, Verdict.LEAVE_OPEN)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ticked:
    """When a hole was done, as it is kept, and at which bench."""

    when: str
    by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchHole:
    """One line of the list; every text as it is printed.

    Attributes
    ----------
    mark : str
        Name of the picture of its verdict.
    deg, along : str
        Where its middle is along.
    near, down, up : str
        From the batter edge to its near side and to its middle; from the other edge to its middle.
    size : str
        How large it is, and what is there afterwards.
    to_middle : bool
        Whether its middle is marked, as on bare wood; an old hole is found by its near side.
    notes : tuple of str
        What else the bench must know.
    work : bool
        Whether anything is done to it; only such a hole has a tick.
    ticked : Ticked or None
        That it is done.
    """

    number: int
    verdict: str
    mark: str
    deg: str
    along: str
    near: str
    down: str
    up: str
    size: str
    to_middle: bool
    serves: str
    notes: tuple[str, ...]
    work: bool
    ticked: Ticked | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """Holes that are worked on together.

    Attributes
    ----------
    ident, heading : str
        What is done to them.
    by : str
        With which tool, and how.
    """

    ident: str
    heading: str
    by: str
    holes: tuple[BenchHole, ...]

    @property
    def left(self) -> int:
        """How many of them are still to do."""
        return sum(hole.work and hole.ticked is None for hole in self.holes)


STAGES: tuple[tuple[str, str, str, tuple[Verdict, ...]], ...] = (
    (
        "plug",
        "Plug",
        "A bit of the plug's size, square to the skin; face-grain plugs, glued, tapped home a "
        "little proud; flush when the glue has cured.",
        (Verdict.PLUG,),
    ),
    (
        "drill",
        "Drill",
        "Pilot of 2 to 3 mm (5/64 to 1/8 in) on the template's centre, then a sharp brad-point bit "
        "of the full size, a block shaped to the bore hard behind.",
        (Verdict.DRILL,),
    ),
    (
        "enlarge",
        "Enlarge",
        "A step bit, a reamer or a file. A twist bit grabs in an old hole and tears the plies.",
        (Verdict.ENLARGE,),
    ),
    ("slot", "File to a slot", "A round file, from both skins to the middle.", (Verdict.SLOT,)),
    (
        "drill-again",
        "Drill through cured plugs, last of all",
        "As a new hole: pilot, then a brad-point bit, on the block.",
        (Verdict.PLUG_AND_DRILL,),
    ),
    ("stay", "Stay as they are", "", (*OPEN, Verdict.PLUGGED_ALREADY)),
)
"""The order in which holes are worked on; tools are common practice, no source."""
THROUGH_WRAP = (
    "through-wrap",
    "Open through the new wrap",
    "From outside, slowly, by a pilot and a bit of the hole's own size: heat lifts wrap.",
    OPEN,
)

NOT_WOOD = "This shell is {material}: advice on plugs and glue is for wood and left out."


def stages(scheme: Scheme, *, units: Units, done: Mapping[str, Any]) -> tuple[Stage, ...]:
    """Return the holes of a scheme in the order of the work, within a stage in the order along.

    Parameters
    ----------
    done : mapping of str to dict
        Ticks by hole number, as they are kept.
    """
    layout = scheme.layout
    wrapped = layout.finish.kind == "new wrap"
    order = [*STAGES[:1], THROUGH_WRAP, *STAGES[1:]] if wrapped else STAGES
    material = layout.drum.material
    said: set[int] = set()
    made = []
    for ident, heading, by, verdicts in order:
        plans = [p for p in layout.holes if p.verdict in verdicts and p.number not in said]
        said |= {plan.number for plan in plans}
        holes = tuple(
            bench_hole(plan, layout, units=units, done=done)
            for plan in sorted(plans, key=lambda plan: _order(plan, layout))
        )
        if holes:
            advice = by if material is Material.WOOD or ident != "plug" else NOT_WOOD
            tool = advice.format(material=material)
            made.append(Stage(ident=ident, heading=heading, by=tool, holes=holes))
    return tuple(made)


def works_on(plan: HolePlan, layout: Layout) -> bool:
    """Tell whether the bench does anything to a hole."""
    if plan.verdict in OPEN:
        return layout.finish.kind == "new wrap"
    return plan.verdict is not Verdict.PLUGGED_ALREADY


def bench_hole(
    plan: HolePlan, layout: Layout, *, units: Units, done: Mapping[str, Any]
) -> BenchHole:
    """Return the line of one hole."""
    flat, drum = layout.flat, layout.drum
    found = next((hole for hole in drum.holes if hole.number == plan.number), None)
    place = plan.new_place or plan.place
    shape = plan.old if plan.verdict is Verdict.PLUG else plan.new or plan.old
    half_mm = shape.size_mm[1] / 2 if shape is not None else 0.0
    up_mm = flat.from_end_mm(place.down_mm, end="resonant", along_deg=place.along_deg)
    mark = done.get(str(plan.number))
    return BenchHole(
        number=plan.number,
        verdict=plan.verdict.value,
        mark=mark_id(plan.verdict),
        deg=f"{print_deg(place.along_deg).removesuffix(' deg')}°",
        along=length(flat.surface.along_mm(place.along_deg), units=units),
        near=length(place.down_mm - half_mm, units=units),
        down=length(place.down_mm, units=units),
        up=length(up_mm, units=units),
        size=_size(plan, units=units),
        to_middle=plan.verdict.drills,
        serves=serves_words(plan, found),
        notes=tuple(notes_on(plan, drum, say=Lengths(units), along=flat.surface.apart_mm)),
        work=works_on(plan, layout),
        ticked=Ticked(when=str(mark.get("when", "")), by=str(mark.get("by", "")))
        if isinstance(mark, dict)
        else None,
    )


def left_of(found: Sequence[Stage]) -> tuple[int, int]:
    """Return how many holes are still to do, of how many."""
    return sum(s.left for s in found), sum(hole.work for s in found for hole in s.holes)


def _size(plan: HolePlan, *, units: Units) -> str:
    now = shape_words(plan.old, units) if plan.old is not None else ""
    if plan.verdict is Verdict.PLUGGED_ALREADY:
        return f"{now}, stays closed"
    if plan.new is None:
        if plan.plug_mm is None:
            return f"{now}, closed"
        plug = f"plug {shape_words(Round(plan.plug_mm), units)}"
        return plug if plug == f"plug {now}" else f"{now}, {plug}"
    then = shape_words(plan.new, units)
    return f"{now} to {then}" if now and now != then else then


def _order(plan: HolePlan, layout: Layout) -> tuple[float, float, int]:
    place = plan.new_place or plan.place
    return round(layout.flat.surface.along_mm(place.along_deg), 1), place.down_mm, plan.number

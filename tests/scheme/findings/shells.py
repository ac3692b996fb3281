"""Builds layouts by hand, hole by hole: nothing of the planner is used."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from counterhoop.development.flat import Development, Ring
from counterhoop.development.outline import disc, rounded
from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape, Round
from counterhoop.development.surface import Skin, Surface
from counterhoop.development.truing import Truing
from counterhoop.fittings.entry import Behind, Fitting, Kind, Mouth, PatternHole
from counterhoop.scheme.layout import FittingPlan, HoopPlan, Layout, RodPlan
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.drum import Circumference, Drum, Edge, Inside, Mark, PlacedFitting
from counterhoop.shell.hole import Condition, Hole
from counterhoop.shell.wish import FinishPlan

GIRTH_MM = math.pi * 302.6
UPPER_LOWER = (
    PatternHole(right_mm=0.0, down_mm=-21.0, hole_mm=6.0, screw_mm=4.8, called="upper"),
    PatternHole(right_mm=0.0, down_mm=21.0, hole_mm=6.0, screw_mm=4.8, called="lower"),
)
LUG = Fitting(
    name="round lug",
    kind=Kind.LUG,
    source="made for the test",
    base=rounded(24.0, 57.0, corner_mm=12.0),
    holes=UPPER_LOWER,
    mouths=(Mouth(down_mm=-28.5, toward="batter"),),
    reach_mm=20.0,
    rod_line_mm=9.5,
    free_depth_mm=30.0,
    thread="12-24",
    behind=Behind(washer_mm=1.2, washer_diameter_mm=14.0),
    screw_thread="10-24",
    screw_length_mm=15.9,
    screw_depth_mm=12.0,
)
LONG = replace(
    LUG,
    name="long lug",
    kind=Kind.LONG_LUG,
    base=rounded(22.0, 140.0, corner_mm=11.0),
    holes=(
        PatternHole(right_mm=0.0, down_mm=-40.0, hole_mm=6.0, screw_mm=4.8, called="upper"),
        PatternHole(right_mm=0.0, down_mm=40.0, hole_mm=6.0, screw_mm=4.8, called="lower"),
    ),
    mouths=(Mouth(down_mm=-70.0, toward="batter"), Mouth(down_mm=70.0, toward="resonant")),
)
BLOCK = Fitting(
    name="bracket block",
    kind=Kind.BRACKET,
    source="made for the test",
    base=rounded(50.8, 38.1),
    holes=(PatternHole(right_mm=0.0, down_mm=0.0, hole_mm=6.0, screw_mm=5.5),),
    reach_mm=34.0,
)
BADGE = Fitting(name="badge", kind=Kind.BADGE, source="made for the test", base=rounded(40.0, 30.0))
GROMMET = Fitting(name="grommet", kind=Kind.GROMMET, source="made for the test", base=disc(19.0))
STRAINER = Fitting(
    name="strainer",
    kind=Kind.STRAINER,
    source="made for the test",
    base=rounded(30.0, 65.0),
    holes=(
        PatternHole(right_mm=0.0, down_mm=-22.25, hole_mm=5.5, screw_mm=4.8, called="upper"),
        PatternHole(right_mm=0.0, down_mm=22.25, hole_mm=5.5, screw_mm=4.8, called="lower"),
    ),
    reach_mm=25.0,
)
BUTT = replace(STRAINER, name="butt", kind=Kind.BUTT, base=rounded(30.0, 40.0))
HOOP = Fitting(
    name="hoop of 6",
    kind=Kind.HOOP,
    source="made for the test",
    hoop_kind="flanged",
    ears=6,
    ear_hole_mm=7.0,
    below_edge_mm=12.0,
    seat_below_edge_mm=7.0,
    washer_mm=1.5,
)
ROD_42 = Fitting(
    name="rod 42",
    kind=Kind.ROD,
    source="made for the test",
    thread="12-24",
    rod_length_mm=42.0,
    thread_length_mm=28.0,
    shank_mm=5.4,
)


class Shell:
    """A layout in the making. Heights are those of the layout; the survey's follow from truing."""

    def __init__(
        self,
        *,
        girth_mm: float = GIRTH_MM,
        depth_mm: float = 200.0,
        wall_mm: float = 5.0,
        truing: Truing | None = None,
        rings: tuple[Ring, ...] = (),
        **drum: Any,
    ) -> None:
        self.truing = truing or Truing()
        self.flat = Development(
            surface=Surface(skin=Skin.OLD, circumference_mm=girth_mm),
            depth_mm=depth_mm,
            wall_mm=wall_mm,
            rings=rings,
            after_truing=self.truing.any,
        )
        removed = self.truing.batter.mean_mm + self.truing.resonant.mean_mm
        self.drum = Drum(
            **{
                "key": "tom",
                "circumference": Circumference(skin=Skin.OLD, mean_mm=girth_mm),
                "wall_mm": wall_mm,
                "depth_mm": depth_mm + removed,
                "heads": 1,
                **drum,
            }
        )
        self.holes: list[Hole] = []
        self.plans: list[HolePlan] = []
        self.fittings: list[FittingPlan] = []
        self.placed: list[PlacedFitting] = []

    def deg(self, along_mm: float) -> float:
        return along_mm * 360.0 / self.flat.surface.circumference_mm

    def _found(self, place: Place) -> Place:
        return Place(place.along_deg, place.down_mm + self.truing.batter.at_mm(place.along_deg))

    def old(
        self,
        along_deg: float,
        down_mm: float,
        shape: HoleShape | float = 6.0,
        *,
        verdict: Verdict = Verdict.KEEP,
        condition: Condition = Condition.SOUND,
        purpose: str = "",
        doubt_mm: float = 0.5,
        **plan: Any,
    ) -> int:
        """A hole that the survey found."""
        made = Round(shape) if isinstance(shape, float) else shape
        number, place = len(self.plans) + 1, Place(along_deg, down_mm)
        closed = verdict in (Verdict.PLUG, Verdict.PLUGGED_ALREADY)
        self.holes.append(
            Hole(
                number=number,
                place=self._found(place),
                shape=made,
                condition=condition,
                purpose=purpose,
                doubt_mm=doubt_mm,
            )
        )
        given = {"new": None if closed else made, **plan}
        self.plans.append(
            HolePlan(
                number=number, verdict=verdict, place=place, old=made, doubt_mm=doubt_mm, **given
            )
        )
        return number

    def new(self, along_deg: float, down_mm: float, size_mm: float = 6.0, **plan: Any) -> int:
        """A hole that the scheme drills."""
        number = len(self.plans) + 1
        given = {"verdict": Verdict.DRILL, **plan}
        self.plans.append(
            HolePlan(number=number, place=Place(along_deg, down_mm), new=Round(size_mm), **given)
        )
        return number

    def fit(
        self,
        entry: Fitting,
        along_deg: float,
        down_mm: float,
        *,
        label: str = "",
        status: str = "new",
        row: str = "",
        turned_deg: float = 0.0,
        holes: tuple[int, ...] | None = None,
    ) -> FittingPlan:
        """A fitting with its holes: drilled for a new one, kept for one that stays."""
        flip = -1.0 if turned_deg == 180.0 else 1.0
        name = label or entry.name
        if holes is None:
            made = []
            for wanted in entry.holes:
                at = along_deg + flip * self.deg(wanted.right_mm)
                down = down_mm + flip * wanted.down_mm
                if status == "new":
                    made.append(self.new(at, down, wanted.hole_mm, serves=name))
                else:
                    gone = status == "goes"
                    made.append(
                        self.old(
                            at,
                            down,
                            wanted.hole_mm,
                            verdict=Verdict.PLUG if gone else Verdict.KEEP,
                            serves="" if gone else name,
                        )
                    )
            holes = tuple(made)
        plan = FittingPlan(
            label=name,
            fitting=entry,
            place=Place(along_deg, down_mm),
            turned_deg=turned_deg,
            status=status,
            row=row,
            holes=holes,
        )
        self.fittings.append(plan)
        if status != "new":
            self.placed.append(
                PlacedFitting(
                    label=name,
                    fitting=entry.name,
                    place=self._found(plan.place),
                    turned_deg=turned_deg,
                    holes=holes,
                )
            )
        return plan

    def row(
        self,
        entry: Fitting = LUG,
        *,
        count: int = 6,
        down_mm: float = 62.0,
        head: str = "batter",
        status: str = "stays",
        first_deg: float = 0.0,
    ) -> list[FittingPlan]:
        """A row of lugs, evenly spaced; a resonant row looks to its own edge."""
        return [
            self.fit(
                entry,
                first_deg + k * 360.0 / count,
                down_mm,
                label=f"{'long' if head == 'both' else head} lug {k + 1}",
                status=status,
                row=head,
                turned_deg=180.0 if head == "resonant" else 0.0,
            )
            for k in range(count)
        ]

    def layout(
        self,
        *,
        hoops: tuple[HoopPlan, ...] = (),
        rods: tuple[RodPlan, ...] = (),
        marks: tuple[Mark, ...] = (),
        finish: FinishPlan | None = None,
        **changes: Any,
    ) -> Layout:
        drum = replace(self.drum, holes=tuple(self.holes), fittings=tuple(self.placed))
        made = Layout(
            drum=drum,
            flat=self.flat,
            truing=self.truing,
            finish=finish or FinishPlan(truing=self.truing),
            holes=tuple(self.plans),
            fittings=tuple(self.fittings),
            hoops=hoops,
            rods=rods,
            marks=marks,
        )
        return replace(made, **changes)


def hoop(head: str = "batter", entry: Fitting = HOOP, **more: Any) -> HoopPlan:
    return HoopPlan(head=head, hoop=entry, **more)


def rods(rod: Fitting | None = ROD_42, *, thread: str = "12-24", head: str = "batter") -> RodPlan:
    return RodPlan(
        head=head,
        count=6,
        thread=thread,
        least_mm=38.0,
        most_mm=53.0,
        rod=rod,
    )


def surveyed_end(**more: Any) -> Edge:
    return Edge(end="resonant", **{"there": True, "ring": True, **more})


def inside(what: str, along_deg: float, down_mm: float, wide_mm: float, high_mm: float) -> Inside:
    return Inside(what=what, place=Place(along_deg, down_mm), outline=rounded(wide_mm, high_mm))

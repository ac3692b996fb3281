"""Speed of all checks over one layout: 48 holes, 16 lugs, every sort of thing in the way."""

from __future__ import annotations

import math
from dataclasses import replace

from _timing import Table, timed

from counterhoop.development.flat import Development, Ring
from counterhoop.development.outline import rounded
from counterhoop.development.place import Place
from counterhoop.development.shape import Round
from counterhoop.development.surface import Skin, Surface
from counterhoop.development.truing import Truing
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Behind, Fitting, Kind, Mouth, PatternHole
from counterhoop.scheme.findings import look_over
from counterhoop.scheme.layout import FittingPlan, HoopPlan, Layout
from counterhoop.scheme.rods import plan_rods
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.drum import Circumference, Drum, Inside, Mark, PlySeam, Seam
from counterhoop.shell.hole import Hole
from counterhoop.shell.shop_rules import default_rules
from counterhoop.shell.wish import FinishPlan

GIRTH_MM, DEPTH_MM = math.pi * 355.0, 355.6
LUG = Fitting(
    name="round lug",
    kind=Kind.LUG,
    source="made for the benchmark",
    base=rounded(24.0, 57.0, corner_mm=12.0),
    holes=(
        PatternHole(right_mm=0.0, down_mm=-21.0, hole_mm=6.0, screw_mm=4.8),
        PatternHole(right_mm=0.0, down_mm=21.0, hole_mm=6.0, screw_mm=4.8),
    ),
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
HOOP = Fitting(
    name="hoop of 8",
    kind=Kind.HOOP,
    source="made for the benchmark",
    hoop_kind="flanged",
    ears=8,
    ear_hole_mm=7.0,
    below_edge_mm=12.0,
    seat_below_edge_mm=7.0,
    washer_mm=1.5,
)
BLOCK = Fitting(
    name="bracket",
    kind=Kind.BRACKET,
    source="made for the benchmark",
    base=rounded(60.0, 70.0, corner_mm=5.0),
    reach_mm=40.0,
)
ROD = Fitting(
    name="rod",
    kind=Kind.ROD,
    source="made for the benchmark",
    thread="12-24",
    rod_length_mm=42.0,
    thread_length_mm=28.0,
    shank_mm=5.4,
)


def layout() -> Layout:
    """Sixteen lugs on 32 new holes, 16 old ones plugged a few millimetres off, shadows of each."""
    plans: list[HolePlan] = []
    found: list[Hole] = []
    fittings: list[FittingPlan] = []
    marks: list[Mark] = []
    for k in range(16):
        at = Place(k % 8 * 45.0 + 3.0, 62.0 if k < 8 else DEPTH_MM - 62.0)
        old = Place(at.along_deg - 5.0, at.down_mm)
        number = len(plans) + 1
        found.append(Hole(number=number, place=old, shape=Round(6.0)))
        plans.append(
            HolePlan(number=number, verdict=Verdict.PLUG, place=old, old=Round(6.0), plug_mm=6.0)
        )
        for y in (-21.0, 21.0):
            plans.append(
                HolePlan(
                    number=len(plans) + 1,
                    verdict=Verdict.DRILL,
                    place=Place(at.along_deg, at.down_mm + y),
                    new=Round(6.0),
                    serves=f"lug {k + 1}",
                )
            )
        fittings.append(
            FittingPlan(
                label=f"lug {k + 1}",
                fitting=LUG,
                place=at,
                turned_deg=0.0 if k < 8 else 180.0,
                status="new",
                row="batter" if k < 8 else "resonant",
                holes=(number + 1, number + 2),
            )
        )
        marks.append(
            Mark(kind="shadow", place=old, outline=rounded(20.0, 50.0, corner_mm=10.0), of="lug")
        )
    fittings.append(FittingPlan(label="bracket", fitting=BLOCK, place=Place(25.0, 178.0)))
    drum = Drum(
        key="floor tom",
        circumference=Circumference(skin=Skin.OLD, mean_mm=GIRTH_MM),
        wall_mm=5.0,
        depth_mm=DEPTH_MM,
        holes=tuple(found),
        seam=Seam(from_deg=200.0, to_deg=204.0),
        lines=tuple(
            PlySeam(kind="ply seam", along_deg=a, from_mm=0.0, to_mm=DEPTH_MM)
            for a in (20.0, 140.0, 260.0)
        ),
        inside=(Inside(what="a block", place=Place(90.0, 178.0), outline=rounded(40.0, 40.0)),),
    )
    return Layout(
        drum=drum,
        flat=Development(
            surface=Surface(skin=Skin.OLD, circumference_mm=GIRTH_MM),
            depth_mm=DEPTH_MM,
            wall_mm=5.0,
            rings=(Ring(end="batter", wide_mm=38.0, thick_mm=5.0),),
        ),
        truing=Truing(),
        finish=FinishPlan(),
        holes=tuple(plans),
        fittings=tuple(fittings),
        hoops=(HoopPlan(head="batter", hoop=HOOP), HoopPlan(head="resonant", hoop=HOOP)),
        marks=tuple(marks),
    )


def main() -> None:
    """Print the table."""
    rules = default_rules()
    made = layout()
    made = replace(made, rods=plan_rods(made, Book((ROD,)), rules=rules))
    checked = look_over(made, rules=rules)
    holes, lugs = len(made.holes), len([f for f in made.fittings if f.fitting.kind is Kind.LUG])
    table = Table(f"All findings of one layout: {holes} holes, {lugs} lugs")
    table.row(
        f"all checks, warm ({len(checked.findings)} findings)",
        timed(lambda: look_over(made, rules=rules), times=50),
        limit_s=0.02,
    )
    wide = Surface(skin=Skin.OLD, circumference_mm=1.5 * GIRTH_MM)
    larger = replace(
        made, drum=replace(made.drum, key="bass drum"), flat=replace(made.flat, surface=wide)
    )
    table.row(
        "the same beside four other drums",
        timed(lambda: look_over(made, rules=rules, others=(larger,) * 4), times=50),
        limit_s=0.02,
    )
    table.close()


if __name__ == "__main__":
    main()

"""Small layouts, each with one figure that decides whether something is said of it."""

from __future__ import annotations

import math
import sys
from dataclasses import replace
from typing import Any

from counterhoop.development.flat import Ring
from counterhoop.development.outline import rounded
from counterhoop.development.place import Place
from counterhoop.development.shape import Slot
from counterhoop.development.truing import Removal, Truing
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.drum import Mark, OldFinish, PlySeam, Seam
from counterhoop.shell.hole import Condition
from counterhoop.shell.readings import EndReadings, HeadRead, Readings, RimReadings, ThreadRead
from counterhoop.shell.wish import FinishPlan

t = sys.modules["findings_shells"]
Shell = t.Shell


def web(apart_mm: float) -> Layout:
    s = Shell()
    s.old(0.0, 100.0)
    s.new(s.deg(apart_mm), 100.0)
    return s.layout()


def old_web(apart_mm: float) -> Layout:
    s = Shell()
    s.old(0.0, 100.0)
    s.old(s.deg(apart_mm), 100.0)
    return s.layout()


def beside_plug(gap_mm: float, condition: Condition = Condition.FACE_GRAIN) -> Layout:
    s = Shell()
    s.old(0.0, 100.0, verdict=Verdict.PLUGGED_ALREADY, condition=condition)
    s.new(0.0, 106.0 + gap_mm)
    return s.layout()


def in_plug(plug_mm: float, washer_mm: float | None, *, at_mm: float = 3.0) -> Layout:
    """An old hole and a new one, the plug centred between them, under a lug's base."""
    s = Shell()
    middle = Place(s.deg(at_mm / 2), 41.0)
    s.old(0.0, 41.0, verdict=Verdict.PLUG, plug_mm=plug_mm, plug_place=middle)
    s.new(
        s.deg(at_mm),
        41.0,
        verdict=Verdict.PLUG_AND_DRILL,
        through=(1,),
        plug_mm=plug_mm,
        plug_place=middle,
        backing_washer_mm=washer_mm,
    )
    s.new(s.deg(at_mm), 83.0)
    lug = replace(t.LUG, base=rounded(24.0, 57.0))
    s.fit(lug, s.deg(at_mm), 62.0, label="lug 4", row="batter", holes=(2, 3))
    return s.layout()


def plug_bored(plug_mm: float) -> Layout:
    s = Shell()
    s.old(0.0, 100.0, verdict=Verdict.PLUG, plug_mm=plug_mm)
    s.old(s.deg(9.0), 100.0, verdict=Verdict.LEAVE_OPEN)
    return s.layout()


def near_edge(down_mm: float) -> Layout:
    s = Shell()
    s.new(0.0, down_mm)
    return s.layout()


def near_line(kind: str, off_mm: float) -> Layout:
    at = off_mm * 360.0 / t.GIRTH_MM
    line = PlySeam(kind=kind, along_deg=at, from_mm=0.0, to_mm=200.0)
    s = Shell(lines=(line,))
    s.new(0.0, 100.0)
    return s.layout()


def seam_hole(along_mm: float, **finish: Any) -> Layout:
    """The overlap lies from 20 to 32 mm along."""
    s = Shell()
    s.drum = replace(s.drum, seam=Seam(from_deg=s.deg(20.0), to_deg=s.deg(32.0)))
    s.new(s.deg(along_mm), 100.0)
    return s.layout(finish=FinishPlan(**finish) if finish else None)


def seam_base(along_mm: float) -> Layout:
    s = Shell(finish=OldFinish(kind="wrap", thickness_mm=0.5))
    s.drum = replace(s.drum, seam=Seam(from_deg=s.deg(20.0), to_deg=s.deg(32.0)))
    s.fit(t.LUG, s.deg(along_mm), 62.0, row="batter")
    return s.layout()


def lug_and(entry: Any, apart_mm: float, *, down_mm: float = 62.0) -> Layout:
    s = Shell()
    s.fit(entry, 0.0, down_mm, status="stays", label="other")
    s.fit(t.LUG, s.deg(apart_mm), 62.0, label="lug 1", row="batter")
    return s.layout()


def lug_and_vent(apart_mm: float) -> Layout:
    s = Shell()
    s.old(0.0, 62.0, 12.7, verdict=Verdict.LEAVE_OPEN, purpose="vent")
    s.fit(t.LUG, s.deg(apart_mm), 62.0, label="lug 1", row="batter")
    return s.layout()


def under_hoop(down_mm: float) -> Layout:
    s = Shell()
    s.row(down_mm=down_mm, status="new")
    return s.layout(hoops=(t.hoop(),))


def bracket_under_hoop(down_mm: float) -> Layout:
    s = Shell()
    s.row()
    s.fit(t.BLOCK, 30.0, down_mm, label="bracket")
    return s.layout(hoops=(t.hoop(),))


def ears(count: int) -> Layout:
    s = Shell()
    s.row()
    return s.layout(hoops=(t.hoop(entry=replace(t.HOOP, ears=count)),))


def lean(off_mm: float, *, pinned: bool = False) -> Layout:
    s = Shell()
    for k in range(6):
        off = s.deg(off_mm) if k == 3 else 0.0
        s.fit(
            t.LUG, k * 60.0 + off, 62.0, label=f"batter lug {k + 1}", status="stays", row="batter"
        )
    return s.layout(hoops=(t.hoop(pinned=pinned),))


def splay(circle_mm: float, *, status: str = "stays", **hoop: Any) -> Layout:
    """Six lugs whose mouths stand on a circle of 302.6 + 2 x 9.5 = 321.6."""
    s = Shell()
    s.row(status=status)
    return s.layout(hoops=(t.hoop(entry=replace(t.HOOP, ear_circle_mm=circle_mm), **hoop),))


def thread_read(outside_mm: float, over_mm: float, **read: Any) -> Layout:
    """Rods of lugs that take 12-24, read with a caliper."""
    rods = ThreadRead(of="batter rods", head="batter", outside_mm=outside_mm, over_mm=over_mm)
    s = Shell(readings=Readings(threads=(replace(rods, **read),)))
    s.row()
    return s.layout()


def with_rod(rod: Any, *, thread: str = "12-24", hoop: Any = t.HOOP) -> Layout:
    s = Shell()
    s.row()
    return s.layout(hoops=(t.hoop(entry=hoop),), rods=(t.rods(rod, thread=thread),))


def screws(length_mm: float) -> Layout:
    s = Shell()
    s.fit(replace(t.LUG, screw_length_mm=length_mm), 0.0, 62.0, label="lug 1", row="batter")
    return s.layout()


def kept(off_mm: float, *, size_mm: float = 6.0) -> Layout:
    s = Shell()
    s.old(0.0, 41.0, size_mm, doubt_mm=0.0)
    s.new(s.deg(off_mm), 83.0)
    s.fit(t.LUG, s.deg(off_mm), 62.0, label="lug 1", row="batter", holes=(1, 2))
    return s.layout()


def slotted(off_mm: float, washer_mm: float | None, *, wide_mm: float = 24.0) -> Layout:
    """An old hole slotted along the shell to where a lug wants it."""
    s = Shell()
    shape = Slot(6.0, 6.0 + off_mm, "along")
    s.old(
        0.0,
        41.0,
        verdict=Verdict.SLOT,
        new=shape,
        new_place=Place(s.deg(off_mm / 2), 41.0),
        backing_washer_mm=washer_mm,
    )
    s.new(s.deg(off_mm), 83.0)
    lug = replace(t.LUG, base=rounded(wide_mm, 57.0))
    s.fit(lug, s.deg(off_mm), 62.0, label="lug 1", row="batter", holes=(1, 2))
    return s.layout()


def broken(condition: Condition) -> Layout:
    s = Shell()
    s.old(0.0, 100.0, condition=condition)
    s.fit(t.BLOCK, 0.0, 100.0, label="bracket", status="stays", holes=(1,))
    return s.layout()


def inside(down_mm: float) -> Layout:
    s = Shell(inside=(t.inside("a wooden block", 0.0, down_mm, 30.0, 20.0),))
    s.fit(t.LUG, 0.0, 62.0, label="lug 1", row="batter")
    return s.layout()


def ring_step(wide_mm: float) -> Layout:
    s = Shell(rings=(Ring(end="batter", wide_mm=wide_mm, thick_mm=5.0),))
    s.fit(t.LUG, 0.0, 62.0, label="lug 1", row="batter")
    return s.layout()


def long_lugs(down_mm: float) -> Layout:
    s = Shell(edges=(t.surveyed_end(),))
    s.row(t.LONG, head="both", down_mm=down_mm, status="new")
    return s.layout()


def second_row(*, down_mm: float = 138.0, turn_mm: float = 0.0, truing: Any = None) -> Layout:
    s = Shell(truing=truing, edges=(t.surveyed_end(),))
    s.row()
    s.row(head="resonant", down_mm=down_mm, status="new", first_deg=s.deg(turn_mm))
    return s.layout()


def second_head(*, edges: tuple[Any, ...], vent: bool = True, **drum: Any) -> Layout:
    s = Shell(edges=edges, **drum)
    s.row()
    s.row(head="resonant", down_mm=138.0, status="new")
    if vent:
        s.old(30.0, 100.0, 12.7, verdict=Verdict.LEAVE_OPEN, purpose="vent")
    return s.layout()


def mark(kind: str, *, off_mm: float = 0.0, wide_mm: float = 22.0, base: bool = True) -> Layout:
    s = Shell()
    if base:
        s.fit(replace(t.LUG, base=rounded(24.0, 57.0)), 0.0, 62.0, label="lug 1", row="batter")
    there = Mark(
        kind=kind,
        place=Place(s.deg(off_mm), 62.0),
        outline=rounded(wide_mm, 50.0),
        of="old lug 1",
    )
    return s.layout(marks=(there,))


def plug(verdict: Verdict, *, covered: bool, finish: FinishPlan | None = None) -> Layout:
    s = Shell()
    s.old(0.0, 62.0, verdict=verdict)
    if covered:
        s.fit(t.BADGE, 0.0, 62.0, label="badge", status="stays", holes=())
    return s.layout(finish=finish)


def nest(reach_mm: float) -> tuple[Layout, tuple[Layout, ...]]:
    """A bracket goes onto a drum that was carried in a larger one."""
    s = Shell(key="small tom")
    s.fit(replace(t.BLOCK, reach_mm=reach_mm), 90.0, 100.0, label="bracket")
    large = Shell(key="large tom", girth_mm=math.pi * 355.0)
    return s.layout(), (large.layout(),)


def shut(*, second: bool) -> tuple[Layout, tuple[Layout, ...]]:
    s = Shell(key="large tom", girth_mm=math.pi * 355.0, edges=(t.surveyed_end(),))
    s.row()
    if second:
        s.row(head="resonant", down_mm=138.0, status="new")
    return s.layout(), (Shell(key="small tom", girth_mm=math.pi * 302.6).layout(),)


def finish(**drum: Any) -> Layout:
    s = Shell(**drum)
    s.new(0.0, 100.0)
    return s.layout()


def untrued(*, moved: bool) -> Layout:
    s = Shell(truing=Truing(batter=Removal(2.0)))
    s.old(0.0, 100.0)
    plan = s.plans[0]
    here = plan.place if moved else Place(0.0, 102.0)
    return s.layout(holes=(replace(plan, place=here),))


def found_at(along_deg: float) -> Layout:
    """A hole found at 100 degrees, planned somewhere."""
    s = Shell(finish=OldFinish(kind="wrap", thickness_mm=0.5))
    s.old(100.0, 100.0)
    return s.layout(holes=(replace(s.plans[0], place=Place(along_deg, 100.0)),))


def off_pattern(off_mm: float) -> Layout:
    s = Shell()
    s.new(s.deg(off_mm), 41.0)
    s.new(0.0, 83.0)
    s.fit(t.LUG, 0.0, 62.0, label="lug 1", row="batter", holes=(1, 2))
    return s.layout()


def unlike_book(apart_mm: float) -> Layout:
    """Two holes as found under a lug whose book says 42.0 apart."""
    s = Shell()
    s.old(0.0, 41.0)
    s.old(0.0, 41.0 + apart_mm)
    s.fit(t.LUG, 0.0, 62.0, label="lug 1", row="batter", holes=(1, 2), status="stays")
    return s.layout()


def facing(turned_deg: float) -> Layout:
    s = Shell()
    s.fit(t.LUG, 0.0, 138.0, label="lug 1", row="resonant", turned_deg=turned_deg)
    return s.layout()


def bare_girth_deg() -> float:
    """100 degrees read in millimetres over the finish and laid out on the bare wood."""
    return 100.0 * t.GIRTH_MM / (t.GIRTH_MM - math.pi)


ACROSS_MM = t.GIRTH_MM / math.pi


def rim(*values_mm: float, turn_deg: float = 360.0, resolution_mm: float = 0.1) -> RimReadings:
    """Readings at equal steps; ``turn_deg`` is 180 for diameters."""
    step = turn_deg / len(values_mm)
    return RimReadings(
        along_deg=tuple(k * step for k in range(len(values_mm))),
        value_mm=values_mm,
        instrument="made for the test",
        resolution_mm=resolution_mm,
    )


def oval(difference_mm: float) -> RimReadings:
    half = difference_mm / 2.0
    return rim(ACROSS_MM + half, ACROSS_MM, ACROSS_MM - half, ACROSS_MM, turn_deg=180.0)


def lobed(lobes_mm: float) -> RimReadings:
    return rim(
        *(ACROSS_MM / 2.0 + lobes_mm * math.cos(math.radians(45.0 * k)) for k in range(24)),
    )


def read(
    *,
    truing: Any = None,
    finish: FinishPlan | None = None,
    head_mm: float | None = None,
    **end: Any,
) -> Layout:
    """A drum whose batter end was read; ``head_mm`` is the collar's room over its mean diameter."""
    if head_mm is not None:
        end["head"] = HeadRead(collar_mm=ACROSS_MM + head_mm)
    batter = EndReadings(end="batter", **end)
    s = Shell(truing=truing, readings=Readings(batter=batter))
    s.row()
    plan = finish or FinishPlan()
    return s.layout(finish=replace(plan, truing=s.truing))


def trued_ring(wide_mm: float) -> Layout:
    """A ring after 3.0 came off its edge."""
    off = Truing(batter=Removal(3.0))
    s = Shell(truing=off, rings=(Ring(end="batter", wide_mm=wide_mm, thick_mm=5.0),))
    s.new(0.0, 100.0)
    made = s.layout()
    found = Ring(end="batter", wide_mm=wide_mm + 3.0, thick_mm=5.0)
    return replace(made, drum=replace(made.drum, rings=(found,)))

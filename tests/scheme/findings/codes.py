"""For each code of the catalogue: a layout that raises it, and one like it that does not.

Every pair differs in one thing only. Facts of the trade: common practice, no source.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from counterhoop.development.flat import Ring
from counterhoop.development.outline import rounded
from counterhoop.development.place import Place
from counterhoop.development.shape import Slot
from counterhoop.development.truing import Removal, Truing
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.drum import Mark, Material, OldFinish, PlySeam, Seam
from counterhoop.shell.hole import Condition
from counterhoop.shell.wish import FinishPlan

t = sys.modules["findings_shells"]
Shell = t.Shell
LONG_ROD = replace(t.ROD_42, name="rod 70", rod_length_mm=70.0, thread_length_mm=50.0)


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
    line = PlySeam(kind=kind, along_deg=at, from_mm=0.0, to_mm=200.0)  # type: ignore[arg-type]
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


def snare(
    *, butt_deg: float = 198.0, count: int = 10, throw: Any = None, in_way: bool = False
) -> Layout:
    s = Shell(depth_mm=165.0, girth_mm=math.pi * 353.4, heads=2)
    s.row(count=count, head="resonant", down_mm=130.0, status="stays")
    strainer = replace(t.STRAINER, throw=throw)
    half = 180.0 / count
    s.fit(strainer, half, 70.0, label="strainer")
    s.fit(t.BUTT, butt_deg, 75.0, label="butt")
    if in_way:
        s.fit(t.BADGE, half, 125.0, label="badge", status="stays")
    return s.layout(hoops=(t.hoop("resonant", replace(t.HOOP, ears=count)),))


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
        kind=kind,  # type: ignore[arg-type]
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


def facing(turned_deg: float) -> Layout:
    s = Shell()
    s.fit(t.LUG, 0.0, 138.0, label="lug 1", row="resonant", turned_deg=turned_deg)
    return s.layout()


def bare_girth_deg() -> float:
    """100 degrees read in millimetres over the finish and laid out on the bare wood."""
    return 100.0 * t.GIRTH_MM / (t.GIRTH_MM - math.pi)


NO_SEAT = replace(t.HOOP, seat_below_edge_mm=None)
COARSE = replace(t.ROD_42, name="rod 7/32-24", thread="7/32-24")
WIDE_THROW = rounded(30.0, 180.0)
SMALL_THROW = rounded(30.0, 65.0)
NITRATE = OldFinish(kind="wrap", thickness_mm=0.0, maybe_nitrate=True)

Made = Layout | tuple[Layout, tuple[Layout, ...]]
CODES: dict[str, tuple[Callable[[], Made], Callable[[], Made]]] = {
    "web-thin": (lambda: web(11.0), lambda: web(13.5)),
    "web-thin-as-found": (lambda: old_web(11.0), lambda: old_web(13.5)),
    "plug-beside": (lambda: beside_plug(2.0), lambda: beside_plug(4.0)),
    "hole-half-in-plug": (lambda: in_plug(10.0, 20.0), lambda: in_plug(15.0, 20.0)),
    "hole-in-plug": (lambda: in_plug(15.0, 20.0), lambda: beside_plug(4.0)),
    "plug-cannot-hold": (
        lambda: beside_plug(4.0, Condition.DOWEL),
        lambda: beside_plug(7.0, Condition.DOWEL),
    ),
    "plug-cuts-hole": (lambda: plug_bored(15.0), lambda: plug_bored(10.0)),
    "hole-near-edge": (lambda: near_edge(14.0), lambda: near_edge(16.0)),
    "edge-through-hole": (lambda: near_edge(198.5), lambda: near_edge(100.0)),
    "hole-near-ring-joint": (
        lambda: near_line("ring joint", 7.0),
        lambda: near_line("ring joint", 9.0),
    ),
    "hole-near-ply-seam": (
        lambda: near_line("ply seam", 12.0),
        lambda: near_line("ply seam", 14.0),
    ),
    "hole-near-crack": (lambda: near_line("crack", 12.0), lambda: near_line("crack", 14.0)),
    "hole-near-lifted-ply": (
        lambda: near_line("lifted ply", 12.0),
        lambda: near_line("lifted ply", 14.0),
    ),
    "hole-half-on-seam": (lambda: seam_hole(21.0), lambda: seam_hole(26.0)),
    "hole-near-seam": (lambda: seam_hole(12.0), lambda: seam_hole(8.0)),
    "base-half-on-seam": (lambda: seam_base(26.0), lambda: seam_base(-5.0)),
    "base-near-seam": (lambda: seam_base(4.0), lambda: seam_base(-5.0)),
    "bases-overlap": (lambda: lug_and(t.BLOCK, 30.0), lambda: lug_and(t.BLOCK, 60.0)),
    "bases-near": (lambda: lug_and(t.BLOCK, 45.0), lambda: lug_and(t.BLOCK, 60.0)),
    "base-on-vent": (lambda: lug_and_vent(15.0), lambda: lug_and_vent(30.0)),
    "base-near-vent": (lambda: lug_and_vent(24.0), lambda: lug_and_vent(30.0)),
    "hoop-near-lug": (lambda: under_hoop(46.5), lambda: under_hoop(62.0)),
    "hoop-on-lug": (lambda: under_hoop(41.0), lambda: under_hoop(62.0)),
    "hoop-meets-fitting": (
        lambda: bracket_under_hoop(30.0),
        lambda: bracket_under_hoop(60.0),
    ),
    "ears-against-lugs": (lambda: ears(8), lambda: ears(6)),
    "rod-leans": (lambda: lean(6.0), lambda: lean(0.0)),
    "rod-short": (
        lambda: with_rod(replace(t.ROD_42, rod_length_mm=36.0)),
        lambda: with_rod(t.ROD_42),
    ),
    "rod-bottoms": (lambda: with_rod(LONG_ROD), lambda: with_rod(t.ROD_42)),
    "shank-meets-lug": (
        lambda: with_rod(replace(t.ROD_42, thread_length_mm=10.0)),
        lambda: with_rod(t.ROD_42),
    ),
    "no-rod-serves": (lambda: with_rod(None), lambda: with_rod(t.ROD_42)),
    "rod-length-unknown": (
        lambda: with_rod(t.ROD_42, hoop=NO_SEAT),
        lambda: with_rod(t.ROD_42),
    ),
    "thread-unlike": (lambda: with_rod(COARSE), lambda: with_rod(t.ROD_42)),
    "screw-short": (lambda: screws(9.0), lambda: screws(15.9)),
    "screw-bottoms": (lambda: screws(20.0), lambda: screws(15.9)),
    "kept-too-far-off": (lambda: kept(0.9), lambda: kept(0.5)),
    "opening-not-under-base": (
        lambda: slotted(3.0, 14.0, wide_mm=13.0),
        lambda: slotted(3.0, 14.0),
    ),
    "backing-washer": (lambda: slotted(3.0, None), lambda: slotted(3.0, 14.0)),
    "broken-out-kept": (
        lambda: broken(Condition.BROKEN_OUT),
        lambda: broken(Condition.WORN),
    ),
    "inside-in-the-way": (lambda: inside(41.0), lambda: inside(120.0)),
    "washer-on-ring-step": (lambda: ring_step(38.0), lambda: ring_step(25.0)),
    "strainer-not-opposite": (lambda: snare(butt_deg=202.0), snare),
    "not-between-lugs": (lambda: snare(butt_deg=202.0), snare),
    "lever-fouled": (lambda: snare(throw=WIDE_THROW), lambda: snare(throw=SMALL_THROW)),
    "straps-fouled": (lambda: snare(in_way=True), snare),
    "long-lug-off-middle": (lambda: long_lugs(103.0), lambda: long_lugs(101.0)),
    "second-row-height": (lambda: second_row(down_mm=136.0), second_row),
    "second-row-off": (lambda: second_row(turn_mm=3.0), second_row),
    "second-row-turned": (
        lambda: second_row(turn_mm=30.0),
        lambda: second_row(turn_mm=t.GIRTH_MM / 12.0),
    ),
    "end-not-surveyed": (
        lambda: second_head(edges=(t.surveyed_end(surveyed=False),)),
        lambda: second_head(edges=(t.surveyed_end(),)),
    ),
    "no-edge": (
        lambda: second_head(edges=(t.surveyed_end(there=False),)),
        lambda: second_head(edges=(t.surveyed_end(),)),
    ),
    "no-ring": (
        lambda: second_head(edges=(t.surveyed_end(ring=False),)),
        lambda: second_head(edges=(t.surveyed_end(),)),
    ),
    "wrap-to-edge": (
        lambda: second_head(edges=(t.surveyed_end(wrap_to_edge=True),)),
        lambda: second_head(edges=(t.surveyed_end(),)),
    ),
    "no-vent": (
        lambda: second_head(edges=(t.surveyed_end(),), vent=False),
        lambda: second_head(edges=(t.surveyed_end(),)),
    ),
    "shadow-shows": (lambda: mark("shadow", off_mm=4.0), lambda: mark("shadow", wide_mm=21.0)),
    "imprint-shows": (
        lambda: mark("imprint", base=False),
        lambda: mark("imprint", wide_mm=21.0),
    ),
    "mark-just-covered": (
        lambda: mark("shadow", wide_mm=23.0),
        lambda: mark("shadow", wide_mm=21.0),
    ),
    "bare-plug": (
        lambda: plug(Verdict.PLUG, covered=False),
        lambda: plug(Verdict.PLUG, covered=True),
    ),
    "open-hole-shows": (
        lambda: plug(Verdict.LEAVE_OPEN, covered=False),
        lambda: plug(Verdict.LEAVE_OPEN, covered=True),
    ),
    "plug-inside": (
        lambda: plug(Verdict.PLUG, covered=True),
        lambda: plug(Verdict.LEAVE_OPEN, covered=True),
    ),
    "no-longer-nests": (lambda: nest(70.0), lambda: nest(20.0)),
    "head-shuts-nest": (lambda: shut(second=True), lambda: shut(second=False)),
    "not-wood": (lambda: finish(material=Material.METAL), finish),
    "maybe-nitrate": (
        lambda: finish(finish=NITRATE),
        lambda: finish(finish=OldFinish(kind="wrap")),
    ),
    "height-before-truing": (lambda: untrued(moved=False), lambda: untrued(moved=True)),
    "place-other-surface": (
        lambda: found_at(bare_girth_deg()),
        lambda: found_at(100.0),
    ),
    "mirrored-layout": (lambda: found_at(260.0), lambda: found_at(100.0)),
    "hole-moved": (lambda: found_at(120.0), lambda: found_at(100.0)),
    "hole-off-pattern": (lambda: off_pattern(2.0), lambda: off_pattern(0.0)),
    "lug-faces-away": (lambda: facing(0.0), lambda: facing(180.0)),
}

"""For each code of the catalogue: a layout that raises it, and one like it that does not.

Every pair differs in one thing only. Facts of the trade: common practice, no source.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import replace

from counterhoop.bench.open_job import opened
from counterhoop.bench.plan_job import DrumPlan, plan_job
from counterhoop.development.outline import rounded
from counterhoop.development.truing import Removal, Truing
from counterhoop.errors import Finding
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.drum import Material, OldFinish
from counterhoop.shell.hole import Condition
from counterhoop.shell.readings import HeadRead, RimReadings
from counterhoop.shell.wish import FinishPlan

t = sys.modules["findings_shells"]
made = sys.modules["findings_layouts"]
snares = sys.modules["findings_layouts_snare"]
slips = sys.modules["findings_layouts_slips"]
LONG_ROD = replace(t.ROD_42, name="rod 70", rod_length_mm=70.0, thread_length_mm=50.0)
NO_SEAT = replace(t.HOOP, seat_below_edge_mm=None)
COARSE = replace(t.ROD_42, name="rod 7/32-24", thread="7/32-24")
WIDE_THROW = rounded(30.0, 180.0)
SMALL_THROW = rounded(30.0, 65.0)
NITRATE = OldFinish(kind="wrap", thickness_mm=0.0, maybe_nitrate=True)

WRAP = FinishPlan(kind="new wrap", thickness_mm=0.7)
RIMMED = HeadRead(collar_mm=306.0, rim_mm=312.0, hoop_mm=311.0)
LARGER_HOOP = replace(RIMMED, hoop_mm=314.0)


def saddle(high_mm: float) -> RimReadings:
    """Two high places opposite each other, read with a feeler."""
    return made.rim(*(0.0, -high_mm / 2.0, -high_mm, -high_mm / 2.0) * 2, resolution_mm=0.05)


TOM = """format = 1
job = { number = "7" }
[drums.tom]
circumference = "950 mm"
depth = "204 mm"
wall = "5 mm"
chosen = { scheme = "CODE" }
finish_plan = { kind = "paint" }
"""


def chosen(*, again: bool) -> list[Finding]:
    """What is noticed of a tom whose scheme was chosen, among those worked out again or not."""

    def planned(code: str) -> DrumPlan:
        job = opened(TOM.replace("CODE", code).encode(), name="job.toml", book_of=lambda _: b"")
        return plan_job(job).drum("tom")

    (scheme,) = planned("AAAA-AAAA").ranked.shown
    return list(planned(scheme.code if again else "AAAA-AAAA").noticed)


Made = Layout | tuple[Layout, tuple[Layout, ...]] | list[Finding]
CODES: dict[str, tuple[Callable[[], Made], Callable[[], Made]]] = {
    "web-thin": (lambda: made.web(11.0), lambda: made.web(13.5)),
    "web-thin-as-found": (lambda: made.old_web(11.0), lambda: made.old_web(13.5)),
    "plug-beside": (lambda: made.beside_plug(2.0), lambda: made.beside_plug(4.0)),
    "hole-half-in-plug": (lambda: made.in_plug(10.0, 20.0), lambda: made.in_plug(15.0, 20.0)),
    "hole-in-plug": (lambda: made.in_plug(15.0, 20.0), lambda: made.beside_plug(4.0)),
    "plug-cannot-hold": (
        lambda: made.beside_plug(4.0, Condition.DOWEL),
        lambda: made.beside_plug(7.0, Condition.DOWEL),
    ),
    "plug-cuts-hole": (lambda: made.plug_bored(15.0), lambda: made.plug_bored(10.0)),
    "hole-near-edge": (lambda: made.near_edge(14.0), lambda: made.near_edge(16.0)),
    "edge-through-hole": (lambda: made.near_edge(198.5), lambda: made.near_edge(100.0)),
    "hole-near-ring-joint": (
        lambda: made.near_line("ring joint", 7.0),
        lambda: made.near_line("ring joint", 9.0),
    ),
    "hole-near-ply-seam": (
        lambda: made.near_line("ply seam", 12.0),
        lambda: made.near_line("ply seam", 14.0),
    ),
    "hole-near-crack": (
        lambda: made.near_line("crack", 12.0),
        lambda: made.near_line("crack", 14.0),
    ),
    "hole-near-lifted-ply": (
        lambda: made.near_line("lifted ply", 12.0),
        lambda: made.near_line("lifted ply", 14.0),
    ),
    "hole-half-on-seam": (lambda: made.seam_hole(21.0), lambda: made.seam_hole(26.0)),
    "hole-near-seam": (lambda: made.seam_hole(12.0), lambda: made.seam_hole(8.0)),
    "base-half-on-seam": (lambda: made.seam_base(26.0), lambda: made.seam_base(-5.0)),
    "base-near-seam": (lambda: made.seam_base(4.0), lambda: made.seam_base(-5.0)),
    "bases-overlap": (lambda: made.lug_and(t.BLOCK, 30.0), lambda: made.lug_and(t.BLOCK, 60.0)),
    "bases-near": (lambda: made.lug_and(t.BLOCK, 45.0), lambda: made.lug_and(t.BLOCK, 60.0)),
    "base-on-vent": (lambda: made.lug_and_vent(15.0), lambda: made.lug_and_vent(30.0)),
    "base-near-vent": (lambda: made.lug_and_vent(24.0), lambda: made.lug_and_vent(30.0)),
    "hoop-near-lug": (lambda: made.under_hoop(46.5), lambda: made.under_hoop(62.0)),
    "hoop-on-lug": (lambda: made.under_hoop(41.0), lambda: made.under_hoop(62.0)),
    "hoop-meets-fitting": (
        lambda: made.bracket_under_hoop(30.0),
        lambda: made.bracket_under_hoop(60.0),
    ),
    "ears-against-lugs": (lambda: made.ears(8), lambda: made.ears(6)),
    "rod-leans": (lambda: made.lean(6.0), lambda: made.lean(0.0)),
    "rod-splays": (lambda: made.splay(331.6), lambda: made.splay(321.6)),
    "rod-short": (
        lambda: made.with_rod(replace(t.ROD_42, rod_length_mm=36.0)),
        lambda: made.with_rod(t.ROD_42),
    ),
    "rod-bottoms": (lambda: made.with_rod(LONG_ROD), lambda: made.with_rod(t.ROD_42)),
    "shank-meets-lug": (
        lambda: made.with_rod(replace(t.ROD_42, thread_length_mm=10.0)),
        lambda: made.with_rod(t.ROD_42),
    ),
    "no-rod-serves": (lambda: made.with_rod(None), lambda: made.with_rod(t.ROD_42)),
    "rod-length-unknown": (
        lambda: made.with_rod(t.ROD_42, hoop=NO_SEAT),
        lambda: made.with_rod(t.ROD_42),
    ),
    "thread-unlike": (lambda: made.with_rod(COARSE), lambda: made.with_rod(t.ROD_42)),
    "thread-look-alike": (
        lambda: made.thread_read(5.55, 10.58, flanks_deg=55.0),
        lambda: made.thread_read(5.40, 10.58, flanks_deg=60.0),
    ),
    "thread-not-the-lugs": (
        lambda: made.thread_read(5.95, 10.0),
        lambda: made.thread_read(5.40, 10.58),
    ),
    "thread-not-told": (
        lambda: made.thread_read(5.46, 10.58),
        lambda: made.thread_read(5.40, 10.58, flanks_deg=60.0),
    ),
    "screw-short": (lambda: made.screws(9.0), lambda: made.screws(15.9)),
    "screw-bottoms": (lambda: made.screws(20.0), lambda: made.screws(15.9)),
    "kept-too-far-off": (lambda: made.kept(0.9), lambda: made.kept(0.5)),
    "opening-not-under-base": (
        lambda: made.slotted(3.0, 14.0, wide_mm=13.0),
        lambda: made.slotted(3.0, 14.0),
    ),
    "backing-washer": (lambda: made.slotted(3.0, None), lambda: made.slotted(3.0, 14.0)),
    "broken-out-kept": (
        lambda: made.broken(Condition.BROKEN_OUT),
        lambda: made.broken(Condition.WORN),
    ),
    "inside-in-the-way": (lambda: made.inside(41.0), lambda: made.inside(120.0)),
    "washer-on-ring-step": (lambda: made.ring_step(38.0), lambda: made.ring_step(25.0)),
    "strainer-not-opposite": (lambda: snares.snare(butt_deg=202.0), snares.snare),
    "not-between-lugs": (lambda: snares.snare(butt_deg=202.0), snares.snare),
    "lever-fouled": (
        lambda: snares.snare(throw=WIDE_THROW),
        lambda: snares.snare(throw=SMALL_THROW),
    ),
    "straps-fouled": (lambda: snares.snare(in_way=True), snares.snare),
    "bed-steep": (lambda: snares.beds(deep_mm=4.0), snares.beds),
    "bed-through-ring": (lambda: snares.beds(ring_mm=8.0), lambda: snares.beds(ring_mm=10.0)),
    "bed-shallower": (lambda: snares.beds(off_mm=1.0), snares.beds),
    "beds-unlike": (lambda: snares.beds(other_deep_mm=2.0), snares.beds),
    "beds-not-opposite": (lambda: snares.beds(other_deg=200.0), snares.beds),
    "bed-off-strainer": (lambda: snares.beds(strainer_deg=21.0), snares.beds),
    "odd-lugs": (lambda: snares.beds(count=9), snares.beds),
    "long-lug-off-middle": (lambda: made.long_lugs(103.0), lambda: made.long_lugs(101.0)),
    "second-row-height": (lambda: made.second_row(down_mm=136.0), made.second_row),
    "second-row-off": (lambda: made.second_row(turn_mm=3.0), made.second_row),
    "second-row-turned": (
        lambda: made.second_row(turn_mm=30.0),
        lambda: made.second_row(turn_mm=t.GIRTH_MM / 12.0),
    ),
    "end-not-surveyed": (
        lambda: made.second_head(edges=(t.surveyed_end(surveyed=False),)),
        lambda: made.second_head(edges=(t.surveyed_end(),)),
    ),
    "no-edge": (
        lambda: made.second_head(edges=(t.surveyed_end(there=False),)),
        lambda: made.second_head(edges=(t.surveyed_end(),)),
    ),
    "no-ring": (
        lambda: made.second_head(edges=(t.surveyed_end(ring=False),)),
        lambda: made.second_head(edges=(t.surveyed_end(),)),
    ),
    "wrap-to-edge": (
        lambda: made.second_head(edges=(t.surveyed_end(wrap_to_edge=True),)),
        lambda: made.second_head(edges=(t.surveyed_end(),)),
    ),
    "no-vent": (
        lambda: made.second_head(edges=(t.surveyed_end(),), vent=False),
        lambda: made.second_head(edges=(t.surveyed_end(),)),
    ),
    "shadow-shows": (
        lambda: made.mark("shadow", off_mm=4.0),
        lambda: made.mark("shadow", wide_mm=21.0),
    ),
    "imprint-shows": (
        lambda: made.mark("imprint", base=False),
        lambda: made.mark("imprint", wide_mm=21.0),
    ),
    "mark-just-covered": (
        lambda: made.mark("shadow", wide_mm=23.0),
        lambda: made.mark("shadow", wide_mm=21.0),
    ),
    "bare-plug": (
        lambda: made.plug(Verdict.PLUG, covered=False),
        lambda: made.plug(Verdict.PLUG, covered=True),
    ),
    "open-hole-shows": (
        lambda: made.plug(Verdict.LEAVE_OPEN, covered=False),
        lambda: made.plug(Verdict.LEAVE_OPEN, covered=True),
    ),
    "plug-inside": (
        lambda: made.plug(Verdict.PLUG, covered=True),
        lambda: made.plug(Verdict.LEAVE_OPEN, covered=True),
    ),
    "no-longer-nests": (lambda: made.nest(70.0), lambda: made.nest(20.0)),
    "head-shuts-nest": (lambda: made.shut(second=True), lambda: made.shut(second=False)),
    "not-wood": (lambda: made.finish(material=Material.METAL), made.finish),
    "maybe-nitrate": (
        lambda: made.finish(finish=NITRATE),
        lambda: made.finish(finish=OldFinish(kind="wrap")),
    ),
    "height-before-truing": (lambda: made.untrued(moved=False), lambda: made.untrued(moved=True)),
    "place-other-surface": (
        lambda: made.found_at(made.bare_girth_deg()),
        lambda: made.found_at(100.0),
    ),
    "mirrored-layout": (lambda: made.found_at(260.0), lambda: made.found_at(100.0)),
    "hole-moved": (lambda: made.found_at(120.0), lambda: made.found_at(100.0)),
    "hole-off-pattern": (lambda: made.off_pattern(2.0), lambda: made.off_pattern(0.0)),
    "holes-unlike-book": (lambda: made.unlike_book(82.0), lambda: made.unlike_book(43.5)),
    "lug-faces-away": (lambda: made.facing(0.0), lambda: made.facing(180.0)),
    "out-of-round": (lambda: made.read(across=made.oval(4.0)), made.read),
    "odd-lobes-not-seen": (
        lambda: made.read(across=made.oval(1.0)),
        lambda: made.read(radii=made.lobed(0.5)),
    ),
    "odd-lobes": (
        lambda: made.read(radii=made.lobed(0.5)),
        lambda: made.read(radii=made.lobed(0.0)),
    ),
    "readings-disagree": (
        lambda: made.read(across=slips.across(slip_mm=25.4)),
        lambda: made.read(across=slips.across()),
    ),
    "radii-off-girth": (
        lambda: made.read(radii=slips.dial(zero_mm=2.0)),
        lambda: made.read(radii=slips.dial()),
    ),
    "dial-turn-missed": (
        lambda: made.read(radii=slips.dial(at=3, off_mm=1.0)),
        lambda: made.read(radii=slips.dial(at=3, off_mm=0.3)),
    ),
    "station-missed": (
        lambda: made.read(radii=slips.dial(missed=5), across=slips.across()),
        lambda: made.read(radii=slips.dial(), across=slips.across()),
    ),
    "stations-odd": (
        lambda: made.read(edge=made.rim(*[0.0, -0.1, -0.2, -0.1, 0.0, -0.1, -0.1])),
        lambda: made.read(edge=saddle(0.1)),
    ),
    "reading-astray": (
        lambda: made.read(edge=slips.edge(astray_mm=1.5)),
        lambda: made.read(edge=slips.edge(astray_mm=0.1)),
    ),
    "depths-disagree": (lambda: slips.depths(slip_mm=10.0), slips.depths),
    "heights-lean": (
        lambda: slips.leaning(depth_leans_mm=-1.0),
        lambda: slips.leaning(depth_leans_mm=0.0),
    ),
    "readings-cut-away": (
        lambda: made.read(across=made.oval(1.0), truing=Truing(batter=Removal(30.0))),
        lambda: made.read(across=made.oval(1.0), truing=Truing(batter=Removal(3.0))),
    ),
    "edge-not-flat": (lambda: made.read(edge=saddle(0.4)), lambda: made.read(edge=saddle(0.1))),
    "edge-flat": (lambda: made.read(edge=saddle(0.19)), lambda: made.read(edge=saddle(0.1))),
    "ring-narrow": (lambda: made.trued_ring(4.0), lambda: made.trued_ring(8.0)),
    "head-shut-out": (
        lambda: made.read(across=made.oval(0.0), head_mm=0.8, finish=WRAP),
        lambda: made.read(across=made.oval(0.0), head_mm=0.8),
    ),
    "head-does-not-go": (
        lambda: made.read(across=made.oval(1.0), head_mm=-0.5),
        lambda: made.read(across=made.oval(1.0), head_mm=3.0),
    ),
    "head-tight": (
        lambda: made.read(across=made.oval(1.0), head_mm=0.3),
        lambda: made.read(across=made.oval(1.0), head_mm=3.0),
    ),
    "head-wants-round": (
        lambda: made.read(across=made.oval(2.0), head_mm=2.5),
        lambda: made.read(across=made.oval(0.2), head_mm=1.6),
    ),
    "hoop-too-small": (lambda: made.read(head=RIMMED), lambda: made.read(head=LARGER_HOOP)),
    "fit-not-known": (
        lambda: made.read(head_mm=3.0),
        lambda: made.read(across=made.oval(1.0), head_mm=3.0),
    ),
    "choice-gone": (lambda: chosen(again=False), lambda: chosen(again=True)),
}

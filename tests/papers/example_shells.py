"""Invented shells that the tests of papers draw; makers and figures are made up."""

from __future__ import annotations

from counterhoop.development.flat import Development, Ring
from counterhoop.development.outline import Outline, disc, rounded
from counterhoop.development.place import Place
from counterhoop.development.shape import Oval, Rectangle, Round, Slot
from counterhoop.development.surface import Skin, Surface
from counterhoop.development.truing import Truing
from counterhoop.fittings.entry import Fitting, Kind, PatternHole
from counterhoop.papers.drawing.view import View
from counterhoop.scheme.layout import FittingPlan, Layout
from counterhoop.scheme.plan import Criteria, Scheme
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.drum import (
    Bed,
    Circumference,
    Drum,
    Inside,
    Mark,
    PlySeam,
    Seam,
)
from counterhoop.shell.hole import Hole, Origin
from counterhoop.shell.wish import FinishPlan

INVENTED = "invented for the tests"
LONG = Fitting(
    name="Long tube", kind=Kind.LONG_LUG, source=INVENTED, serves=("batter", "resonant"),
    base=rounded(24.0, 126.0, corner_mm=12.0),
    holes=(PatternHole(right_mm=0, down_mm=-38.1, hole_mm=6.5, screw_mm=5.5, called="upper"),),
)  # fmt: skip
SHORT = Fitting(
    name="Short lug", kind=Kind.LUG, source=INVENTED, serves=("batter",),
    base=rounded(22.0, 52.0, corner_mm=11.0),
)  # fmt: skip
BRACKET = Fitting(
    name="Block", kind=Kind.BRACKET, source=INVENTED, base=rounded(50.8, 38.1, corner_mm=4.0)
)
BADGE = Fitting(name="Round badge", kind=Kind.BADGE, source=INVENTED, base=disc(32.0))
COVER = Fitting(
    name="Plate", kind=Kind.COVER_PLATE, source=INVENTED, base=rounded(18.0, 70.0, corner_mm=2.0)
)


def small_tom(*, around_mm: float = 791.0, depth_mm: float = 178.0) -> Layout:
    """Five long lugs through old holes; a bracket stays; the first lug lies across the datum."""
    surface = Surface(skin=Skin.OLD, circumference_mm=around_mm)
    middle = depth_mm / 2
    holes: list[HolePlan] = []
    found: list[Hole] = []
    fittings: list[FittingPlan] = []

    def add(verdict: Verdict, deg: float, down: float, **more: object) -> None:
        size = more.pop("size", 6.0)
        old = more.pop("old", None if verdict is Verdict.DRILL else Round(size))
        new = more.pop("new", None if verdict is Verdict.PLUG else Round(size))
        place = Place(deg, down)
        holes.append(
            HolePlan(number=len(holes) + 1, verdict=verdict, place=place, old=old, new=new, **more)
        )
        if old is not None:
            found.append(Hole(number=len(holes), place=place, shape=old, origin=Origin.FACTORY))

    for lug in range(5):
        deg = 2.0 + 72.0 * lug
        add(Verdict.PLUG, deg, middle - 51)
        add(Verdict.PLUG_AND_DRILL, deg, middle - 38.1, old=None, size=6.5, through=(3 + 4 * lug,))
        add(Verdict.PLUG, deg, middle - 34)
        add(Verdict.DRILL, deg, middle + 38.1, size=6.5)
        fittings.append(
            FittingPlan(
                label=f"long lug {lug + 1}", fitting=LONG, place=Place(deg, middle), status="new",
                row="both",
            )
        )  # fmt: skip
        fittings.append(
            FittingPlan(
                label=f"batter lug {lug + 1}", fitting=SHORT, place=Place(deg, middle - 42.5),
                status="goes", row="batter",
            )
        )  # fmt: skip
    for right in (-19.0, 19.0):
        for down in (-12.0, 12.0):
            add(Verdict.KEEP, 37.0 + 360 * right / around_mm, middle + 23 + down)
    fittings.append(
        FittingPlan(
            label="bracket", fitting=BRACKET, place=Place(37.0, middle + 23), status="stays"
        )
    )
    fittings.append(
        FittingPlan(label="badge", fitting=BADGE, place=Place(110.0, middle - 30), status="stays")
    )
    add(Verdict.LEAVE_OPEN, 125.0, middle + 20, size=12.7, serves="vent")
    add(Verdict.ENLARGE, 181.0, middle - 25, old=Round(5.0), new=Round(7.0))
    add(
        Verdict.SLOT, 200.0, middle + 30, old=Round(6.0), new=Slot(6.0, 9.0),
        new_place=Place(200.0 + 360 * 1.5 / around_mm, middle + 30),
    )  # fmt: skip
    add(Verdict.PLUGGED_ALREADY, 215.0, middle - 25, size=8.0)
    add(
        Verdict.PLUG, 230.0, middle - 25, plug_mm=15.0,
        plug_place=Place(230.0 + 360 * 2.0 / around_mm, middle - 25),
    )  # fmt: skip
    add(Verdict.PLUG, 230.0, middle + 23, old=Oval(6.0, 8.5, lies="down"))
    add(Verdict.PLUG, 245.0, middle + 40, old=Rectangle(22.0, 9.0))
    marks = tuple(
        Mark(
            kind="shadow", place=Place(2.0 + 72.0 * lug, middle - 42.5), outline=SHORT.base,
            of=f"batter lug {lug + 1}",
        )
        for lug in range(5)
        if isinstance(SHORT.base, Outline)
    )  # fmt: skip
    drum = Drum(
        key="small tom",
        circumference=Circumference(skin=Skin.OLD, mean_mm=around_mm),
        wall_mm=5.0,
        depth_mm=depth_mm,
        rings=(Ring(end="batter", wide_mm=30.0, thick_mm=4.0),),
        seam=Seam(from_deg=306.0, to_deg=318.0),
        lines=(
            PlySeam(kind="crack", along_deg=276.0, from_mm=0.0, to_mm=45.0),
            PlySeam(kind="ply seam", along_deg=170.0, from_mm=0.0, to_mm=depth_mm),
        ),
        beds=(Bed(along_deg=250.0, wide_mm=60.0, deep_mm=3.0),),
        inside=(Inside(what="felt damper", place=Place(260.0, middle), outline=disc(30.0)),),
        holes=tuple(found),
        marks=marks,
    )
    return Layout(
        drum=drum,
        flat=Development(
            surface=surface, depth_mm=depth_mm, wall_mm=5.5, rings=drum.rings, after_truing=False
        ),
        truing=Truing(),
        finish=FinishPlan(),
        holes=tuple(holes),
        fittings=tuple(fittings),
        marks=marks,
    )


def scheme_of(layout: Layout, *, approved: str = "") -> Scheme:
    """Wrap a layout as the first scheme of its drum."""
    return Scheme(
        drum=layout.drum.key, number=1, pattern="long lugs", title="Long lugs on the middle",
        layout=layout, findings=(), parts=(), work=(), code="7K2M", approved=approved,
        criteria=Criteria(cut=10, shows_mm2=60.0, shows_inside_mm2=0.0, money_minor=0, margin_mm=1),
    )  # fmt: skip


__all__ = ["View", "scheme_of", "small_tom"]

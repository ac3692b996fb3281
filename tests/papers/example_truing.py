"""Invented drums whose edges are trued by their readings; figures are made up."""

from __future__ import annotations

import math
from dataclasses import replace

from example_jobs import FIGURES, job_of
from example_shells import scheme_of, small_tom

from counterhoop.development.flat import Development, Ring
from counterhoop.development.rim import RimPlane
from counterhoop.development.surface import Skin, Surface
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.scheme.budget import Budget
from counterhoop.scheme.layout import FittingPlan, Layout
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.price import work_of
from counterhoop.shell.drum import Bed, Circumference, Drum
from counterhoop.shell.job import Job
from counterhoop.shell.readings import EndReadings, HeadRead, ProfileRead, Readings, RimReadings
from counterhoop.shell.wish import FinishPlan
from counterhoop.survey.flat_heights import EdgeHeights
from counterhoop.survey.truing_plan import TruingPlan, plan_truing

EIGHT = (0.0, 0.1, 0.35, 0.25, 0.0, 0.05, 0.2, 0.1)
SIXTEEN = (0.0, 0.1, 0.2, 0.3, 0.25, 0.2, 0.1, 0.0, 0.05, 0.15, 0.3, 0.35, 0.3, 0.15, 0.05, 0.0)
TINY = (0.0, 0.0, 0.05, 0.1, 0.05, 0.0, 0.0, 0.05)
LUG = Fitting(name="Short lug", kind=Kind.LUG, source="invented for the tests")
ROUND = ProfileRead(cut="round-over and 45 inside", apex_mm=3.0, inner_deg=45.0, outer_mm=3.0)


BUDGETS = (
    Budget(
        end="batter", most_mm=3.5, stopped_by="hole 9 to the edge",
        limits=(("hole 9 to the edge", 3.5), ("the ring", 24.0)),
    ),
    Budget(
        end="resonant", most_mm=6.0, stopped_by="the rods would bottom",
        limits=(("the rods would bottom", 6.0),),
    ),
)  # fmt: skip


def rim(gaps: tuple[float, ...]) -> RimReadings:
    """An edge as a feeler reads it on the plate, at equal stations."""
    heights = EdgeHeights.from_gaps(gaps)
    return RimReadings(
        along_deg=heights.along_deg, value_mm=heights.height_mm, instrument="feeler gauges",
        resolution_mm=0.05,
    )  # fmt: skip


def trued(
    drum: Drum, layout: Layout, *, batter: tuple[float, ...] = (), resonant: tuple[float, ...] = (),
    profile: ProfileRead | None = ROUND, least: str = "most", wedge_mm: float = 0.0,
) -> tuple[Job, Scheme, TruingPlan]:  # fmt: skip
    """Return job, scheme and plan of a drum with these gaps under its edges.

    With ``wedge_mm`` the drum is so much deeper at the datum than opposite, and the edges end
    parallel.
    """
    read = {}
    for end, gaps in (("batter", batter), ("resonant", resonant)):
        bare = drum.circumference.mean_mm / math.pi - 2.0 * drum.finish.thickness_mm
        read[end] = EndReadings(
            end=end, edge=rim(gaps) if gaps else None, profile=profile,
            head=HeadRead(collar_mm=bare + 3.0),
        )  # fmt: skip
    drum = replace(drum, readings=Readings(**read), depth_cos_mm=wedge_mm / 2.0)
    plan = plan_truing(
        batter=EdgeHeights.from_gaps(batter) if batter else None,
        resonant=EdgeHeights.from_gaps(resonant) if resonant else None,
        least=least,
        parallel=wedge_mm > 0.0,
        depth=RimPlane(mean_mm=drum.depth_mm, cos_mm=wedge_mm / 2.0, sin_mm=0.0),
    )
    ends = (plan.truing.batter, plan.truing.resonant)
    flat = replace(
        layout.flat,
        depth_mm=drum.depth_mm - sum(r.mean_mm for r in ends),
        depth_cos_mm=drum.depth_cos_mm - sum(r.cos_mm for r in ends),
        depth_sin_mm=-sum(r.sin_mm for r in ends),
        after_truing=True,
    )
    holes = tuple(
        replace(
            h, place=plan.truing.moved(h.place),
            new_place=None if h.new_place is None else plan.truing.moved(h.new_place),
        )
        for h in layout.holes
    )  # fmt: skip
    layout = replace(
        layout,
        drum=drum,
        flat=flat,
        holes=holes,
        truing=plan.truing,
        finish=FinishPlan(truing=plan.truing),
    )
    scheme = replace(scheme_of(layout), work=work_of(layout, extra=(), figures=FIGURES))
    return job_of(layout), scheme, plan


def tom(gaps: tuple[float, ...] = EIGHT, **more: object) -> tuple[Job, Scheme, TruingPlan]:
    """A 12 in tom, its batter edge read at eight places."""
    layout = small_tom(around_mm=950.65, depth_mm=203.0)
    drum = replace(layout.drum, beds=(), plies=6)
    return trued(drum, layout, batter=gaps, **more)


def snare() -> tuple[Job, Scheme, TruingPlan]:
    """A 14 in snare drum of 8 lugs with beds, both edges read at sixteen places."""
    around = math.pi * 354.0
    layout = small_tom(around_mm=around, depth_mm=141.0)
    rings = tuple(Ring(end=end, wide_mm=32.0, thick_mm=4.0) for end in ("batter", "resonant"))
    drum = replace(
        layout.drum, key="snare drum", plies=3, rings=rings,
        circumference=Circumference(skin=Skin.OLD, mean_mm=around),
        beds=(
            Bed(along_deg=22.5, wide_mm=180.0, deep_mm=3.0, flat_mm=60.0),
            Bed(along_deg=202.5, wide_mm=180.0, deep_mm=3.0, flat_mm=60.0),
        ),
    )  # fmt: skip
    lugs = tuple(
        FittingPlan(label=f"{head} lug {n + 1}", fitting=LUG, row=head, turned_deg=turn,
                    place=replace(layout.fittings[0].place, along_deg=45.0 * n, down_mm=down))
        for head, down, turn in (("batter", 45.0, 0.0), ("resonant", 96.0, 180.0))
        for n in range(8)
    )  # fmt: skip
    layout = replace(
        layout, fittings=lugs,
        flat=Development(
            surface=Surface(skin=Skin.OLD, circumference_mm=around), depth_mm=141.0, wall_mm=5.5,
            rings=rings,
        ),
    )  # fmt: skip
    return trued(drum, layout, batter=SIXTEEN, resonant=tuple(reversed(SIXTEEN)))

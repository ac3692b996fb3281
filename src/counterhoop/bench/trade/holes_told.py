"""The holes of a drum that a buyer must be told of: what the factory did not make, or may not."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from counterhoop.job.trade.facts import ExtraHole, HoleState
from counterhoop.papers.client_words import PLUGGED_BEFORE
from counterhoop.quantities.print_length import print_mm
from counterhoop.scheme.layout import FittingPlan, Layout
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.hole import Hole, Origin

AT_LUG_DEG = 3.0
"""A hole no further along than this from a lug is "at" it. Common practice, no source."""


def extra_holes(layout: Layout) -> tuple[ExtraHole, ...]:
    """Return the extra holes of a drum as it stands in a layout, by their numbers.

    Holes that the workshop made are extra too; one that a base, plate or washer covers, or that a
    fitting stands on, is "covered".

    Parameters
    ----------
    layout : Layout
        As found, or as left.
    """
    found = {hole.number: hole for hole in layout.drum.holes}
    lugs = layout.lugs("batter") or layout.lugs("resonant")
    told = (_told(plan, found.get(plan.number), lugs) for plan in layout.holes)
    return tuple(sorted((one for one in told if one), key=lambda one: one.number))


def _told(plan: HolePlan, hole: Hole | None, lugs: Sequence[FittingPlan]) -> ExtraHole | None:
    origin = hole.origin if hole else Origin.EXTRA
    shape = plan.new or plan.old
    if origin is Origin.FACTORY or shape is None:
        return None
    place = plan.new_place or plan.place
    where = [
        hole.purpose if hole else plan.serves or plan.of,
        "" if hole else "made by us",
        between_lugs(place.along_deg, [lug.place.along_deg for lug in lugs]),
        f"{print_mm(place.down_mm)} below the batter edge",
    ]
    return ExtraHole(
        number=plan.number,
        across_mm=max(shape.size_mm),
        where=", ".join(filter(None, where)),
        state=_state(plan, hole),
        sure=origin is Origin.EXTRA,
    )


def _state(plan: HolePlan, hole: Hole | None) -> HoleState:
    if plan.verdict in (Verdict.PLUG, Verdict.PLUGGED_ALREADY):
        return "plugged"
    if hole is not None and hole.condition in PLUGGED_BEFORE and not plan.verdict.cuts:
        return "plugged"
    return "covered" if plan.covered or plan.of else "open"


def between_lugs(along_deg: float, lugs_deg: Iterable[float]) -> str:
    """Say where a place lies among the lugs, which are numbered along.

    Examples
    --------
    >>> between_lugs(100.0, [0.0, 60.0, 120.0]), between_lugs(359.0, [0.0, 60.0, 120.0])
    ('between lugs 2 and 3', 'at lug 1')
    >>> between_lugs(200.0, [0.0, 60.0, 120.0]), between_lugs(200.0, [])
    ('between lugs 3 and 1', '')
    """
    at = [deg % 360.0 for deg in lugs_deg]
    if not at:
        return ""
    apart = [min((along_deg - deg) % 360.0, (deg - along_deg) % 360.0) for deg in at]
    nearest = min(range(len(at)), key=lambda lug: apart[lug])
    if apart[nearest] <= AT_LUG_DEG:
        return f"at lug {nearest + 1}"
    if len(at) == 1:
        return ""
    before = min(range(len(at)), key=lambda lug: (along_deg - at[lug]) % 360.0)
    after = min(range(len(at)), key=lambda lug: (at[lug] - along_deg) % 360.0)
    return f"between lugs {before + 1} and {after + 1}"

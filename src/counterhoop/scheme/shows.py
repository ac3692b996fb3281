"""What shows afterwards: bare plugs, open holes and shadow that nothing covers."""

from __future__ import annotations

from counterhoop.development.cover import uncovered_mm2
from counterhoop.development.outline import Outline
from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape, Round
from counterhoop.scheme.draft import is_vent
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import HolePlan, Verdict

Laid = tuple[Outline | HoleShape, Place]
CLOSED = (Verdict.PLUG, Verdict.PLUGGED_ALREADY)


def shown_outside_mm2(layout: Layout) -> float:
    """Area of bare plugs, open holes and shadows outside, in square millimetres.

    Plugs disappear under paint or a new wrap; so do shadows. The vent does not count.
    """
    targets = [bare for hole in layout.holes for bare in _outside(hole, layout)]
    targets += [(mark.outline, mark.place) for mark in layout.marks]
    covers: list[Laid] = [(f.outline, f.place) for f in layout.standing if f.outline is not None]
    if not targets:
        return 0.0
    return uncovered_mm2(targets, covers, surface=layout.flat.surface)


def shown_inside_mm2(layout: Layout) -> float:
    """Area of plugs seen inside the shell, where no new hole's washer stands on them."""
    drilled = {n for hole in layout.holes for n in hole.through}
    targets: list[Laid] = [
        (Round(hole.plug_mm or hole.old.around_mm), hole.plug_place or hole.place)
        for hole in layout.holes
        if hole.verdict in CLOSED and hole.old is not None and hole.number not in drilled
    ]
    return uncovered_mm2(targets, [], surface=layout.flat.surface) if targets else 0.0


def _outside(hole: HolePlan, layout: Layout) -> list[Laid]:
    if hole.verdict in CLOSED and hole.old is not None:
        if layout.finish.hides_plugs:
            return []
        return [(Round(hole.plug_mm or hole.old.around_mm), hole.plug_place or hole.place)]
    if (
        hole.verdict is Verdict.LEAVE_OPEN
        and hole.old is not None
        and not is_vent(layout.drum.hole(hole.number))
    ):
        return [(hole.old, hole.place)]
    return []

"""Cut a shell down: depths at which no hole is cut through or left too near the edge."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from counterhoop.development.flat import End
from counterhoop.development.truing import Removal, Truing
from counterhoop.errors import BadInput
from counterhoop.scheme.draft import Draft
from counterhoop.scheme.phrases import listed
from counterhoop.scheme.wishes.cut_down import cut_down, row_again, without_offcut
from counterhoop.shell.drum import Drum
from counterhoop.shell.hole import Hole
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.shell.wish import FinishPlan, Shorten

STEP_MM = 0.5
LEAST_MM = 60.0  # common practice, no source: hardly a drum below that


@dataclass(frozen=True, slots=True, kw_only=True)
class Depth:
    """A depth a shell may be cut to, with what comes off and why it is not the one wished.

    ``cut`` leaves an edge that is parallel to the other one.
    """

    depth_mm: float
    cut: Removal
    end: End
    says: str


def depths_for(
    drum: Drum,
    *,
    wished_mm: float,
    free_mm: float,
    end: End,
    rules: ShopRules,
    truing: Truing = Truing(),
) -> tuple[Depth, ...]:
    """Return the nearest depths to the one wished, above and below, that spare every hole.

    A hole is spared when it goes whole with the offcut or keeps ``rules.edge_mm`` of wood to the
    new edge. Depths other than the one wished are whole or half millimetres. What truing takes
    off the other end is off the depth already; at the cut end the cut takes its place. Where the
    edges are not parallel the cut takes more off where the shell is deeper.

    Raises
    ------
    BadInput
        When the depth wished is not less than the shell's, or no depth within reach spares them.
    """
    other = truing.batter if end == "resonant" else truing.resonant
    # What would come off if nothing were left; the cut is that less the depth wished.
    whole = Removal(
        mean_mm=drum.depth_mm - other.mean_mm,
        cos_mm=drum.depth_cos_mm - other.cos_mm,
        sin_mm=drum.depth_sin_mm - other.sin_mm,
    )
    # Where it is least deep: a cut that is parallel to the other edge must leave that behind too.
    whole_mm = whole.mean_mm - math.hypot(whole.cos_mm, whole.sin_mm)
    if not 0.0 < wished_mm < whole_mm:
        raise BadInput(
            "a shell can only be made shorter than it is",
            where=f"drums.{drum.key}.wish.depth",
            given=f"{wished_mm:.1f} mm",
            wanted=f"less than the {whole_mm:.1f} mm it has",
        )
    barred = [_barred(hole, drum, whole, end=end, rules=rules) for hole in drum.holes]
    fit = [
        depth
        for depth in _steps(wished_mm, free_mm)
        if 0.0 < depth < whole_mm and not any(low < depth < high for low, high in barred)
    ]
    if not fit:
        raise BadInput(
            "every depth within reach would cut a hole or leave one too near the edge",
            where=f"drums.{drum.key}.wish.depth",
            given=f"{wished_mm:.1f} mm, {free_mm:.1f} either way",
            wanted="another depth, or more freedom",
            step=_nearest(barred, wished_mm, whole_mm=whole_mm),
        )
    through = [
        h.number
        for h, (low, high) in zip(drum.holes, barred, strict=True)
        if low < wished_mm < high
    ]
    deeper = min((d for d in fit if d >= wished_mm), default=None)
    shallower = max((d for d in fit if d < wished_mm), default=None)
    if deeper == wished_mm:
        shallower = None
    why = _why(through, wished_mm)
    return tuple(
        Depth(
            depth_mm=d,
            cut=replace(whole, mean_mm=whole.mean_mm - d),
            end=end,
            says=why,
        )
        for d in (deeper, shallower)
        if d is not None
    )


def _nearest(barred: Sequence[tuple[float, float]], wished_mm: float, *, whole_mm: float) -> str:
    spared = [
        depth
        for depth in _steps(wished_mm, whole_mm)
        if LEAST_MM <= depth < whole_mm and not any(low < depth < high for low, high in barred)
    ]
    if not spared:
        return "No depth spares every hole: take a fitting out first, or cut the other end."
    nearest = min(spared, key=lambda depth: abs(depth - wished_mm))
    return f"The nearest that spares every hole is {nearest:.1f} mm."


def shortened(finish: FinishPlan, depth: Depth) -> FinishPlan:
    """Return the finish plan with the cut in place of what was to be trued off that end.

    That end is no longer trued by its readings either: they go with the offcut.
    """
    truing = finish.truing
    new = (
        Truing(batter=depth.cut, resonant=truing.resonant)
        if depth.end == "batter"
        else Truing(batter=truing.batter, resonant=depth.cut)
    )
    flatten = finish.flatten
    if flatten is not None:
        ends = tuple(end for end in flatten.ends if end != depth.end)
        flatten = replace(flatten, ends=ends) if ends else None
    return replace(finish, truing=new, flatten=flatten)


def shorten(draft: Draft, wish: Shorten, *, rules: ShopRules) -> list[Draft]:
    """Return drafts of the shell cut down, with the row at the cut end put back where it had one.

    The depth itself is in the finish plan that the draft's ground was made with.
    """
    depth = draft.ground.flat.depth_mm
    cut = cut_down(draft, end=wish.end).named(pattern="shorten", called=f"{depth:.1f} mm deep")
    if not any(plan.row == wish.end for plan in draft.standing):
        return [without_offcut(cut)]
    return [without_offcut(after) for after in row_again(cut, end=wish.end, rules=rules)]


def _steps(wished_mm: float, free_mm: float) -> list[float]:
    """The depth wished, and every half millimetre of the rule within reach of it."""
    first = math.ceil((wished_mm - free_mm) / STEP_MM - 1e-9)
    last = math.floor((wished_mm + free_mm) / STEP_MM + 1e-9)
    return sorted({wished_mm, *(STEP_MM * step for step in range(first, last + 1))})


def _barred(
    hole: Hole, drum: Drum, whole: Removal, *, end: End, rules: ShopRules
) -> tuple[float, float]:
    """Open interval of depths whose cut runs through a hole or leaves it too near the new edge.

    A hole that goes with the offcut must clear the cut by the doubt of both readings, or a slip
    of half a millimetre nicks the edge.
    """
    along, down = hole.place.along_deg, hole.place.down_mm
    from_end = down if end == "batter" else drum.depth_at_mm(along) - down
    half = hole.shape.size_mm[1] / 2.0
    doubt = hole.doubt_mm + drum.depth_doubt_mm
    from_other = whole.at_mm(along) - from_end
    return (from_other - half - doubt, from_other + half + rules.edge_mm)


def _why(through: list[int], wished_mm: float) -> str:
    if not through:
        return ""
    numbers = [str(n) for n in through]
    holes = f"{'hole' if len(through) == 1 else 'holes'} {listed(numbers)}"
    return (
        f"At {wished_mm:.1f} mm the new edge would run through {holes} or come too near"
        f" {'it' if len(through) == 1 else 'them'}, so the nearest depths that spare"
        f" {'it' if len(through) == 1 else 'them'} are shown."
    )

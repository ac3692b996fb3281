"""A shell after the cut: what stood on the offcut goes, and the cut end gets its row again."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.development.flat import Development, End
from counterhoop.development.place import Place
from counterhoop.fittings.entry import Fitting
from counterhoop.scheme.draft import Draft
from counterhoop.scheme.layout import FittingPlan
from counterhoop.scheme.level import Level
from counterhoop.scheme.phrases import listed
from counterhoop.scheme.row import RowWanted, row_turn_deg, rows_tried
from counterhoop.shell.shop_rules import ShopRules


def cut_down(draft: Draft, *, end: End) -> Draft:
    """Add the work at the cut end: the cut, an edge, and a ring where one went with the offcut."""
    work = (*draft.work, ("cut an end off", 1), ("make an edge", 1))
    ground = draft.ground
    if end == "resonant" and ground.drum.beds:
        work = (*work, ("cut a snare bed", len(ground.drum.beds)))
    had = any(ring.end == end for ring in ground.drum.rings)
    if not had or any(ring.end == end for ring in ground.flat.rings):
        return replace(draft, work=work)
    return replace(draft, work=(*work, ("glue in a ring", 1))).saying(
        f"The ring at the {end} end goes with the offcut; the price holds the hours for a new one,"
        " not its wood."
    )


def row_again(
    draft: Draft,
    *,
    end: End,
    entry: Fitting | None = None,
    count: int | None = None,
    rules: ShopRules,
) -> list[Draft]:
    """Put the row of the cut end back, the other row's heights measured from the new edge.

    Without another row it goes as far from the new edge as it stood from the old one.
    """
    kept: End = "batter" if end == "resonant" else "resonant"
    other = tuple(f for f in draft.standing if f.row == kept)
    own = tuple(f for f in draft.standing if f.row == end)
    if not other and not own:
        return [draft]
    bare = draft.without(*(f.label for f in own))
    model, flat = other or own, draft.ground.flat
    if other:
        heights = [_from_end_mm(f.place, flat, end=kept) for f in other]
    else:
        cut = draft.ground.truing
        off = cut.batter if end == "batter" else cut.resonant
        heights = [_from_end_mm(f.place, flat, end=end) + off.at_mm(f.place.along_deg) for f in own]
    height = sum(heights) / len(heights)
    down = height if end == "batter" else flat.depth_mm - height
    row = RowWanted(
        fitting=entry or model[0].fitting,
        count=count or len(model),
        head=end,
        called=f"{end} lug",
        first=Level(flat=flat, row=end).place(row_turn_deg(model), down),
        turned_deg=180.0 if end == "resonant" else 0.0,
        proper="the other row's height" if other else "the height it had",
    )
    return rows_tried(bare, row, rules=rules)


def _from_end_mm(place: Place, flat: Development, *, end: End) -> float:
    return flat.from_end_mm(place.down_mm, end=end, along_deg=place.along_deg)


def without_offcut(draft: Draft) -> Draft:
    """Take off whatever still hangs over the cut, and say so."""
    over = [plan.label for plan in draft.standing if plan.status == "stays" and hangs(plan, draft)]
    if not over:
        return draft
    names = listed([f"the {label}" for label in over])
    verb = "comes" if len(over) == 1 else "come"
    says = f"{names} {verb} off: the cut goes through {'it' if len(over) == 1 else 'them'}."
    return draft.without(*over).saying(f"{says[0].upper()}{says[1:]}")


def hangs(plan: FittingPlan, draft: Draft) -> bool:
    """Whether a fitting has lost a hole to the offcut, or its base reaches over an edge."""
    lost = {hole.number for hole in draft.ground.cut_away}
    if lost & set(plan.holes):
        return True
    flat, place = draft.ground.flat, plan.place
    points = ((0.0, 0.0),) if plan.outline is None else plan.outline.points
    return any(
        not 0.0
        <= place.down_mm + down
        <= flat.depth_at_mm(place.along_deg + right * 360.0 / flat.surface.circumference_mm)
        for right, down in points
    )

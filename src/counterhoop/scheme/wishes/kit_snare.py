"""A deep marching snare becomes a kit snare: after the cut, its lower row, strainer and butt."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.development.flat import End
from counterhoop.development.place import Place
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.scheme.draft import Draft
from counterhoop.scheme.layout import FittingPlan
from counterhoop.scheme.placing import place_row
from counterhoop.scheme.puzzle import Reach
from counterhoop.scheme.row import RowWanted
from counterhoop.scheme.wishes.cut_down import cut_down, hangs, row_again, without_offcut
from counterhoop.scheme.wishes.other_lugs import replaced_row
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.shell.wish import KitSnare


def kit_snare(draft: Draft, wish: KitSnare, *, book: Book, rules: ShopRules) -> list[Draft]:
    """Return drafts with rows that suit the new depth, strainer and butt opposite each other."""
    depth = draft.ground.flat.depth_mm
    cut = cut_down(draft, end=wish.end)
    bedded = any(name == "cut a snare bed" for name, _ in cut.work)
    beds = cut if bedded else replace(cut, work=(*cut.work, ("cut a snare bed", 2)))
    drafts = [beds.named(pattern="kit snare", called=f"{depth:.1f} mm deep")]
    entry = book.find(wish.lug, where="wish.lug") if wish.lug else None
    kept: End = "batter" if wish.end == "resonant" else "resonant"
    if entry is not None and any(f.row == kept for f in draft.standing):
        drafts = [
            after
            for before in drafts
            for after in replaced_row(before, entry, kept, count=wish.count, rules=rules)
        ]
    drafts = [
        after
        for before in drafts
        for after in row_again(before, end=wish.end, entry=entry, count=wish.count, rules=rules)
    ]
    for name, role in ((wish.strainer, Kind.STRAINER), (wish.butt, Kind.BUTT)):
        part = book.find(name, where=f"wish.{role}") if name else _own(draft, role)
        if part is not None:
            drafts = [_snare_part(before, part, role, rules=rules) for before in drafts]
    return [without_offcut(after) for after in drafts]


def _own(draft: Draft, role: Kind) -> Fitting | None:
    """The drum's own part, where the cut leaves it without a hole or without shell under it."""
    own = (plan for plan in draft.standing if plan.fitting.kind is role)
    return next((plan.fitting for plan in own if hangs(plan, draft)), None)


def _snare_part(draft: Draft, part: Fitting, role: Kind, *, rules: ShopRules) -> Draft:
    """Strainer mid-gap (nearest to the old one's line); butt opposite the strainer."""
    old = [f for f in draft.standing if f.fitting.kind is role]
    bare = draft.without(*(f.label for f in old))
    strainer = next((f for f in bare.standing if f.fitting.kind is Kind.STRAINER), None)
    lugs = sorted(f.place.along_deg for f in bare.standing if f.row in ("resonant", "both"))
    if role is Kind.BUTT and strainer is not None:
        along = strainer.place.along_deg + 180.0
    else:
        along = _mid_gap(lugs, near_deg=old[0].place.along_deg if old else 0.0)
    single = RowWanted(
        fitting=part,
        count=1,
        head="",
        called=bare.unused(str(role)),
        first=Place(along, _height(part, old, bare, along_deg=along)),
    )
    reach = Reach(turn_mm=(0.0, 0.0), down_mm=(-rules.look_further_mm, rules.look_further_mm))
    return place_row(bare, single, reach=reach, rules=rules).draft


def _mid_gap(lugs: list[float], *, near_deg: float) -> float:
    if not lugs:
        return near_deg
    gaps = [
        (a + ((b - a) % 360.0 or 360.0) / 2.0) % 360.0
        for a, b in zip(lugs, [*lugs[1:], lugs[0]], strict=True)
    ]
    return min(gaps, key=lambda g: (abs((g - near_deg + 180.0) % 360.0 - 180.0), g))


def _height(part: Fitting, old: list[FittingPlan], draft: Draft, *, along_deg: float) -> float:
    """Where the old one was, when that is still shell; else on the middle of the depth."""
    flat = draft.ground.flat
    if old and 0.0 < old[0].place.down_mm < flat.depth_at_mm(old[0].place.along_deg):
        return old[0].place.down_mm
    return flat.depth_at_mm(along_deg) / 2.0 - part.middle_down_mm

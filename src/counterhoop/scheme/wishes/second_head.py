"""A second head on a single-headed drum: four patterns."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book
from counterhoop.fittings.choose import long_lugs_for
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.scheme.draft import Draft
from counterhoop.scheme.layout import FittingPlan, HoopPlan
from counterhoop.scheme.level import Level
from counterhoop.scheme.placing import place_row
from counterhoop.scheme.puzzle import Reach
from counterhoop.scheme.row import RowWanted, row_turn_deg, rows_tried
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.shell.wish import Pattern, SecondHead

CLEAR_OF_A_MISTAKE_DEG = 5.0  # nearer to in line or to half than this looks like a slip


def second_head(draft: Draft, wish: SecondHead, *, book: Book, rules: ShopRules) -> list[Draft]:
    """Return drafts for each pattern wished, in the order of the patterns.

    The turned pattern is worked out only where neither in line nor half a spacing along is
    clear, since a row a few degrees off looks like a mistake.
    """
    lugs = _batter_lugs(draft)
    ready = _ends_ready(draft, wish, book=book)
    drafts: list[Draft] = []
    if Pattern.LONG_LUGS in wish.patterns:
        for entry in _long_lugs(draft, wish, lugs, book=book):
            drafts += _long_row(ready, entry, lugs, rules=rules)
    second = _second_lug(wish, lugs, book=book)
    blocked: list[bool] = []
    for pattern in (Pattern.IN_LINE, Pattern.HALF_ALONG):
        if second is not None and pattern in wish.patterns:
            row = _second_row(ready, second, lugs, pattern)
            blocked.append(bool(place_row(ready, row, reach=Reach(), rules=rules).fouls))
            drafts += rows_tried(ready.named(pattern=pattern), row, rules=rules)
    if second is not None and Pattern.TURNED in wish.patterns and all(blocked):
        drafts += _turned(ready, second, lugs, rules=rules)
    return drafts


def _batter_lugs(draft: Draft) -> tuple[FittingPlan, ...]:
    lugs = tuple(f for f in draft.standing if f.row == "batter")
    if len(lugs) < 2:
        raise BadInput(
            "a second head needs the batter row to go by",
            where=f"drums.{draft.ground.drum.key}.rows",
            given=f"{len(lugs)} batter lugs",
            wanted="the batter row entered as a row",
        )
    if any(f.row == "resonant" for f in draft.standing):
        raise BadInput(
            "this drum has lugs for its second head already",
            where=f"drums.{draft.ground.drum.key}.wish",
            given="second head",
            wanted='"other lugs" for other ones',
        )
    return lugs


def _ends_ready(draft: Draft, wish: SecondHead, *, book: Book) -> Draft:
    """Add the new head's hoop, and the work at an open end that has no edge.

    A hoop that the survey names for the open end is there and need not be bought.
    """
    on = {plan.head: plan for plan in draft.hoops}
    hoop = book.find(wish.hoop, where="wish.hoop") if wish.hoop else None
    if hoop is None and "resonant" not in on and "batter" in on:
        hoop = on["batter"].hoop
    hoops = draft.hoops
    if hoop is not None:
        others = (plan for plan in draft.hoops if plan.head != "resonant")
        hoops = (*others, HoopPlan(head="resonant", hoop=hoop, new=True))
    edge = draft.ground.drum.edge("resonant")
    work = draft.work if edge.there else (*draft.work, ("make an edge", 1))
    if not edge.ring and not edge.there:
        work = (*work, ("glue in a ring", 1))
    return replace(draft, hoops=hoops, work=work)


def _long_lugs(
    draft: Draft, wish: SecondHead, lugs: tuple[FittingPlan, ...], *, book: Book
) -> tuple[Fitting, ...]:
    if wish.long_lugs:
        return tuple(book.find(name, where="wish.long_lugs") for name in wish.long_lugs)
    thread = lugs[0].fitting.thread
    return long_lugs_for(book, depth_mm=draft.ground.flat.depth_mm, thread=thread)


def _long_row(
    draft: Draft, entry: Fitting, lugs: tuple[FittingPlan, ...], *, rules: ShopRules
) -> list[Draft]:
    bare = draft.without(*(lug.label for lug in lugs))
    flat = draft.ground.flat
    middle = flat.depth_mm / 2.0 - entry.middle_down_mm
    row = RowWanted(
        fitting=entry,
        count=len(lugs),
        head="both",
        called="long lug",
        first=Level(flat=flat, row="both").place(row_turn_deg(lugs), middle),
        free_turn=not draft.pinned("batter"),
        proper="the middle",
    )
    return rows_tried(bare.named(pattern=Pattern.LONG_LUGS, called=entry.name), row, rules=rules)


def _second_lug(wish: SecondHead, lugs: tuple[FittingPlan, ...], *, book: Book) -> Fitting | None:
    entry = book.find(wish.lug, where="wish.lug") if wish.lug else lugs[0].fitting
    return None if entry.kind is Kind.LONG_LUG else entry


def _second_row(
    draft: Draft, entry: Fitting, lugs: tuple[FittingPlan, ...], pattern: Pattern
) -> RowWanted:
    """The batter row's heights again, measured from the resonant edge."""
    spacing = 360.0 / len(lugs)
    turn = row_turn_deg(lugs) + (spacing / 2.0 if pattern is Pattern.HALF_ALONG else 0.0)
    down = sum(lug.place.down_mm for lug in lugs) / len(lugs)
    flat = draft.ground.flat
    return RowWanted(
        fitting=entry,
        count=len(lugs),
        head="resonant",
        called="resonant lug",
        first=Level(flat=flat, row="resonant").place(turn, flat.depth_mm - down),
        turned_deg=180.0,
        proper="the batter row's height",
    )


def _turned(
    draft: Draft, entry: Fitting, lugs: tuple[FittingPlan, ...], *, rules: ShopRules
) -> list[Draft]:
    """Seek a clear angle between in line and half along, on either side."""
    surface = draft.ground.flat.surface
    row = _second_row(draft, entry, lugs, Pattern.HALF_ALONG)
    half_mm = surface.along_mm(180.0 / len(lugs))
    aside_mm = surface.along_mm(CLEAR_OF_A_MISTAKE_DEG)
    if half_mm <= 2.0 * aside_mm:
        return []
    down = (-rules.off_middle_mm, rules.off_middle_mm)
    drafts = []
    for low, high in ((-half_mm + aside_mm, -aside_mm), (aside_mm, half_mm - aside_mm)):
        placed = place_row(draft, row, reach=Reach(turn_mm=(low, high), down_mm=down), rules=rules)
        if not placed.fouls:
            off_deg = surface.along_deg(abs(placed.off_turn_mm))
            named = placed.draft.named(
                pattern=Pattern.TURNED, called=f"{off_deg:.1f} degrees from half along"
            )
            drafts.append(
                replace(named, centred=False).saying(
                    "A row turned by an odd angle is to be shown to the client as a drawing first."
                )
            )
    return drafts

"""Put a fitting on, put one back, or move it."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.development.place import Place
from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Fitting
from counterhoop.scheme.draft import Draft
from counterhoop.scheme.layout import FittingPlan
from counterhoop.scheme.placing import place_row
from counterhoop.scheme.put_down import Placed
from counterhoop.scheme.puzzle import Reach
from counterhoop.scheme.row import RowWanted
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.shell.wish import Move, PutOn

Window = tuple[float, float]
NOWHERE: Window = (0.0, 0.0)
CLEAR = "clear of the old holes"


def put_on(draft: Draft, wish: PutOn, *, book: Book, rules: ShopRules) -> list[Draft]:
    """Return drafts with the fitting on: where the old holes serve best, and clear of them."""
    entry = book.find(wish.fitting, where="wish.fitting")
    old = draft.called(wish.replaces) if wish.replaces else _missing(wish.label, draft)
    bare = draft.without(wish.replaces) if wish.replaces else draft
    if wish.near is not None:
        at = draft.ground.truing.moved(wish.near)
    elif old is not None:
        at = _same_middle(old, entry)
    else:
        raise BadInput(
            "the place for it is not said",
            where=f"drums.{draft.ground.drum.key}.wish",
            wanted="along and down, or what it replaces, or the label of a missing fitting",
        )
    label = bare.unused(wish.label or wish.replaces or str(entry.kind))
    single = _single(entry, at, label=label, turned_deg=wish.turned_deg)
    named = bare.named(pattern=f"put on the {label}", called=entry.name)
    return _placed(
        named, single, along_mm=wish.free_along_mm, down_mm=wish.free_down_mm, rules=rules
    )


def move(draft: Draft, wish: Move, *, rules: ShopRules) -> list[Draft]:
    """Return drafts with a fitting moved to another place."""
    old = draft.called(wish.label)
    at = draft.ground.truing.moved(wish.near)
    single = _single(old.fitting, at, label=wish.label, turned_deg=old.turned_deg)
    named = draft.without(wish.label).named(pattern=f"move the {wish.label}")
    return _placed(
        named, single, along_mm=wish.free_along_mm, down_mm=wish.free_down_mm, rules=rules
    )


def _missing(label: str, draft: Draft) -> FittingPlan | None:
    return next((plan for plan in draft.ground.missing if plan.label == label), None)


def _single(entry: Fitting, at: Place, *, label: str, turned_deg: float) -> RowWanted:
    return RowWanted(fitting=entry, count=1, head="", called=label, first=at, turned_deg=turned_deg)


def _same_middle(old: FittingPlan, entry: Fitting) -> Place:
    """Reference point that puts the middle of the new holes on the middle of the old ones."""
    return Place(
        old.place.along_deg,
        old.place.down_mm + _hole_middle(old.fitting) - _hole_middle(entry),
    )


def _hole_middle(entry: Fitting) -> float:
    if not entry.holes:
        return 0.0
    downs = [hole.down_mm for hole in entry.holes]
    return (min(downs) + max(downs)) / 2.0


def _placed(
    draft: Draft, single: RowWanted, *, along_mm: float, down_mm: float, rules: ShopRules
) -> list[Draft]:
    """Best use of old holes first; then the least moves that stand clear of every old hole."""
    along, down = (-along_mm, along_mm), (-down_mm, down_mm)
    best = place_row(draft, single, reach=Reach(turn_mm=along, down_mm=down), rules=rules)
    reused = _reuse_words(best)
    drafts = [best.draft.named(called=reused).only_here(reused)]
    aside_mm = max(down_mm, along_mm)
    ways: tuple[tuple[str, Window, Window], ...] = (
        ("up", NOWHERE, (-down_mm, 0.0)),
        ("down", NOWHERE, (0.0, down_mm)),
        ("to the left", (-aside_mm, 0.0), NOWHERE),
        ("to the right", (0.0, aside_mm), NOWHERE),
    )
    seen: set[tuple[float, float]] = set()
    for way, turn, fall in ways:
        reach = Reach(turn_mm=turn, down_mm=fall, clear_of_old=True)
        clear = place_row(draft, single, reach=reach, rules=rules)
        at = (round(clear.off_turn_mm, 3), round(clear.off_down_mm, 3))
        if clear.fouls or at in seen:
            continue
        seen.add(at)
        off_mm = max(abs(at[0]), abs(at[1]))
        sideways = abs(at[0]) > along_mm + 1e-6
        named = clear.draft
        if off_mm:
            named = named.named(called=f"{off_mm:.1f} mm {way}").named(called=CLEAR)
        drafts.append(replace(named.only_here(CLEAR), centred=named.centred and not sideways))
    return drafts


def _reuse_words(placed: Placed) -> str:
    if not placed.reused:
        return ""
    return f"{placed.reused} old {'hole' if placed.reused == 1 else 'holes'} used again"

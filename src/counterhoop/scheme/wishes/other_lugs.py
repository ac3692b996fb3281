"""Other lugs than the ones the drum has, on one row or on both."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.development.flat import End
from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book
from counterhoop.fittings.choose import hoop_for
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.quantities.money import Money, print_money
from counterhoop.scheme.draft import Draft
from counterhoop.scheme.layout import FittingPlan, HoopPlan
from counterhoop.scheme.level import Level
from counterhoop.scheme.row import RowWanted, row_turn_deg, rows_tried
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.shell.wish import OtherLugs


def other_lugs(draft: Draft, wish: OtherLugs, *, book: Book, rules: ShopRules) -> list[Draft]:
    """Return drafts with the old rows off and the new lugs in their place.

    The new lugs' mouths look for the height of the old ones', so that rods and hoops go on
    serving; the row keeps the old lines when the number of lugs is the same.
    """
    entry = book.find(wish.lug, where="wish.lug")
    if entry.kind is Kind.LONG_LUG:
        raise BadInput(
            "a long lug serves both heads",
            where="wish.lug",
            given=wish.lug,
            wanted='a single-ended lug; for long lugs wish a "second head"',
        )
    if not any(f.row in wish.heads for f in draft.standing):
        raise BadInput(
            "no row of lugs there to change for others",
            where=f"drums.{draft.ground.drum.key}.wish",
            given=" and ".join(wish.heads),
            wanted="a head whose lugs, not long ones, are entered as a row",
        )
    drafts = [_hooped(draft, wish, book=book).named(pattern="other lugs", called=entry.name)]
    for head in wish.heads:
        if any(f.row == head for f in draft.standing):
            drafts = [
                after
                for before in drafts
                for after in replaced_row(before, entry, head, count=wish.count, rules=rules)
            ]
    return drafts


def _hooped(draft: Draft, wish: OtherLugs, *, book: Book) -> Draft:
    """Put hoops on that have an ear for each lug, and say what it costs to leave the lugs alone."""
    hoops: list[HoopPlan] = []
    spared: list[Fitting] = []
    for plan in draft.hoops:
        had = sum(f.row == plan.head for f in draft.standing)
        count = wish.count or had
        hoop = book.find(wish.hoop, where="wish.hoop") if wish.hoop else None
        nominal_mm = plan.hoop.nominal_mm
        if hoop is None and plan.hoop.ears not in (None, count) and nominal_mm is not None:
            hoop = hoop_for(book, nominal_mm=nominal_mm, ears=count)
        if plan.head not in wish.heads or hoop is None or hoop == plan.hoop:
            hoops.append(plan)
            continue
        hoops.append(HoopPlan(head=plan.head, hoop=hoop, pinned=plan.pinned, new=True))
        again = plan.hoop
        if again.ears != had and nominal_mm is not None:
            again = hoop_for(book, nominal_mm=nominal_mm, ears=had) or again
        if again.ears == had and had != count:
            spared.append(again)
    return replace(draft, hoops=tuple(hoops)).saying(_hoops_instead(spared))


def _hoops_instead(spared: list[Fitting]) -> str:
    """Say what hoops for the lugs that are there would cost."""
    if not spared or any(hoop.price_minor is None for hoop in spared):
        return ""
    if any(hoop.currency != spared[0].currency for hoop in spared):
        return ""
    total = sum(hoop.price_minor or 0 for hoop in spared)
    money = print_money(Money(minor=total, currency=spared[0].currency))
    hoops = f"{spared[0].ears}-ear hoops" if len(spared) > 1 else f"A {spared[0].ears}-ear hoop"
    verb = "cost" if len(spared) > 1 else "costs"
    says = f"{hoops} for the lugs that are there {verb} {money} and leave every hole as it is."
    return says[0].upper() + says[1:]


def replaced_row(
    draft: Draft, entry: Fitting, head: End, *, count: int | None, rules: ShopRules
) -> list[Draft]:
    """Take a head's row off and try the new lugs in its place."""
    old = tuple(f for f in draft.standing if f.row == head)
    level = Level(flat=draft.ground.flat, row=head)
    row = RowWanted(
        fitting=entry,
        count=count or len(old),
        head=head,
        called=f"{head} lug",
        first=level.place(row_turn_deg(old), _height(old, entry, level)),
        turned_deg=180.0 if head == "resonant" else 0.0,
        free_turn=not draft.pinned(head),
    )
    return rows_tried(draft.without(*(lug.label for lug in old)), row, rules=rules)


def _height(old: tuple[FittingPlan, ...], entry: Fitting, level: Level) -> float:
    """Height of the reference point that puts the new mouths where the old ones were."""
    down = sum(level.height_mm(lug.place) for lug in old) / len(old)
    was, now = old[0].fitting.mouths, entry.mouths
    if not was or not now:
        return down
    shift = was[0].down_mm - now[0].down_mm
    return down + (shift if level.row == "batter" else -shift)

"""Other lugs than the ones the drum has, on one row or on both."""

from __future__ import annotations

from counterhoop.development.flat import End
from counterhoop.development.place import Place
from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.scheme.draft import Draft
from counterhoop.scheme.layout import FittingPlan
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
    drafts = [draft.named(pattern="other lugs", called=entry.name)]
    for head in wish.heads:
        if any(f.row == head for f in draft.standing):
            drafts = [
                after
                for before in drafts
                for after in replaced_row(before, entry, head, count=wish.count, rules=rules)
            ]
    return drafts


def replaced_row(
    draft: Draft, entry: Fitting, head: End, *, count: int | None, rules: ShopRules
) -> list[Draft]:
    """Take a head's row off and try the new lugs in its place."""
    old = tuple(f for f in draft.standing if f.row == head)
    pinned = any(h.head == head and h.pinned for h in draft.hoops)
    row = RowWanted(
        fitting=entry,
        count=count or len(old),
        head=head,
        called=f"{head} lug",
        first=Place(row_turn_deg(old), _height(old, entry, head)),
        turned_deg=180.0 if head == "resonant" else 0.0,
        free_turn=not pinned,
    )
    return rows_tried(draft.without(*(lug.label for lug in old)), row, rules=rules)


def _height(old: tuple[FittingPlan, ...], entry: Fitting, head: End) -> float:
    """Height of the reference point that puts the new mouths where the old ones were."""
    down = sum(lug.place.down_mm for lug in old) / len(old)
    was, now = old[0].fitting.mouths, entry.mouths
    if not was or not now:
        return down
    shift = was[0].down_mm - now[0].down_mm
    return down + (shift if head == "batter" else -shift)

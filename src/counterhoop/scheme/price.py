"""Parts and work of a scheme: what is bought, how long it takes, what it comes to."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from fractions import Fraction

from counterhoop.development.truing import Removal
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.quantities.money import Money
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import PartLine, WorkLine
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.shop_rules import ShopFigures

BY_VERDICT = {
    Verdict.PLUG: "plug a hole",
    Verdict.DRILL: "drill a hole",
    Verdict.PLUG_AND_DRILL: "drill a hole",
    Verdict.ENLARGE: "enlarge a hole",
    Verdict.SLOT: "slot a hole",
}
BY_KIND = {
    Kind.LUG: "fit a lug",
    Kind.LONG_LUG: "fit a lug",
    Kind.BRACKET: "fit a bracket",
    Kind.LEG_BRACKET: "fit a bracket",
    Kind.SPUR: "fit a bracket",
    Kind.DAMPER: "fit a bracket",
    Kind.STRAINER: "fit strainer and butt",
    Kind.COVER_PLATE: "fit a cover plate",
}


FINISHING = {
    "new wrap": ("wrap a shell",),
    "clear lacquer": ("lacquer",),
    "paint": ("paint",),
}


def parts_of(
    layout: Layout, *, stock: Mapping[str, int], figures: ShopFigures
) -> tuple[PartLine, ...]:
    """Count fittings, hoops and rods that the scheme adds, and how many must be bought.

    ``stock`` is taken as wholly free for this drum; sharing it over a kit is the kit's choice.
    A part that comes off this drum and goes on again elsewhere is nobody's to buy.
    """
    own_again = Counter(plan.fitting.name for plan in layout.fittings if plan.status == "goes")
    wanted: Counter[str] = Counter()
    entries: dict[str, Fitting] = {}
    for plan in layout.fittings:
        if plan.status == "new":
            wanted[plan.fitting.name] += 1
            entries[plan.fitting.name] = plan.fitting
    for hoop in layout.hoops:
        if hoop.new:
            wanted[hoop.hoop.name] += 1
            entries[hoop.hoop.name] = hoop.hoop
    new_heads = {h.head for h in layout.hoops if h.new} | {
        f.row for f in layout.fittings if f.status == "new" and f.row
    }
    for rods in layout.rods:
        if rods.rod is not None and (rods.head in new_heads or "both" in new_heads):
            wanted[rods.rod.name] += rods.count
            entries[rods.rod.name] = rods.rod
    wanted -= own_again
    return tuple(
        PartLine(
            name=name,
            count=count,
            bought=max(0, count - stock.get(name, 0)),
            each_minor=price_of(entries[name], figures=figures),
        )
        for name, count in wanted.items()
    )


def price_of(entry: Fitting, *, figures: ShopFigures) -> int | None:
    """Return the price of a part in the workshop's currency, its own before the book's.

    One in another currency is not known here: what it comes to changes by the day.
    """
    own = dict(figures.prices_minor)
    if entry.name in own:
        return own[entry.name]
    return entry.price_minor if entry.currency in ("", figures.currency) else None


def work_of(
    layout: Layout, *, extra: tuple[tuple[str, int], ...], figures: ShopFigures
) -> tuple[WorkLine, ...]:
    """List the operations of a scheme with their minutes."""
    count: Counter[str] = Counter()
    for name, times in extra:
        count[name] += times
    cut_short = any(name == "cut an end off" for name, _ in extra)
    ends = (layout.truing.batter, layout.truing.resonant)
    # What the saw takes off one end is no truing.
    count["true an edge"] += sum(removal != Removal() for removal in ends) - cut_short
    for hole in layout.holes:
        operation = BY_VERDICT.get(hole.verdict)
        if operation:
            count[operation] += 1
    for plan in layout.fittings:
        if plan.status == "new" and plan.fitting.kind in BY_KIND:
            count[BY_KIND[plan.fitting.kind]] += 1
    rows = {f.row for f in layout.fittings if f.status == "new" and f.row}
    if rows:
        count["lay out a row"] += len(rows)
    count.update(FINISHING.get(layout.finish.kind, ()))
    if layout.finish.kind != "stays" and layout.drum.finish.kind == "wrap":
        count["take a wrap off"] += 1
    count["put on hoop and head"] += sum(hoop.new for hoop in layout.hoops)
    minutes, cure = dict(figures.minutes), dict(figures.cure_hours)
    return tuple(
        WorkLine(
            operation=name,
            count=times,
            minutes=times * minutes[name],
            cure_hours=cure.get(name, 0.0),
        )
        for name, times in count.items()
        if times
    )


def money_minor(
    parts: tuple[PartLine, ...], work: tuple[WorkLine, ...], *, figures: ShopFigures
) -> int:
    """Return what the parts to buy and the bench time come to, in minor units."""
    bought = sum(line.bought * (line.each_minor or 0) for line in parts)
    return bought + bench_minor(work, figures=figures)


def bench_minor(work: Sequence[WorkLine], *, figures: ShopFigures) -> int:
    """Return the price of bench time, to the nearest coin, halves up.

    The minutes are added exactly, so that the sum does not hang on the order of the lines.
    """
    minutes = sum((Fraction(line.minutes) for line in work), start=Fraction(0))
    hour = Money(minor=figures.hour_minor, currency=figures.currency)
    return hour.times(minutes / 60).minor

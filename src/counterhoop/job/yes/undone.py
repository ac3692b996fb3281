"""What can be undone: bolted on, taken off, moved; and what comes off and is the client's."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from counterhoop.development.cover import each_uncovered_mm2
from counterhoop.job.yes.change import Change, Spot
from counterhoop.scheme.layout import FittingPlan, Layout
from counterhoop.scheme.phrases import counted
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.hole import ON_THE_WAY, Origin

NOTHING_ON = ("vent", ON_THE_WAY)
"""What a hole can be called by with no part on it."""
SEEN_MM2 = 1.0
"""Less than this of an old fitting's mark does not count as seen (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Removed:
    """Parts of one sort that come off and do not go on again: the client's, kept with the drum."""

    name: str
    count: int
    labels: tuple[str, ...] = ()
    origin: Origin = Origin.NOT_SURE


def undone_changes(layout: Layout) -> Iterator[Change]:
    """Yield every change that can be undone, fitting by fitting, then the hoops."""
    again, shown = layout.put_on_again, _marked(layout)
    for plan in layout.fittings:
        name = _named(plan.fitting.name)
        if plan.status == "new" and plan.label in again:
            yield _at(plan, f"{name}: comes off and goes on again here.")
        elif plan.status == "new":
            yield _at(plan, f"{name}: bolted on, and comes off again.")
        elif plan.status == "goes" and plan.label not in again:
            mark = " The mark that it leaves will be seen." if plan.label in shown else ""
            yield _at(plan, f"{name}: taken off, stays yours.{mark}")
    for name, spots in _still_on(layout).items():
        does = f"{_named(name)}, where it is still on: taken off, stays yours."
        yield Change(sort="reversible", does=does, spots=spots)
    for hoop in layout.hoops:
        if hoop.new:
            does = f"{_named(hoop.hoop.name)}: put on, and comes off again."
            yield Change(sort="reversible", does=does, where=f"{hoop.head} head")
    for rods in layout.rods:
        fresh = any(f.status == "new" and f.row in (rods.head, "both") for f in layout.fittings)
        if rods.rod is not None and (
            fresh or any(h.new for h in layout.hoops if h.head == rods.head)
        ):
            does = f"{counted(rods.count, 'rod')}, {rods.rod.name}: put in, and come out again."
            yield Change(sort="reversible", does=does, where=f"{rods.head} head")


def removed(layout: Layout) -> tuple[Removed, ...]:
    """Return what comes off and does not go on again, one line for each sort of part."""
    found = {placed.label: placed for placed in layout.drum.everything}
    gone: dict[tuple[str, Origin], list[str]] = {}
    for plan in layout.fittings:
        placed = found.get(plan.label)
        if plan.status != "goes" or plan.label in layout.put_on_again:
            continue
        if placed is None or not placed.missing:
            origin = placed.origin if placed else Origin.NOT_SURE
            gone.setdefault((plan.fitting.name, origin), []).append(plan.label)
    off = [
        Removed(name=name, count=len(labels), labels=tuple(labels), origin=origin)
        for (name, origin), labels in gone.items()
    ]
    still = (Removed(name=f"{name}, where it is still on", count=1) for name in _still_on(layout))
    return (*off, *still, *_hoops(layout))


def _still_on(layout: Layout) -> dict[str, tuple[Spot, ...]]:
    """Return what holes that are closed were for, where no fitting of the survey stands on them.

    Nobody wrote down whether it is on the drum yet; if it is, it comes off.
    """
    held = {number for placed in layout.drum.everything for number in placed.holes}
    closed = {plan.number: plan for plan in layout.holes if plan.verdict is Verdict.PLUG}
    found: dict[str, tuple[Spot, ...]] = {}
    for hole in layout.drum.holes:
        plan = closed.get(hole.number)
        if plan is None or hole.number in held or hole.purpose in ("", *NOTHING_ON):
            continue
        name = hole.purpose.partition(",")[0]
        spot = Spot(called=f"hole {hole.number}", place=plan.place, number=hole.number)
        found[name] = (*found.get(name, ()), spot)
    return found


def _hoops(layout: Layout) -> Iterator[Removed]:
    had = {row.head: row.hoop for row in layout.drum.rows if row.hoop} | dict(layout.drum.hoops)
    now = {plan.head: plan for plan in layout.hoops}
    off = Counter(
        name
        for head, name in had.items()
        if head not in now or (now[head].new and now[head].hoop.name != name)
    )
    return (Removed(name=name, count=count) for name, count in off.items())


def _marked(layout: Layout) -> frozenset[str]:
    """Labels of fittings whose mark nothing covers afterwards."""
    covers = tuple((f.outline, f.place) for f in layout.standing if f.outline is not None)
    marks = tuple((mark.outline, mark.place) for mark in layout.marks)
    seen = each_uncovered_mm2(marks, covers, surface=layout.flat.surface)
    return frozenset(
        mark.of for mark, mm2 in zip(layout.marks, seen, strict=True) if mm2 > SEEN_MM2
    )


def _named(name: str) -> str:
    return f"{name[:1].upper()}{name[1:]}"


def _at(plan: FittingPlan, does: str) -> Change:
    return Change(sort="reversible", does=does, spots=(Spot(called=plan.label, place=plan.place),))

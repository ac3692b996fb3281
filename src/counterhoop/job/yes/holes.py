"""Holes that are closed, drilled, made larger or longer, as changes for the client."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from counterhoop.development.shape import Round
from counterhoop.job.yes.change import Change, Sort, Spot
from counterhoop.job.yes.say import Says, said_size
from counterhoop.scheme.code import PERMANENT
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.drum import Material


def hole_changes(layout: Layout, lines: Sequence[str], *, say: Says) -> Iterator[Change]:
    """Yield a change for each hole that does not stay as it is.

    Parameters
    ----------
    layout : Layout
        The drum as the scheme leaves it.
    lines : sequence of str
        The lines of its code that are about holes, one for each such hole, by number.
    """
    cut = sorted((p for p in layout.holes if p.verdict in PERMANENT), key=lambda p: p.number)
    for plan, line in zip(cut, lines, strict=True):
        place = plan.new_place or plan.place
        yield Change(
            sort=_sort(plan, layout),
            does=_does(plan, layout, say=say),
            spots=(Spot(called=f"hole {plan.number}", place=place, number=plan.number),),
            lines=(line,),
        )


def _sort(plan: HolePlan, layout: Layout) -> Sort:
    closed = plan.verdict is Verdict.PLUG
    return "hidden" if closed and (plan.covered or layout.finish.hides_plugs) else "permanent"


def _does(plan: HolePlan, layout: Layout, *, say: Says) -> str:
    if plan.verdict is Verdict.PLUG:
        return _closed(plan, layout, say=say)
    assert plan.new is not None
    size, whose = said_size(plan.new, say=say), _whose(plan)
    match plan.verdict:
        case Verdict.DRILL:
            return f"A new hole, {size}, is drilled through the shell{whose}."
        case Verdict.PLUG_AND_DRILL:
            return f"A new hole, {size}, is drilled{whose}, through wood that is plugged first."
        case Verdict.ENLARGE:
            return f"An old hole is made larger, {_from(plan, say=say)}to {size}{whose}."
    return f"An old hole is made longer, {_from(plan, say=say)}to {size}{whose}."


def _closed(plan: HolePlan, layout: Layout, *, say: Says) -> str:
    wood = layout.drum.material is Material.WOOD
    done = "An old hole is closed with a wood plug" if wood else "An old hole is closed"
    if plan.plug_mm is not None and plan.old is not None:
        wider = plan.plug_mm > max(plan.old.size_mm)
        done += f", bored out to {said_size(Round(plan.plug_mm), say=say)} for it" if wider else ""
    if layout.finish.hides_plugs:
        return f"{done}. The new finish covers it outside; inside it can be found."
    if plan.covered:
        return f"{done}. A fitting covers it outside; inside it can be found."
    return f"{done}, which will be seen outside and inside."


def _from(plan: HolePlan, *, say: Says) -> str:
    return "" if plan.old is None else f"from {said_size(plan.old, say=say)} "


def _whose(plan: HolePlan) -> str:
    """For what; lugs of one row without their numbers, so that they are said together.

    Examples
    --------
    >>> from counterhoop.development.place import Place
    >>> at = {"number": 1, "verdict": Verdict.DRILL, "place": Place(0.0, 40.0)}
    >>> _whose(HolePlan(of="long lug 3", **at)), _whose(HolePlan(of="strainer", **at))
    (' for a long lug', ' for the strainer')
    """
    if not plan.of:
        return ""
    word, _, tail = plan.of.rpartition(" ")
    if not word or not tail.isdecimal():
        return f" for the {plan.of}"
    return f" for {'an' if word[0] in 'aeiou' else 'a'} {word}"

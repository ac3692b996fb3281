"""A line of a code that was not agreed, and one that was agreed and is there no longer."""

from __future__ import annotations

from counterhoop.job.yes.deed import finish_deed, hole_deed, off_deed, work_deed
from counterhoop.job.yes.line import (
    DepthLine,
    FinishLine,
    HoleLine,
    Line,
    OffLine,
    OtherLine,
    SurfaceLine,
    WorkLine,
)
from counterhoop.job.yes.say import Says, said_size
from counterhoop.scheme.layout import Layout


def came(line: Line, *, layout: Layout, say: Says, not_known: frozenset[int] = frozenset()) -> str:
    """Say what is to be done now that nobody has agreed to, without the hole that it is about.

    Parameters
    ----------
    line : Line
    layout : Layout
        The drum as it is planned now: which of its holes were there before anything was done.
    say : Says
    not_known : frozenset of int
        Holes that were found after the yes, by number: nobody agreed that they stay.
    """
    match line:
        case HoleLine():
            deed = hole_deed(line, say=say)
            found = {hole.number: hole for hole in layout.drum.holes}.get(line.number)
            if found is not None:
                size = said_size(found.shape, say=say)
                before = "not known then" if line.number in not_known else "was to stay"
                return f"{size}, {before}; now it is to be {deed}"
            return f"one that nobody agreed to, {deed}"
        case WorkLine():
            return f"Not agreed yet: {work_deed(line)}"
    return f"Not agreed yet: {_other(line, say=say)}"


def went(line: Line, *, layout: Layout, say: Says) -> str:
    """Say what was agreed and is to be done no longer; as ``came``."""
    match line:
        case HoleLine():
            deed = hole_deed(line, say=say)
            if line.number in {hole.number for hole in layout.drum.holes}:
                there = line.number in {plan.number for plan in layout.holes}
                now = "now it stays as it is" if there else "now it goes with the offcut"
                return f"was to be {deed}; {now}"
            return f"was to be {deed}; now there is none"
        case WorkLine():
            return f"Agreed, and no longer done: {work_deed(line)}"
    return f"Agreed, and no longer so: {_other(line, say=say)}"


def _other(line: Line, *, say: Says) -> str:
    match line:
        case DepthLine():
            return f"the shell {say.length(line.after_mm)} deep"
        case SurfaceLine():
            return f"the shell {say.length(line.around_mm)} round {line.skin}"
        case FinishLine():
            return f"the outside {finish_deed(line.kind)}"
        case OffLine():
            return f"{off_deed(line, say=say)} off the {line.end} edge"
        case OtherLine():
            return line.text
    return str(line)

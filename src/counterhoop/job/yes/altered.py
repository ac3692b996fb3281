"""Two lines of a code on the same thing: what was agreed of it, and what is to be done now."""

from __future__ import annotations

from counterhoop.development.surface import Surface
from counterhoop.job.yes.deed import finish_deed, hole_deed, off_deed, plug_deed, work_deed
from counterhoop.job.yes.line import (
    DepthLine,
    FinishLine,
    HoleLine,
    Line,
    OffLine,
    SurfaceLine,
    WorkLine,
)
from counterhoop.job.yes.say import Says, said_shift


def altered(was: Line, now: Line, *, surface: Surface, say: Says) -> str:
    """Say what differs between two lines of one key, without the hole that it is about.

    Parameters
    ----------
    was, now : Line
        Not the same.
    surface : Surface
        Of the scheme as it is now: how far a hole moved lies on it.
    say : Says
    """
    match was, now:
        case HoleLine(), HoleLine():
            return _hole(was, now, surface=surface, say=say)
        case DepthLine(), DepthLine():
            return _depth(was, now, say=say)
        case SurfaceLine(), SurfaceLine():
            return _surface(was, now, say=say)
        case FinishLine(), FinishLine():
            before, after = finish_deed(was.kind), finish_deed(now.kind)
            return f"The outside was to be {before}; now it is to be {after}"
        case OffLine(), OffLine():
            return _off(was, now, say=say)
        case WorkLine(), WorkLine():
            return f"Agreed was: {work_deed(was)}; now it is: {work_deed(now)}"
    return "Something that was agreed has changed"


def _hole(was: HoleLine, now: HoleLine, *, surface: Surface, say: Says) -> str:
    said = []
    before, after = hole_deed(was, say=say), hole_deed(now, say=say)
    if (was.verdict, was.opening) != (now.verdict, now.opening):
        # A size that prints alike still differs: the code shows more than the caliper.
        other = f"a little otherwise than {before}" if before == after else after
        said.append(f"was to be {before}, now it is to be {other}")
    right_mm = surface.apart_mm(was.place.along_deg, now.place.along_deg)
    down_mm = now.place.down_mm - was.place.down_mm
    if shift := said_shift(right_mm, down_mm, say=say):
        said.append(f"moved {shift}")
    if (was.plug_mm, was.plug_place) != (now.plug_mm, now.plug_place):
        said.append(_plug(was, now, say=say))
    return "; ".join(said)


def _plug(was: HoleLine, now: HoleLine, *, say: Says) -> str:
    before, after = plug_deed(was, say=say), plug_deed(now, say=say)
    if before == after:
        return "its plug at another place"
    return f"was to get {before}, now {after}"


def _depth(was: DepthLine, now: DepthLine, *, say: Says) -> str:
    said = []
    if was.after_mm != now.after_mm:
        said.append(f"The shell was to be {_two(was.after_mm, now.after_mm, 'it is to be', say)}")
    if was.found_mm != now.found_mm:
        said.append(f"The shell was measured as {_two(was.found_mm, now.found_mm, 'it is', say)}")
    return "; ".join(said)


def _two(was_mm: float, now_mm: float, link: str, say: Says) -> str:
    before, after = say.length(was_mm), say.length(now_mm)
    if before == after:
        return f"{before} deep; that has changed by less than the rule shows"
    return f"{before} deep, now {link} {after}"


def _surface(was: SurfaceLine, now: SurfaceLine, *, say: Says) -> str:
    if was.skin != now.skin:
        return f"Places were laid out {_on(was.skin)}; now they are laid out {_on(now.skin)}"
    before, after = say.length(was.around_mm), say.length(now.around_mm)
    if before == after:
        return f"Once round the shell is {after}; that has changed by less than the rule shows"
    return f"Once round the shell was {before}; now it is {after}, and every place goes by it"


def _on(skin: str) -> str:
    return skin if skin.startswith("over") else f"on {skin}"


def _off(was: OffLine, now: OffLine, *, say: Says) -> str:
    before, after = off_deed(was, say=say), off_deed(now, say=say)
    if before == after:
        return f"The {now.end} edge is cut at another lean; up to {after} comes off as before"
    up_to = "" if before == "nothing" or before.startswith("less") else "up to "
    more = "" if after == "nothing" or after.startswith("less") else "up to "
    return f"From the {now.end} edge {up_to}{before} was to come off; now {more}{after} comes off"

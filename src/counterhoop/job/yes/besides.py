"""What is for good besides holes: the ends, edges, rings and beds, the finish."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import get_args

from counterhoop.development.flat import End
from counterhoop.development.truing import Removal
from counterhoop.job.yes.change import Change
from counterhoop.job.yes.say import Says
from counterhoop.quantities.print_length import TAPE_MM
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.phrases import counted

Kept = Mapping[tuple[str, str], str]
"""Lines of the code by what they are about."""
CUT_OFF = "cut an end off"
WHOLE = "the whole outside"


def end_changes(layout: Layout, lines: Kept, *, say: Says) -> Iterator[Change]:
    """Yield what is sawn or trued off the ends."""
    ends: tuple[End, ...] = get_args(End)
    truing = layout.truing
    off = {end: truing.batter if end == "batter" else truing.resonant for end in ends}
    worked = [end for end in ends if off[end] != Removal()]
    sawn, cut = ("work", CUT_OFF) in lines, _cut_end(layout, lines)
    # The depth is one line, whichever end it is taken off: it goes with the one that tells of it.
    tells = cut or (worked[0] if worked else "")
    for end in worked:
        keys: list[tuple[str, str]] = [("off", end)]
        keys += [("depth", ""), ("work", "true an edge")] if end == tells else []
        keys += [("work", CUT_OFF)] if end == cut else []
        does = _sawn(layout, say=say) if end == cut else _trued(layout, off[end], say=say)
        named = tuple(lines[key] for key in keys if key in lines)
        yield Change(sort="permanent", does=does, where=f"{end} edge", lines=named)
    if sawn and not worked:
        line = lines["work", CUT_OFF]
        yield Change(sort="permanent", does="An end is cut off.", where="edge", lines=(line,))


def made_changes(layout: Layout, lines: Kept) -> Iterator[Change]:
    """Yield what is cut into the shell or glued into it."""
    bare = [edge.end for edge in layout.drum.edges if not edge.there]
    end = _cut_end(layout, lines) or (bare[0] if len(bare) == 1 else "")
    where = f"{end} edge" if end else "edge"
    for name, noun, does in (
        ("make an edge", "new bearing edge", "cut on the end of the shell"),
        ("cut a snare bed", "snare bed", "cut into the edge"),
    ):
        if (key := ("work", name)) in lines:
            said = f"{_several(lines[key], noun)} {does}."
            at = where if noun != "snare bed" else "resonant edge"
            yield Change(sort="permanent", does=said, where=at, lines=(lines[key],))
    if (key := ("work", "glue in a ring")) in lines:
        said = f"{_several(lines[key], 'ring')} glued in for good, seen only with the head off."
        yield Change(sort="hidden", does=said, where=f"inside, {where}", lines=(lines[key],))


def finish_change(layout: Layout, lines: Kept) -> Iterator[Change]:
    """Yield what happens to the outside, where it does not stay."""
    kind, old = layout.finish.kind, layout.drum.finish.kind
    if kind == "stays":
        return
    how = {
        "clear lacquer": "lacquered",
        "paint": "painted",
        "new wrap": "covered with a new wrap, glued on",
    }[kind]
    does = (
        f"The bare shell is {how}."
        if old == "bare"
        else f"The old {old} is taken off and the shell {how}: the old {old} is lost."
    )
    named = (lines["finish", ""], lines["surface", ""])
    yield Change(sort="permanent", does=does, where=WHOLE, lines=named)


def _cut_end(layout: Layout, lines: Kept) -> str:
    """The end that is sawn off: more comes off there than any truing takes; "" for none."""
    if ("work", CUT_OFF) not in lines or not layout.truing.any:
        return ""
    batter, resonant = layout.truing.batter, layout.truing.resonant
    return "batter" if batter.mean_mm > resonant.mean_mm else "resonant"


def _sawn(layout: Layout, *, say: Says) -> str:
    there = {plan.number for plan in layout.holes}
    gone = sum(hole.number not in there for hole in layout.drum.holes)
    deep = f"from {say.length(layout.drum.depth_read_mm)} to {say.length(layout.flat.depth_mm)}"
    go = "goes" if gone == 1 else "go"
    offcut = f", and {counted(gone, 'hole')} {go} with the offcut" if gone else ""
    return f"The shell is cut down {deep} deep{offcut}."


def _trued(layout: Layout, removal: Removal, *, say: Says) -> str:
    most_mm = removal.mean_mm + math.hypot(removal.cos_mm, removal.sin_mm)
    if most_mm < TAPE_MM / 2:
        return f"The edge is trued: less than {say.length(TAPE_MM)} of wood comes off."
    return f"The edge is trued: up to {say.length(most_mm)} of wood comes off."


def _several(line: str, noun: str) -> str:
    times = int(line.rpartition(" ")[2])
    return f"A {noun} is" if times == 1 else f"{counted(times, noun)} are"

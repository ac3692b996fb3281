"""What one line of a code does, in a few words: "drilled new, 6.5 dia"."""

from __future__ import annotations

import math

from counterhoop.development.shape import Round
from counterhoop.job.yes.line import HoleLine, OffLine, WorkLine
from counterhoop.job.yes.say import Says, said_size
from counterhoop.quantities.print_length import TAPE_MM
from counterhoop.scheme.phrases import counted
from counterhoop.scheme.verdict import Verdict

WORK = {
    "cut an end off": "an end cut off",
    "true an edge": "an edge trued",
    "make an edge": "a new bearing edge cut",
    "glue in a ring": "a ring glued in",
    "cut a snare bed": "a snare bed cut",
}
FINISH = {
    "stays": "left as it is",
    "clear lacquer": "lacquered",
    "paint": "painted",
    "new wrap": "covered with a new wrap",
}


def hole_deed(line: HoleLine, *, say: Says) -> str:
    """Say what is done to a hole."""
    size = "" if line.opening is None else said_size(line.opening, say=say)
    match line.verdict:
        case Verdict.PLUG:
            return "closed"
        case Verdict.PLUG_AND_DRILL:
            return f"drilled new through plugged wood, {size}"
        case Verdict.ENLARGE:
            return f"made larger, to {size}"
        case Verdict.SLOT:
            return f"made longer, to {size}"
    return f"drilled new, {size}"


def plug_deed(line: HoleLine, *, say: Says) -> str:
    """Say which plug a hole gets beside what is done to it."""
    if line.plug_mm is None:
        return "no wider plug"
    return f"a plug of {said_size(Round(line.plug_mm), say=say)}"


def off_deed(line: OffLine, *, say: Says) -> str:
    """Say how much comes off an end at its highest place."""
    most_mm = line.mean_mm + math.hypot(line.cos_mm, line.sin_mm)
    if not (line.mean_mm or line.cos_mm or line.sin_mm):
        return "nothing"
    return f"less than {say.length(TAPE_MM)}" if most_mm < TAPE_MM / 2 else say.length(most_mm)


def work_deed(line: WorkLine) -> str:
    """Say what is made, and how often where it is more than once."""
    said = WORK.get(line.operation, line.operation)
    return said if line.times == 1 else f"{said}, {counted(line.times, 'time')}"


def finish_deed(kind: str) -> str:
    """Say what happens to the outside."""
    return FINISH.get(kind, kind)

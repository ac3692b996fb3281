"""The code of a scheme's permanent changes: what an approval is given to."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Sequence
from typing import TypeAlias

from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape
from counterhoop.development.truing import Removal
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import HolePlan, Verdict

Work: TypeAlias = tuple[tuple[str, int], ...]

PERMANENT = (Verdict.PLUG, Verdict.DRILL, Verdict.PLUG_AND_DRILL, Verdict.ENLARGE, Verdict.SLOT)
PERMANENT_WORK = (
    "cut an end off",
    "true an edge",
    "make an edge",
    "glue in a ring",
    "cut a snare bed",
)
LETTERS = "ABCDEFGHJKLMNPQRTUVWXY346789"
LAST_DIGITS = 1e-6
"""What the last digits of a calculation may leave a figure short of a half, in its last place."""


def permanent_changes(layout: Layout, *, work: Work = ()) -> tuple[str, ...]:
    """Return every change that cannot be undone, a line each.

    ``work`` holds operations that no hole implies, with how often: an edge made, a ring glued in.
    Lengths to 0.1 mm, angles to 0.01 degree: finer than a drill can be held on any drum.
    """
    lines = [
        f"depth {_mm(layout.flat.depth_mm)} from {_mm(layout.drum.depth_mm)}",
        f"surface {layout.flat.surface.skin} {_mm(layout.flat.surface.circumference_mm)}",
        f"finish {layout.finish.kind}",
        _off("batter", layout.truing.batter),
        _off("resonant", layout.truing.resonant),
    ]
    lines += [f"{name} {times}" for name, times in sorted(work) if name in PERMANENT_WORK]
    cut = (plan for plan in layout.holes if plan.verdict in PERMANENT)
    lines += [_line(plan) for plan in sorted(cut, key=lambda plan: plan.number)]
    return tuple(lines)


def code_of(layout: Layout, *, work: Work = ()) -> str:
    """Return a short code that changes with any permanent change, and with nothing else.

    What can be undone (lugs, hoops, rods, where a kept hole is found to lie) has no part in it.

    """
    return code_for(layout.drum.key, permanent_changes(layout, work=work))


def code_for(drum: str, lines: Sequence[str]) -> str:
    """Return the code of a drum's permanent changes, a line each.

    Eight letters and figures in two groups, none of which can be misread for another. Drawn from
    SHA-256 (FIPS 180-4) of the drum's name and the lines.
    """
    text = "\n".join((drum, *lines))
    number = int.from_bytes(hashlib.sha256(text.encode("utf-8")).digest()[:8], "big")
    drawn = ""
    for _ in range(8):
        number, index = divmod(number, len(LETTERS))
        drawn += LETTERS[index]
    return f"{drawn[:4]}-{drawn[4:]}"


def same_code(written: str, code: str) -> bool:
    """Whether what somebody wrote is this code, in any case and with any spaces.

    Examples
    --------
    >>> same_code(" tvk6 - H94e", "TVK6-H94E")
    True
    """
    return "".join(written.split()).upper() == "".join(code.split()).upper()


def _off(end: str, removal: Removal) -> str:
    return f"off {end} {_mm(removal.mean_mm)} {_mm(removal.cos_mm)} {_mm(removal.sin_mm)}"


def _line(plan: HolePlan) -> str:
    line = f"{plan.number} {plan.verdict} {_size(plan.new)} {_at(plan.new_place or plan.place)}"
    if plan.plug_mm is None:
        return line
    return f"{line} plug {_mm(plan.plug_mm)} {_at(plan.plug_place or plan.place)}"


def _at(place: Place) -> str:
    return f"at {_near(place.along_deg, 100) % 360.0:.2f} {_mm(place.down_mm)}"


def _mm(value_mm: float) -> str:
    """A tenth of a millimetre; nothing at all has no sign."""
    return f"{_near(value_mm, 10) + 0.0:.1f}"


def _near(value: float, parts: int) -> float:
    """To so many parts of one, every half upwards: what moves by one part always reads otherwise.

    Halves to the even neighbour would read 0.05 and 0.15 alike.
    """
    return math.floor(value * parts + 0.5 + LAST_DIGITS) / parts


def _size(shape: HoleShape | None) -> str:
    if shape is None:
        return "closed"
    along_mm, down_mm = shape.size_mm
    return f"{_mm(along_mm)} x {_mm(down_mm)}"

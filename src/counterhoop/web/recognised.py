"""A drum told back to whoever has just typed its eight numbers."""

from __future__ import annotations

import math
from typing import Literal

from counterhoop.papers.facts import Lengths
from counterhoop.shell.drum import Drum, DrumKind, Row

MM_PER_INCH = 25.4
HEADS = {1: "with one head", 2: "with two heads"}
COUNTED = ("no", "one", "two", "three", "four")


def recognised(drum: Drum, *, units: Literal["mm", "in"], unnamed: str = "") -> str:
    """Say what kind of drum the numbers make, so that a slip in one of them is seen at once.

    The whole inch nearest to what it is across is not a measure: it is how drums are called.

    Parameters
    ----------
    unnamed : str
        What stands for a lug that nobody has named; it is not told back.
    """
    say = Lengths(units).length
    across_mm = drum.circumference.mean_mm / math.pi
    called = round(across_mm / MM_PER_INCH)
    kind = "drum" if drum.kind is DrumKind.OTHER else drum.kind.value
    lines = [
        f"A {kind} {HEADS[drum.heads]}, {say(across_mm)} across (nearest to {called} in)"
        f" and {say(drum.depth_mm)} deep."
    ]
    lines += [_row(row, unnamed=unnamed) for row in drum.rows]
    if drum.holes:
        lines.append(f"{_count(len(drum.holes), 'hole').capitalize()} so far.")
    return " ".join(lines)


def _row(row: Row, *, unnamed: str) -> str:
    lugs = _count(len(row.lugs), "lug")
    holes = _count(max((len(lug.holes) for lug in row.lugs), default=0), "hole")
    fitting = "" if row.fitting == unnamed else f"{row.fitting}, "
    return f"{row.head.capitalize()} head: {lugs}, {fitting}{holes} each."


def _count(number: int, thing: str) -> str:
    says = COUNTED[number] if number < len(COUNTED) else str(number)
    return f"{says} {thing}{'' if number == 1 else 's'}"

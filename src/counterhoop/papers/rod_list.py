"""The rod list: how many, what thread, how long they may be, which are taken."""

from __future__ import annotations

from typing import Any

from counterhoop.papers.facts import Lengths
from counterhoop.scheme.layout import RodPlan
from counterhoop.scheme.plan import Scheme


def rod_rows(scheme: Scheme, *, say: Lengths) -> list[dict[str, Any]]:
    """Return a line for the rods of each head; lengths are under the rod's head."""
    return [_row(rods, say=say) for rods in scheme.layout.rods]


def _row(rods: RodPlan, *, say: Lengths) -> dict[str, Any]:
    taken = "none in the book goes: have them cut to length"
    if rods.rod is not None:
        length, name = rods.rod.rod_length_mm, rods.rod.name
        named = length is None or f" {length:g} " in f" {name} "
        taken = name if named or length is None else f"{name}, {say.length(length)}"
    between = f"{say.length(rods.least_mm)} to {say.length(rods.most_mm)}"
    if rods.most_mm < rods.least_mm:
        between = f"{between}: no length does both"
    return {
        "head": rods.head,
        "count": rods.count,
        "thread": rods.thread or "not known",
        "between": between,
        "taken": taken,
    }

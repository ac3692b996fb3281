"""How lengths and sizes are said: in the units of whoever reads it, never finer than the rule."""

from __future__ import annotations

from typing import Protocol

from counterhoop.development.shape import HoleShape
from counterhoop.quantities.print_length import TAPE_MM


class Says(Protocol):
    """What prints lengths and sizes; the papers have it for each job."""

    def length(self, value_mm: float, *, resolution_mm: float = TAPE_MM) -> str:
        """Print a length with its unit."""

    def size(self, shape: HoleShape | None) -> tuple[str, str]:
        """Print a hole's size in words, and what stands beside it; nothing beside it is ""."""


def said_size(shape: HoleShape, *, say: Says) -> str:
    """Print a hole's size in running words: "6.4 dia (1/4 in)"."""
    said, beside = say.size(shape)
    return f"{said} ({beside})" if beside else said


def said_shift(right_mm: float, down_mm: float, *, say: Says) -> str:
    """Print how far something moved, to the right and down; "" where nothing did at all.

    What a rule cannot show is still said, for a code shows it.
    """
    if not right_mm and not down_mm:
        return ""
    least_mm = TAPE_MM / 2
    parts = []
    if abs(right_mm) >= least_mm:
        parts.append(f"{say.length(abs(right_mm))} {'right' if right_mm > 0 else 'left'}")
    if abs(down_mm) >= least_mm:
        parts.append(f"{say.length(abs(down_mm))} {'down' if down_mm > 0 else 'up'}")
    return " and ".join(parts) or f"by less than {say.length(TAPE_MM)}"

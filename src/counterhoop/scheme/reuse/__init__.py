"""The best use of the holes that are there: an exact search over turn and height of a row."""

from counterhoop.scheme.reuse.answer import Match, NoRoom, Reuse
from counterhoop.scheme.reuse.bars import Barred, BarredDrill, Window
from counterhoop.scheme.reuse.best import best_reuse, reuse_at
from counterhoop.scheme.reuse.limits import Limits, Tier, Weights
from counterhoop.scheme.reuse.wanted import (
    OldHole,
    Wanted,
    WantedFitting,
    WantedGroup,
    WantedHole,
    WantedRow,
)

__all__ = [
    "Barred",
    "BarredDrill",
    "Limits",
    "Match",
    "NoRoom",
    "OldHole",
    "Reuse",
    "Tier",
    "Wanted",
    "WantedFitting",
    "WantedGroup",
    "WantedHole",
    "WantedRow",
    "Weights",
    "Window",
    "best_reuse",
    "reuse_at",
]

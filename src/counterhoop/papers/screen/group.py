"""Strokes that are one thing on a page: a hole with its mark and number, the bases of a row."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

from counterhoop.papers.drawing.records import Stroke


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """What holds strokes together.

    Attributes
    ----------
    name : str
        Part of its id, "hole-7"; empty for what has none (a copy beyond the datum, a base).
    kind : str
        Its class.
    label, more : str
        What it is in words, short, and what else is known of it.
    data : tuple of (str, str)
        Its data attributes, without "data-".
    hit : tuple of (x, y, r) or None
        A disc about it that takes a finger.
    reached : bool
        Whether the keyboard can come to it.
    """

    name: str = ""
    kind: str
    label: str = ""
    more: str = ""
    data: tuple[tuple[str, str], ...] = ()
    hit: tuple[float, float, float] | None = None
    reached: bool = False


GroupOf: TypeAlias = Callable[[Stroke], Group | None]


def ungrouped(_: Stroke) -> Group | None:
    """Return no group: a picture in which nothing can be chosen."""
    return None

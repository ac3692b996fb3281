"""What is written on a piece, as its card and its earlier versions say it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final

from counterhoop.parts.dimension import Measured, print_size, usual_doubt
from counterhoop.parts.piece import Piece
from counterhoop.quantities.day import say_day
from counterhoop.quantities.money import Money
from counterhoop.store.shelf.look_up import Said

LABELS: Final = MappingProxyType(
    {
        "number": "Number on the bag",
        "says": "What it is",
        "kind": "Kind",
        "fitting": "Entry of the book",
        "measured": "Measured",
        "material": "Material",
        "plating": "Plating",
        "finish": "Finish",
        "condition": "Condition",
        "bin": "Bin",
        "lot": "Came with",
        "lot_share": "Its share of the lot",
        "price_minor": "Price",
        "came_on": "Came on",
        "matched_set": "Belongs together",
        "owner": "Belongs to",
        "count": "How many came",
    }
)
_ON_THE_CARD: Final = tuple(
    name for name in LABELS if name not in ("number", "says", "bin", "fitting", "owner", "count")
)


@dataclass(frozen=True, slots=True, kw_only=True)
class VersionLine:
    """One writing: when, by whom, and what it changed: (label, before, after)."""

    made_at: dt.datetime
    bench: str
    changed: tuple[tuple[str, str, str], ...]


def facts_of(piece: Piece) -> list[tuple[str, tuple[str, ...]]]:
    """Return what stands on the card: labels with one or several lines each."""
    pairs = [(LABELS[name], _lines(piece, name)) for name in _ON_THE_CARD]
    return [(label, lines) for label, lines in pairs if lines]


def _lines(piece: Piece, name: str) -> tuple[str, ...]:
    if name == "measured":
        return tuple(
            f"{one.dimension} {one.written or one}{_give_or_take(one)}" for one in piece.measured
        )
    if name == "condition":
        return piece.condition
    value = value_says(piece, name)
    return (value,) if value else ()


def _give_or_take(one: Measured) -> str:
    """Say the doubt of a reading that another instrument took than the usual one."""
    if one.doubt == usual_doubt(one.dimension):
        return ""
    return f", give or take {print_size(one.dimension, one.doubt, doubt=one.doubt)}"


def value_says(piece: Piece, name: str) -> str:
    """Return what one line of a piece says; empty for nothing."""
    value: Any = getattr(piece, name)
    match name:
        case "measured":
            return "; ".join(f"{one.dimension} {one.written or one}" for one in piece.measured)
        case "condition":
            return "; ".join(piece.condition)
        case "lot_share":
            return "" if value is None else f"{100 * value:.12g} %"
        case "price_minor":
            if value is None:
                return ""
            return str(Money(minor=value, currency=piece.currency)) if piece.currency else ""
        case "came_on":
            return say_day(value) if value else ""
        case "matched_set":
            return "a matched set, not to be parted" if value else ""
        case _:
            return str(value)


def differing(one: Piece, other: Piece) -> Iterator[tuple[str, str, str]]:
    """Yield label, first and second of each line in which two versions differ."""
    for name, label in LABELS.items():
        before, after = value_says(one, name), value_says(other, name)
        if before != after:
            yield label, before or "nothing", after or "nothing"


def versions_of(history: Sequence[Said]) -> list[VersionLine]:
    """Return every writing, the last one first; the first one changed nothing."""
    made = []
    for at, one in enumerate(history):
        changed = tuple(differing(history[at - 1].piece, one.piece)) if at else ()
        made.append(VersionLine(made_at=one.made_at, bench=one.bench, changed=changed))
    return made[::-1]

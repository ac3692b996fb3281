"""The cheapest donors as long work: its solver takes a while to load."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from counterhoop.bench.long_work.source import JobSource

if TYPE_CHECKING:
    from counterhoop.parts.places.donors import Bought

OfferTold = tuple[str, int, tuple[tuple[str, int], ...], float]
"""Name, price in minor units, what it holds, the chance of each piece."""


def cheapest(
    _source: JobSource, wants: tuple[tuple[str, int], ...], offers: tuple[OfferTold, ...],
    chance: float, *, planned: bytes | None, progress: Callable[[str, float], None],
) -> Bought:  # fmt: skip
    """Return the cheapest offers that cover the wants so surely."""
    from counterhoop.parts.places.donors import Offer, donors

    progress("the cheapest donors", 0.0)
    told = [
        Offer(name=name, price_minor=price, holds=dict(holds), chance=usable)
        for name, price, holds, usable in offers
    ]
    return donors(dict(wants), told, chance=chance)

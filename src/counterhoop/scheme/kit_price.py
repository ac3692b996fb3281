"""What a kit costs when its drums share one stock."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.shop_rules import ShopFigures

UNPRICED_MINOR = 1_000_000
"""What one part that must be bought and has no price counts as in the choice (never in a total):
more than any part of a drum costs, so that a choice whose price is known goes first. Coined here,
no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KitPart:
    """Parts of one sort that the whole kit needs; ``bought`` is what the stock does not give."""

    name: str
    wanted: int
    in_stock: int
    bought: int
    each_minor: int | None

    @property
    def cost_minor(self) -> int:
        """What buying comes to; nothing where the price is not known."""
        return self.bought * (self.each_minor or 0)


def kit_parts(
    schemes: Iterable[Scheme], *, stock: Mapping[str, int], prices: Mapping[str, int | None]
) -> tuple[KitPart, ...]:
    """Add the parts of all drums, by name, and take the stock off once."""
    wanted: Counter[str] = Counter()
    for scheme in schemes:
        for line in scheme.parts:
            wanted[line.name] += line.count
    return tuple(
        KitPart(
            name=name,
            wanted=count,
            in_stock=stock.get(name, 0),
            bought=max(0, count - stock.get(name, 0)),
            each_minor=prices[name],
        )
        for name, count in sorted(wanted.items())
        if count
    )


def prices_of(schemes: Iterable[Scheme], *, figures: ShopFigures) -> dict[str, int | None]:
    """Return the price of each part that any scheme names, None where nobody knows it.

    Raises
    ------
    BadInput
        Where two schemes give one part two prices.
    """
    own = dict(figures.prices_minor)
    prices: dict[str, int | None] = {}
    for scheme in schemes:
        for line in scheme.parts:
            each = own.get(line.name, line.each_minor)
            known = prices.setdefault(line.name, each)
            if known is None:
                prices[line.name] = each
            elif each is not None and each != known:
                raise BadInput(
                    f'"{line.name}" has two prices',
                    where=f"drums.{scheme.drum}",
                    given=(known, each),
                    wanted="one price for one part",
                )
    return prices


def stock_of(stock: Sequence[tuple[str, int]]) -> dict[str, int]:
    """Add up the stock by name.

    Raises
    ------
    BadInput
        For a count below zero.
    """
    total: Counter[str] = Counter()
    for name, count in stock:
        if count < 0:
            raise BadInput("less than none in stock", where=f"stock.{name}", given=count)
        total[name] += count
    return dict(total)

"""Share the stock over the drums of a kit, so that their sheets add up to what the kit costs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.price import money_minor
from counterhoop.shell.shop_rules import ShopFigures


def stock_shared(
    chosen: Iterable[Scheme], *, stock: Mapping[str, int], figures: ShopFigures
) -> tuple[Scheme, ...]:
    """Give each chosen scheme its share of the stock, first come first served in job order.

    Returns
    -------
    tuple of Scheme
        With ``parts`` and ``criteria.money_minor`` as this kit makes them; a scheme that gets less
        than it would alone says what that comes to.
    """
    left = dict(stock)
    shared = []
    for scheme in chosen:
        parts = []
        for line in scheme.parts:
            taken = min(line.count, left.get(line.name, 0))
            left[line.name] = left.get(line.name, 0) - taken
            parts.append(replace(line, bought=line.count - taken))
        money = money_minor(tuple(parts), scheme.work, figures=figures)
        more = money - scheme.criteria.money_minor
        shared.append(
            replace(
                scheme,
                parts=tuple(parts),
                criteria=replace(scheme.criteria, money_minor=money),
                near_misses=(*scheme.near_misses, *_dearer(scheme, more)),
            )
        )
    return tuple(shared)


def _dearer(scheme: Scheme, more_minor: int) -> tuple[str, ...]:
    if more_minor <= 0:
        return ()
    return ("Its price counts what must be bought because other drums of the job take the stock.",)

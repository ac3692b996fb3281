"""Operations at the bench: what each takes, and how long it must then be left alone."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from counterhoop.shell.shop_rules import ShopFigures
from counterhoop.sources import load_table


@dataclass(frozen=True, slots=True, kw_only=True)
class Operation:
    """One thing done at the bench, counted one hole, one edge, one drum at a time.

    Attributes
    ----------
    name : str
        As it is called in the survey file ("drill a hole").
    minutes : float
        Hands at work.
    cure_hours : float
        Soak, glue or paint left alone afterwards.
    says : str
        What one of it is.
    """

    name: str
    minutes: float
    cure_hours: float
    says: str


@cache
def operations() -> tuple[Operation, ...]:
    """Return all operations that the house knows, common practice, no source.

    Examples
    --------
    >>> [o.minutes for o in operations() if o.name == "drill a hole"]
    [6.0]
    """
    return tuple(
        Operation(
            name=str(row.values["name"]),
            minutes=float(row.values["minutes"]),
            cure_hours=float(row.values.get("cure_hours", 0.0)),
            says=str(row.values["says"]),
        )
        for row in load_table("counterhoop.shell", "minutes.toml")
    )


@cache
def default_figures() -> ShopFigures:
    """Return minutes and waiting of every operation, at the default price of an hour."""
    return ShopFigures(
        minutes=tuple((o.name, o.minutes) for o in operations()),
        cure_hours=tuple((o.name, o.cure_hours) for o in operations() if o.cure_hours),
    )

"""Operations at the bench: what each takes, needs and endangers, and how long it is then left."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import Any, Literal, cast

from counterhoop.errors import BadInput
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.shell.shop_rules import ShopFigures
from counterhoop.sources import load_table

TAIL = 1.2815515655446004
"""Nine tenths of a normal lie below this many sigma."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Warmth:
    """How the room's temperature stretches a cure (common practice, no source).

    Attributes
    ----------
    at_c : float
        Temperature for which the hours are said.
    twice_for_k : float
        So much colder, and the cure takes twice as long.
    least_c : float
        Colder than this it does not cure at all, or cures badly.
    """

    at_c: float
    twice_for_k: float
    least_c: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Operation:
    """One thing done at the bench, counted one hole, one edge, one drum at a time.

    Attributes
    ----------
    name : str
        As it is called in the survey file ("drill a hole").
    per : str
        What one of it is counted by ("hole").
    quick_minutes, minutes, slow_minutes : float
        Hands at work for one: one working in ten is quicker, the usual one, one in ten slower.
    cure_hours : float
        Soak, glue or paint left alone afterwards.
    warmth : Warmth or None
        How that waiting goes by the temperature; none where it does not.
    clamps : int
        Clamps that one of it holds from the beginning until cured.
    drying : int
        Places on the drying shelf for the drum, however many are done, from the end of the
        hands' work until cured.
    air : str
        "dust" where it makes dust, "wet" where dust would spoil it, else nothing.
    unbroken : bool
        Not to be laid down half done over night or lunch.
    materials, cautions : tuple of str
        What is used up; what can go wrong, a sentence each.
    says : str
        What one of it is.
    own : bool
        The workshop has put its own minutes in place of the book's.
    """

    name: str
    per: str
    quick_minutes: float
    minutes: float
    slow_minutes: float
    says: str
    cure_hours: float = 0.0
    warmth: Warmth | None = None
    clamps: int = 0
    drying: int = 0
    air: Literal["", "dust", "wet"] = ""
    unbroken: bool = False
    materials: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    own: bool = False

    @property
    def spread(self) -> float:
        """Sigma of the logarithm of the minutes of one working, of a lognormal.

        Quick and slow are its 10th and 90th percentile.
        """
        if self.quick_minutes <= 0.0:
            return 0.0
        return math.log(self.slow_minutes / self.quick_minutes) / (2.0 * TAIL)


@cache
def operations() -> tuple[Operation, ...]:
    """Return all operations that the house knows, common practice, no source.

    Examples
    --------
    >>> [o.minutes for o in operations() if o.name == "drill a hole"]
    [6.0]
    """
    return tuple(_operation(row.values) for row in load_table("counterhoop.shell", "minutes.toml"))


def _operation(values: dict[str, Any]) -> Operation:
    warmth = values.get("warmth")
    return Operation(
        name=str(values["name"]),
        per=str(values["per"]),
        quick_minutes=float(values["quick"]),
        minutes=float(values["minutes"]),
        slow_minutes=float(values["slow"]),
        says=str(values["says"]),
        cure_hours=float(values.get("cure_hours", 0.0)),
        warmth=None if warmth is None else Warmth(**{k: float(v) for k, v in warmth.items()}),
        clamps=int(values.get("clamps", 0)),
        drying=int(values.get("drying", 0)),
        air=cast(Literal["", "dust", "wet"], values.get("air", "")),
        unbroken=bool(values.get("unbroken", False)),
        materials=tuple(values.get("materials", ())),
        cautions=tuple(values.get("cautions", ())),
    )


def operations_of(figures: ShopFigures) -> tuple[Operation, ...]:
    """Return all operations with the workshop's own minutes and waiting in place of the book's.

    Own minutes move quick and slow in proportion, so that the spread stays the book's.

    Raises
    ------
    BadInput
        For figures of work that the book has not, and for less than no time.

    Examples
    --------
    >>> own = operations_of(ShopFigures(minutes=(("drill a hole", 12.0),)))
    >>> [(o.minutes, o.own) for o in own if o.name == "drill a hole"]
    [(12.0, True)]
    """
    minutes, cure = dict(figures.minutes), dict(figures.cure_hours)
    _need_times({"minutes": minutes, "cure": cure})
    return tuple(
        _in_proportion(
            one,
            minutes=minutes.get(one.name, one.minutes),
            cure_hours=cure.get(one.name, one.cure_hours),
        )
        for one in operations()
    )


def _need_times(tables: Mapping[str, Mapping[str, float]]) -> None:
    known = [one.name for one in operations()]
    for table, times in tables.items():
        for name, time in times.items():
            if name not in known:
                raise BadInput(
                    "no such work in the operations book", where=table, given=name,
                    wanted="its name as the book has it", step=did_you_mean(name, known),
                )  # fmt: skip
            if not 0.0 <= time < math.inf:
                raise BadInput(
                    "less than no time", where=f"{table}.{name}", given=time, wanted="0 or more"
                )


def _in_proportion(one: Operation, *, minutes: float, cure_hours: float) -> Operation:
    factor = minutes / one.minutes
    return replace(
        one,
        quick_minutes=one.quick_minutes * factor,
        minutes=minutes,
        slow_minutes=one.slow_minutes * factor,
        cure_hours=cure_hours,
        own=minutes != one.minutes,
    )


@cache
def default_figures() -> ShopFigures:
    """Return minutes and waiting of every operation, at the default price of an hour."""
    return ShopFigures(
        minutes=tuple((o.name, o.minutes) for o in operations()),
        cure_hours=tuple((o.name, o.cure_hours) for o in operations() if o.cure_hours),
    )

"""Rules, prices, minutes and waiting: the workshop's own figures over the defaults."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import fields

from counterhoop.errors import BadInput
from counterhoop.quantities.angle import parse_angle
from counterhoop.quantities.cents import parse_cents
from counterhoop.quantities.duration import Duration
from counterhoop.quantities.length import parse_length
from counterhoop.quantities.money import Money
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.shell.operations import default_figures, operations
from counterhoop.shell.shop_rules import ShopFigures, ShopRules, default_rules
from counterhoop.shell.survey_file.faults import Faults
from counterhoop.shell.survey_file.shown import shown

MOST_FACTOR = 20.0
MOST_DEG = 45.0
HOUR = "hour"


def rule_names() -> dict[str, str]:
    """Return every rule as it is called in the file, and the field it fills.

    Examples
    --------
    >>> rule_names()["web"], rule_names()["lean_fixed"], rule_names()["plug_factor"]
    ('web_mm', 'lean_fixed_deg', 'plug_factor')
    >>> rule_names()["even_enough"]
    'even_enough_cents'
    """
    names = [field.name for field in fields(ShopRules)]
    return {re.sub("_(mm|deg|cents)$", "", name): name for name in names}


def resolve_rules(written: dict[str, object], *, faults: Faults) -> ShopRules:
    """Return the shop rules with what the file changes."""
    names = rule_names()
    changes: dict[str, float] = {}
    for called, given in written.items():
        where = f"rules.{called}"
        try:
            if called not in names:
                raise BadInput(
                    "no such rule",
                    where=where,
                    wanted="a shop rule by its name, such as web or lean_fixed",
                    step=did_you_mean(called[:80], names),
                )
            changes[names[called]] = _figure(given, field=names[called], where=where)
        except BadInput as fault:
            faults.add(fault)
    return default_rules().overridden(changes)


def _figure(given: object, *, field: str, where: str) -> float:
    if field.endswith("_mm"):
        return parse_length(given, where=where).mm
    if field.endswith("_deg"):
        lean_deg = parse_angle(given, where=where).deg
        if lean_deg > MOST_DEG:
            raise BadInput(
                "more than any rod can lean", where=where, given=given, wanted="2 deg or so"
            )
        return lean_deg
    if field.endswith("_cents"):
        return parse_cents(given, where=where)
    if isinstance(given, str) or not math.isfinite(float(str(given))):
        raise BadInput(
            "not a plain number", where=where, given=shown(given), wanted="a number such as 2.5"
        )
    factor = float(str(given))
    if not 0.0 < factor <= MOST_FACTOR:
        raise BadInput(
            "a factor that makes no sense", where=where, given=shown(given), wanted="such as 2.5"
        )
    return factor


def resolve_figures(
    *,
    prices: dict[str, Money],
    wraps: dict[str, Money],
    minutes: dict[str, Duration],
    cure: dict[str, Duration],
    faults: Faults,
) -> ShopFigures:
    """Return minutes, waiting and prices: the defaults with what the file changes.

    ``wraps`` are the prices of sheets by the wrap's name: one currency serves the whole job.
    """
    known = default_figures()
    amounts = {f"prices.{name}": money for name, money in prices.items()}
    amounts |= {f"wraps.{name}.price": money for name, money in wraps.items()}
    currency = _currency(amounts, hour=HOUR in prices, faults=faults)
    hour = prices.get(HOUR)
    return ShopFigures(
        currency=currency or known.currency,
        hour_minor=hour.minor if hour else known.hour_minor,
        minutes=_over(known.minutes, minutes, lambda t: t.minutes, table="minutes", faults=faults),
        prices_minor=tuple((name, m.minor) for name, m in prices.items() if name != HOUR),
        cure_hours=_over(
            known.cure_hours, cure, lambda t: t.minutes / 60.0, table="cure", faults=faults
        ),
    )


def _currency(amounts: dict[str, Money], *, hour: bool, faults: Faults) -> str:
    first = ""
    for where, money in amounts.items():
        first = first or money.currency
        if money.currency != first:
            faults.add(
                BadInput(
                    "a second currency",
                    where=where,
                    given=str(money),
                    wanted=f"{first}, one currency for the whole job",
                )
            )
    if amounts and not hour and first != default_figures().currency:
        faults.add(
            BadInput(
                f"prices in {first}, and no price of an hour",
                where="prices",
                wanted=f'hour = "30 {first}" beside them',
            )
        )
    return first


def _over(
    known: tuple[tuple[str, float], ...],
    own: dict[str, Duration],
    value: Callable[[Duration], float],
    *,
    table: str,
    faults: Faults,
) -> tuple[tuple[str, float], ...]:
    names = {operation.name.casefold(): operation.name for operation in operations()}
    merged = dict(known)
    for called, time in own.items():
        name = names.get(" ".join(called.split()).casefold())
        if name is None:
            faults.add(
                BadInput(
                    "no such operation",
                    where=f"{table}.{called}",
                    wanted='one of those known, such as "drill a hole"',
                    step=did_you_mean(called[:80], names.values()),
                )
            )
        else:
            merged[name] = value(time)
    return tuple(merged.items())

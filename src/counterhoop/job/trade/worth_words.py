"""What a colleague would say of a value by like sales."""

from __future__ import annotations

from counterhoop.job.trade.worth import NothingLike, OwnSales, Worth
from counterhoop.quantities.day import say_day
from counterhoop.quantities.money import PLACES, Money

_NAMED = 3
_FEW = 3.0


def worth_words(found: Worth | NothingLike) -> tuple[str, ...]:
    """Return sentences: the value, what it rests on, what was let go, how the span did before."""
    if isinstance(found, NothingLike):
        return (found.says,)
    says = [
        f"About {roughly(found.usual)}; eight in ten such drums bring between "
        f"{roughly(found.low)} and {roughly(found.high)}.",
        f"It rests on as much as {found.effective:.0f} equal sale{'s'[: found.effective >= 1.5]}"
        f"{', which is few' if found.effective < _FEW else ''}; as a rule such a drum stands "
        f"{found.days} day{'s'[: found.days != 1]} on the shelf.",
        "The likest: "
        + "; ".join(
            f"{one.sale.what}, {one.sale.price} on {say_day(one.sale.sold_on)} "
            f"({100 * one.share:.0f} % of the weight)"
            for one in found.like[:_NAMED]
        )
        + ".",
    ]
    if found.let_go:
        says.append(
            f"Too few sales are like it in everything: let go, in this order, "
            f"{', '.join(found.let_go)}; the span is wider for it."
        )
    if found.left_out:
        says.append(f"Left out: {found.left_out} in another currency.")
    if found.checked is None:
        says.append(
            "Too few sales of your own to say how often such a span held: it is drawn wide."
        )
    else:
        says.append(_checked_words(found.checked))
    return tuple(says)


def _checked_words(checked: OwnSales) -> str:
    times = f"{checked.stretch:.1f}"
    drawn = "so it stays" if times == "1.0" else f"so it is drawn {times} times as wide"
    return (
        f"Of your own {checked.of} sales, each valued by the others, {checked.held} lay in the "
        f"span as first drawn; {drawn}."
    )


def roughly(money: Money) -> str:
    """Print an amount to two figures, as one says it; what is under one coin stays as it is.

    Examples
    --------
    >>> roughly(Money(minor=41837, currency="GBP")), roughly(Money(minor=1234, currency="JPY"))
    ('420 GBP', '1200 JPY')
    >>> roughly(Money(minor=-850, currency="GBP"))
    '-8.50 GBP'
    """
    coin = 10 ** PLACES[money.currency]
    size = abs(money.minor)
    if size < 10 * coin:
        return str(money)
    step = 10 ** (len(str(size)) - 2)
    near = (size + step // 2) // step * step
    return f"{'-' if money.minor < 0 else ''}{near // coin} {money.currency}"


def print_coins(money: Money) -> str:
    """Print an amount without the decimals of whole coins: so one bids, and says a wage.

    Examples
    --------
    >>> [print_coins(Money(minor=minor, currency="GBP")) for minor in (14000, 1250)]
    ['140 GBP', '12.50 GBP']
    """
    coin = 10 ** PLACES[money.currency]
    return str(money) if money.minor % coin else f"{money.minor // coin} {money.currency}"

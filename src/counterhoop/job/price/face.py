"""A quote in sentences, as a client reads them."""

from __future__ import annotations

import datetime as dt

from counterhoop.job.price.quote import CONTINGENCY, NOT_SEEN, Quote
from counterhoop.job.price.rate import print_rate
from counterhoop.quantities.day import say_day
from counterhoop.quantities.money import Money, print_money
from counterhoop.scheme.phrases import counted


def face_says(quote: Quote) -> tuple[str, ...]:
    """Return what stands large: the price, the ceiling, the holes that are added."""
    extra, price, most = quote.extra_holes, print_money(quote.price), quote.ceiling.gross
    added = f"{counted(extra, 'hole')} {'is' if extra == 1 else 'are'} added to the shell"
    holes = f"{added}: that cannot be undone." if extra else "No hole is added to the shell."
    return (
        f"The price is {price}.",
        f"It does not pass {print_money(most)} without a call to you first.",
        holes,
    )


def beneath_says(quote: Quote) -> tuple[str, ...]:
    """Return what stands beneath: what it may come to, and how sure that is.

    The bounds are rounded outward to the workshop's round figure: hours are not known to a coin.
    None is said above the ceiling, which is round before tax is added, not after.
    """
    if quote.low == quote.high:
        return ("Nothing in it hangs on hours that are not known.",)
    step = quote.rules.round_to.minor
    low = quote.low.minor // step * step
    high = min(-(-quote.high.minor // step) * step, quote.ceiling.gross.minor)
    between = " and ".join(
        print_money(Money(minor=minor, currency=quote.price.currency)) for minor in (low, high)
    )
    return (f"Of ten such jobs, eight come to between {between}.",)


def put_on_says(quote: Quote) -> tuple[str, ...]:
    """Return in a sentence what of the price is for what cannot be seen before."""
    if not any(ln.key == CONTINGENCY and ln.stands.says.startswith(NOT_SEEN) for ln in quote.lines):
        return ()
    share = print_rate(quote.rules.contingency)
    return (f"In the price is {share} on top of the work, {NOT_SEEN} it is begun.",)


def terms_say(quote: Quote, *, given: dt.date | None) -> tuple[str, ...]:
    """Return the terms: until when it holds, and the deposit.

    Parameters
    ----------
    quote : Quote
    given : date or None
        The day on which it is handed out; None while it is not, and then it holds for no while.
    """
    holds = (f"This price holds until {say_day(quote.last_day(given))}.",) if given else ()
    deposit = (
        (f"A deposit of {print_money(quote.deposit)} is asked for before work begins.",)
        if quote.deposit.minor
        else ()
    )
    return (*holds, *deposit)

"""What a colleague would say of the ways to sell a drum, the best first."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from counterhoop.job.trade.outcome import Outcome, outcome
from counterhoop.job.trade.paying import MostToPay
from counterhoop.job.trade.way import Way
from counterhoop.job.trade.worth_words import print_coins, roughly
from counterhoop.quantities.money import Money
from counterhoop.scheme.phrases import counted

_GUESSED = Fraction(1, 10)
"""Nobody guesses prices nearer than to a tenth, so ways that differ by less of what they ask are
called close. Common practice, no source."""


def compared(ways: Sequence[Way], *, paid: Money, wage: Money) -> tuple[Outcome, ...]:
    """Return what each way comes to, the one that leaves most on average first.

    A drum that is sold for its owner costs nothing: what was paid counts for the other ways.
    """
    nothing = Money(minor=0, currency=paid.currency)
    every = [outcome(way, paid=nothing if way.owners else paid, wage=wage) for way in ways]
    return tuple(sorted(every, key=lambda one: (-one.left.minor, one.days, one.way.name)))


def ways_words(best_first: Sequence[Outcome]) -> tuple[str, ...]:
    """Return a sentence for each way, then one that says how plain the choice is."""
    says = [way_words(one) for one in best_first]
    if len(best_first) > 1:
        first, second = best_first[:2]
        more = first.left - second.left
        if more.minor <= _GUESSED * max(_asked(first.way), _asked(second.way)):
            days = f", {first.days} or {counted(second.days, 'day')}"
            says.append(
                f"{_begin(first.way.name)} and {second.way.name} lie too close together to call: "
                f"go by the bench that is free{days if first.days != second.days else ''}."
            )
        else:
            says.append(
                f"{_begin(first.way.name)} leaves about {roughly(more)} more than "
                f"{second.way.name}."
            )
    return tuple(says)


def way_words(one: Outcome) -> str:
    """Say what one way leaves, how far it strays, what an hour brings and how long it takes."""
    hour = f", {_an_hour(one.an_hour)} an hour" if one.an_hour else ""
    return (
        f"{_begin(one.way.name)}: on average {_over(one.left)} the wage{hour}; eight in ten "
        f"between {_over(one.low)} and {_over(one.high)} it; the wage is missed "
        f"{one.short_percent} times in a hundred; about {counted(one.days, 'day')}."
    )


def _over(left: Money) -> str:
    short = left.minor < 0
    return f"{roughly(left.times(-1))} short of" if short else f"{roughly(left)} over"


def _an_hour(brings: Money) -> str:
    return "less than nothing" if brings.minor < 0 else roughly(brings)


def most_to_pay_words(found: MostToPay, *, wage: Money, sure_percent: int | None = None) -> str:
    """Say the highest price for a wage."""
    sure = "on average" if sure_percent is None else f"{sure_percent} times in a hundred"
    if not found.reached:
        return (
            f"Not even for nothing: for {print_coins(wage)} an hour {sure} it lacks about "
            f"{roughly(found.lacks)}."
        )
    return (
        f"Pay {print_coins(found.price)} at most: then an hour still brings {print_coins(wage)} "
        f"{sure}."
    )


def _asked(way: Way) -> int:
    return sum(lot.count * lot.price.minor for lot in way.lots)


def _begin(name: str) -> str:
    return name[:1].upper() + name[1:]

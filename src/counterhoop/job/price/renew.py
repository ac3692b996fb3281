"""A quote follows its scheme, and nothing that a person wrote on it is lost."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from counterhoop.job.price.line import Origin, QuoteLine, Said, by_key
from counterhoop.quantities.money import print_money


def renewed(lines: Iterable[QuoteLine], fresh: Iterable[QuoteLine]) -> tuple[QuoteLine, ...]:
    """Return the lines of a quote after its scheme, survey, wrap, parts or rules changed.

    Lines are the same when their keys are. One that nobody touched follows its origin and goes
    with it. One that a person changed keeps the change and what it stood on; what the origin
    says instead stands beside it (``now``). One that a person changed, struck or typed is kept
    even when nothing asks for it any more (``gone``). The fresh lines keep their order, the
    others come after them in theirs.

    Raises
    ------
    BadInput
        For two lines of one key.

    Examples
    --------
    >>> from counterhoop.job.price.line import Kind
    >>> from counterhoop.quantities.money import Money
    >>> def plug(count):
    ...     said = Said(says="plug", amount=Money(minor=900 * count, currency="GBP"), count=count)
    ...     return QuoteLine(key="plug", origin=Origin.SCHEME, kind=Kind.WORK, stands=said)
    >>> mine = plug(7).edited(amount=Money(minor=5000, currency="GBP"))
    >>> news_of(renewed([mine], [plug(9)]))
    ('plug: 50.00 GBP was set when it came to 63.00 GBP for 7; now it comes to 81.00 GBP for 9',)
    """
    old, new = by_key(lines), by_key(fresh)
    kept = [_followed(old.get(key), line) for key, line in new.items()]
    left = [
        line if line.origin is Origin.TYPED else replace(line, gone=True)
        for key, line in old.items()
        if key not in new and line.touched
    ]
    return (*kept, *left)


def _followed(old: QuoteLine | None, fresh: QuoteLine) -> QuoteLine:
    if old is None:
        return fresh
    if old.stood_on is None:
        return replace(fresh, struck=old.struck)
    now = None if fresh.stands == old.stood_on else fresh.stands
    return replace(fresh, stands=old.stands, struck=old.struck, stood_on=old.stood_on, now=now)


def news_of(lines: Iterable[QuoteLine]) -> tuple[str, ...]:
    """Say of every line what a person should look at before the quote goes out."""
    return tuple(filter(None, map(_news, lines)))


def _news(line: QuoteLine) -> str:
    says = line.stands.says
    if line.gone:
        left = "left out" if line.struck else f"{_amount(line.stands)} still stands"
        return f"{says}: nothing asks for it any more; {left}"
    if line.now is not None and line.stood_on is not None:
        return (
            f"{says}: {_amount(line.stands)} was set when it came to {_counted(line.stood_on)};"
            f" now it comes to {_counted(line.now)}"
        )
    if line.stands.amount is None and line.counts:
        return f"{says}: no price is known; type one"
    return ""


def _amount(said: Said) -> str:
    return "no known price" if said.amount is None else print_money(said.amount)


def _counted(said: Said) -> str:
    return _amount(said) if said.count == 1 else f"{_amount(said)} for {said.count}"

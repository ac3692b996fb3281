"""Write on a quote: change a line, strike it, put it back, add one, set the price.

Each writes its own place of the document, so that two benches that change two lines both do; where
both change the same, the later one is shown both versions.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Final

from counterhoop.bench.folders.kinds import QUOTE
from counterhoop.bench.folders.write_thing import ThingChange, write_thing
from counterhoop.bench.price.kept_quote import (
    BOUGHT_FOR,
    DISCOUNT,
    LINES,
    PRICE,
    discount_read,
    line_written,
)
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.price.line import Kind, Origin, QuoteLine, typed_line
from counterhoop.quantities.money import Money, parse_money
from counterhoop.store.body import Json
from counterhoop.store.save import Conflict, Saved

LONGEST: Final = 160
MOST: Final = 9999


def write_line(
    shop: Workshop, job_id: str, line: QuoteLine, *, says: str | None = None,
    amount: str | None = None, count: str | None = None, currency: str, based_on: int, by: str,
) -> Saved | Conflict:  # fmt: skip
    """Write own words, an own amount or an own count on a line; what is left out stays.

    Parameters
    ----------
    line : QuoteLine
        As it was shown; what its origin said then is kept beside the change.
    amount, count : str, optional
        As typed.

    Raises
    ------
    BadInput
        For what cannot be read; ``where`` is "says", "amount" or "count".
    """
    changed = line.edited(
        says=None if says is None else _words(says),
        amount=None if amount is None else _amount(amount, currency=currency),
        count=None if count is None else _count(count),
    )
    return keep_lines(shop, job_id, (changed,), based_on=based_on, by=by)


def strike(
    shop: Workshop, job_id: str, lines: Sequence[QuoteLine], *, based_on: int, by: str
) -> Saved | Conflict:
    """Leave lines out of the price; they can be put back."""
    return keep_lines(shop, job_id, [one.strike() for one in lines], based_on=based_on, by=by)


def put_back(
    shop: Workshop, job_id: str, lines: Sequence[QuoteLine], *, based_on: int, by: str
) -> Saved | Conflict:
    """Take lines into the price again."""
    return keep_lines(shop, job_id, [one.put_back() for one in lines], based_on=based_on, by=by)


def as_it_came(
    shop: Workshop, job_id: str, line: QuoteLine, *, based_on: int, by: str
) -> Saved | Conflict:
    """Drop a person's change of a line; a line that they typed, or nothing asks for, goes."""
    if line.origin is Origin.TYPED or line.gone:
        return _write_lines(shop, job_id, {line.key: None}, based_on=based_on, by=by)
    return keep_lines(shop, job_id, (line.as_it_came(),), based_on=based_on, by=by)


def keep_over(
    shop: Workshop, job_id: str, line: QuoteLine, *, based_on: int, by: str
) -> Saved | Conflict:
    """Keep a person's change of a line although its origin says something else by now."""
    return keep_lines(shop, job_id, (line.kept_over(),), based_on=based_on, by=by)


def type_line(
    shop: Workshop, job_id: str, seen: Sequence[QuoteLine], *, says: str, amount: str,
    count: str = "1", kind: Kind = Kind.OTHER, currency: str, based_on: int, by: str,
) -> Saved | Conflict:  # fmt: skip
    """Add a line.

    Parameters
    ----------
    seen : sequence of QuoteLine
        The lines of the quote as it was shown.
    amount : str
        Of all together, as typed; below zero takes off.
    """
    taken = {line.key for line in seen}
    key = next(k for k in (f"typed: {n}" for n in range(1, len(taken) + 2)) if k not in taken)
    made = typed_line(
        key, _words(says), amount=_amount(amount, currency=currency), kind=kind,
        count=_count(count),
    )  # fmt: skip
    return keep_lines(shop, job_id, (made,), based_on=based_on, by=by)


def type_price(
    shop: Workshop, job_id: str, typed: str, *, currency: str, based_on: int, by: str
) -> Saved | Conflict:
    """Ask this before a discount, instead of what the lines come to; empty goes back to them."""
    if typed.strip():
        _amount(typed, currency=currency, where="price", below_zero=False)
    return _put(shop, job_id, PRICE, typed.strip(), based_on=based_on, by=by)


def type_discount(
    shop: Workshop, job_id: str, off: str, *, says: str = "discount", currency: str,
    based_on: int, by: str,
) -> Saved | Conflict:  # fmt: skip
    """Give a discount: "10 %", or an amount; empty takes it back."""
    said: Json = {"off": off.strip(), "says": _words(says)} if off.strip() else None
    discount_read(said if isinstance(said, dict) else None, currency=currency)
    return _put(shop, job_id, DISCOUNT, said, based_on=based_on, by=by)


def type_bought_for(
    shop: Workshop, job_id: str, typed: str, *, currency: str, based_on: int, by: str
) -> Saved | Conflict:
    """Write down what second-hand goods were bought for: tax on the margin is reckoned from it."""
    if typed.strip():
        _amount(typed, currency=currency, where="bought_for", below_zero=False)
    return _put(shop, job_id, BOUGHT_FOR, typed.strip(), based_on=based_on, by=by)


def keep_lines(
    shop: Workshop, job_id: str, lines: Sequence[QuoteLine], *, based_on: int, by: str
) -> Saved | Conflict:
    """Keep lines as they are now; one that nobody has touched is its origin's alone again."""
    given = {one.key: line_written(one) if one.touched else None for one in lines}
    return _write_lines(shop, job_id, given, based_on=based_on, by=by)


def _write_lines(
    shop: Workshop, job_id: str, given: Mapping[str, Json], *, based_on: int, by: str
) -> Saved | Conflict:
    def put(base: Json) -> Json:
        table = dict(base) if isinstance(base, dict) else {}
        held = {**_lines(table), **given}
        table[LINES] = {key: line for key, line in held.items() if line is not None}
        return table

    def same(seen: Json, newest: Json) -> bool:
        return all(_lines(seen).get(key) == _lines(newest).get(key) for key in given)

    return _thing(shop, job_id, same=same, put=put, based_on=based_on, by=by)


def _put(
    shop: Workshop, job_id: str, name: str, value: Json, *, based_on: int, by: str
) -> Saved | Conflict:
    def put(base: Json) -> Json:
        table = {k: v for k, v in base.items() if k != name} if isinstance(base, dict) else {}
        return table | ({name: value} if value else {})

    def held(body: Json) -> Json:
        return body.get(name) if isinstance(body, dict) else None

    return _thing(
        shop, job_id, same=lambda seen, newest: held(seen) == held(newest), put=put,
        based_on=based_on, by=by,
    )  # fmt: skip


def _thing(
    shop: Workshop, job_id: str, *, same: Callable[[Json, Json], bool],
    put: Callable[[Json], Json], based_on: int, by: str,
) -> Saved | Conflict:  # fmt: skip
    change = ThingChange(
        kind=QUOTE, drum="", based_on=based_on, same=same, put=lambda _seen, base: put(base)
    )
    return write_thing(shop, job_id, change, by=by)


def _lines(body: Json) -> dict[str, Json]:
    held = body.get(LINES) if isinstance(body, dict) else None
    return held if isinstance(held, dict) else {}


def _words(typed: str) -> str:
    words = " ".join(typed.split())
    if not words or len(words) > LONGEST:
        raise BadInput("a few words belong here", where="says", given=typed[:LONGEST] or None)
    return words


def _amount(typed: str, *, currency: str, where: str = "amount", below_zero: bool = True) -> Money:
    money = parse_money(typed, where=where, otherwise=currency, allow_negative=below_zero)
    if money.currency != currency:
        raise BadInput(
            "prices of this job are in another currency", where=where, given=typed,
            wanted=f"an amount in {currency}",
        )  # fmt: skip
    return money


def _count(typed: str) -> int:
    text = typed.strip()
    if not (text.isascii() and text.isdecimal() and len(text) < 5 and 1 <= int(text) <= MOST):
        raise BadInput("not a count", where="count", given=typed, wanted=f"1 to {MOST}")
    return int(text)

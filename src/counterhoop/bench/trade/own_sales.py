"""The shop's own sales: what is kept, written, put right, struck."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import SALES
from counterhoop.bench.folders.own_figures import open_with
from counterhoop.bench.folders.write_thing import ThingChange, write_thing
from counterhoop.bench.shelf.whose import key_of
from counterhoop.bench.trade.features_typed import text_of
from counterhoop.bench.trade.sale_typed import SALE, ReadSale, named, read_sale
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.trade.sale import Sale
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.store.body import Json, new_id
from counterhoop.store.save import Conflict, Saved

ROWS: Final = "sales"
STRUCK: Final = "struck"
FROM: Final = "from"
"""The drum of a job that a sale was taken from, as ``whose.key_of`` names it."""
MOST: Final = 5000


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptSale:
    """A sale as it lies in the drawer.

    Attributes
    ----------
    key : str
        Its name for programs.
    typed : mapping of str to str
    read : ReadSale
        What it says; a sale that an older program or a hand wrote wrong keeps its faults.
    struck : bool
        Left out of every value; it can be put back.
    came_from : str
        Job and drum that it was taken from; empty for one that was typed.
    """

    key: str
    typed: Mapping[str, str]
    read: ReadSale
    struck: bool = False
    came_from: str = ""

    @property
    def what(self) -> str:
        """What one calls it."""
        return self.typed.get("what") or named(self.typed)


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnSales:
    """All sales of the shop, the newest first.

    Attributes
    ----------
    kept : Kept
        The document that they lie in.
    rows : tuple of KeptSale
    currency : str
        Of amounts that are typed without one.
    """

    kept: Kept
    rows: tuple[KeptSale, ...]
    currency: str

    @property
    def counted(self) -> tuple[Sale, ...]:
        """Those by which a drum is valued."""
        return tuple(one.read.sale for one in self.rows if one.read.sale and not one.struck)

    def sale(self, key: str) -> KeptSale:
        """Return a sale.

        Raises
        ------
        BadInput
            When there is none of that name.
        """
        for one in self.rows:
            if one.key == key:
                return one
        raise BadInput("no such sale", where="sale", given=key)

    def taken_from(self, job_id: str, drum_id: str) -> KeptSale | None:
        """Return the sale that was taken from a drum of a job."""
        return next((one for one in self.rows if one.came_from == key_of(job_id, drum_id)), None)


def own_sales(shop: Workshop, *, held: Mapping[str, Kept] | None = None) -> OwnSales:
    """Return the shop's own sales.

    Parameters
    ----------
    held : mapping of str to Kept, optional
        What the workshop's drawer holds, where a page has it at hand already.
    """
    held = drawer(shop) if held is None else held
    kept, currency = held.get(SALES, Kept()), currency_of(held)
    today = shop.now().date()
    rows = [
        _kept_sale(key, row, currency=currency, today=today)
        for key, row in _rows(kept.table).items()
        if isinstance(row, dict)
    ]
    rows.sort(key=_newest_first)
    return OwnSales(kept=kept, rows=tuple(rows), currency=currency)


def currency_of(held: Mapping[str, Kept]) -> str:
    """Return the currency that the workshop prices in."""
    return open_with(held).shop.figures.currency


def write_sale(
    shop: Workshop, key: str, typed: Mapping[str, str], *, came_from: str = "", based_on: int,
    by: str,
) -> Saved | Conflict | Mapping[str, BadInput]:  # fmt: skip
    """Write a sale down, or put one right.

    Parameters
    ----------
    key : str
        Of the sale; empty for a new one.
    typed : mapping of str to str
        By ``SALE``.
    came_from : str
        Drum and job as ``shelf.whose.key_of`` names them, of a sale that is taken from a job.
    based_on : int
        The revision that the writer saw.

    Returns
    -------
    Saved, Conflict, or mapping of str to BadInput
        The last by field, when it cannot be read: nothing is kept then.

    Raises
    ------
    BadInput
        For a name that is none of a sale's, a drum that was taken already, one sale too many.
    """
    for name in typed:
        if name not in SALE:
            raise BadInput(
                "nothing that a sale says", where=name, given=name, wanted=", ".join(SALE),
                step=did_you_mean(name, SALE),
            )  # fmt: skip
    own = own_sales(shop)
    if key:
        came_from = own.sale(key).came_from
    elif came_from and any(one.came_from == came_from for one in own.rows):
        raise BadInput(
            "this drum stands among the sales already", where="sale", step="Put that one right."
        )
    elif len(own.rows) >= MOST:
        raise BadInput("one sale too many", where="sale", wanted=f"at most {MOST}")
    place = key or new_id()
    read, row = read_row(typed, key=place, own=own, today=shop.now().date())
    if read.sale is None:
        return read.faults
    body: dict[str, Json] = dict(row)
    if came_from:
        body[FROM] = came_from
    return put_rows(shop, {place: body}, based_on=based_on, by=by)


def read_row(
    typed: Mapping[str, str], *, key: str, own: OwnSales, today: dt.date
) -> tuple[ReadSale, dict[str, str]]:
    """Return a sale as it is read, and its texts as they are kept.

    Amounts keep their currency, whatever the workshop prices in one day.
    """
    row = {name: text for name in SALE if (text := text_of(typed, name))}
    read = read_sale(row, key=key, currency=own.currency, today=today)
    if read.sale is not None:
        row |= {name: str(getattr(read.sale, name)) for name in ("price", "fees", "postage")}
    return read, row


def strike_sale(
    shop: Workshop, key: str, *, struck: bool, based_on: int, by: str
) -> Saved | Conflict:
    """Leave a sale out of every value, or take it in again."""
    row = dict(_rows(own_sales(shop).kept.table).get(key) or {})
    if not row:
        raise BadInput("no such sale", where="sale", given=key)
    row.pop(STRUCK, None)
    body: dict[str, Json] = row | ({STRUCK: True} if struck else {})
    return put_rows(shop, {key: body}, based_on=based_on, by=by)


def put_rows(
    shop: Workshop, rows: Mapping[str, dict[str, Json]], *, based_on: int, by: str
) -> Saved | Conflict:
    """Keep sales under their names, whatever else is written among them meanwhile."""

    def put(_seen: Json, base: Json) -> Json:
        table = dict(base) if isinstance(base, dict) else {}
        table[ROWS] = {**_rows(table), **rows}
        return table

    def same(seen: Json, newest: Json) -> bool:
        return all(_rows(seen).get(key) == _rows(newest).get(key) for key in rows)

    change = ThingChange(kind=SALES, drum="", based_on=based_on, same=same, put=put)
    return write_thing(shop, None, change, by=by)


def _rows(body: Any) -> dict[str, Any]:
    held = body.get(ROWS) if isinstance(body, dict) else None
    return held if isinstance(held, dict) else {}


def _kept_sale(key: str, row: Mapping[str, Any], *, currency: str, today: dt.date) -> KeptSale:
    typed = {name: text for name in SALE if (text := text_of(row, name))}
    return KeptSale(
        key=key,
        typed=typed,
        read=read_sale(typed, key=key, currency=currency, today=today),
        struck=row.get(STRUCK) is True,
        came_from=text_of(row, FROM),
    )


def _newest_first(one: KeptSale) -> tuple[int, str, str]:
    sale = one.read.sale
    return (-sale.sold_on.toordinal() if sale else 0, one.what, one.key)

"""The demonstration's sales of former years, put into an empty drawer and taken back from it."""

from __future__ import annotations

import datetime as dt
import tomllib
from importlib.resources import files

from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import SALES
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.trade.own_sales import ROWS
from counterhoop.bench.workshop import Workshop
from counterhoop.store.body import Json


def put_demo_sales(shop: Workshop, *, by: str) -> None:
    """Put the invented sales into a workshop that has none."""
    kept = drawer(shop).get(SALES, Kept())
    if kept.table.get(ROWS):
        return
    rows: Json = dict(_rows(shop.now().date()))
    change = Change(kind=SALES, value={**kept.table, ROWS: rows}, based_on=kept.number)
    write_down(shop, None, change, by=by)


def put_demo_sales_away(shop: Workshop, *, by: str) -> None:
    """Take the invented sales out again; those that a person has written down stay."""
    kept = drawer(shop).get(SALES, Kept())
    rows, ours = kept.table.get(ROWS), _rows(shop.now().date())
    if not isinstance(rows, dict) or not any(key in ours for key in rows):
        return
    left = {key: row for key, row in rows.items() if key not in ours}
    change = Change(kind=SALES, value={**kept.table, ROWS: left}, based_on=kept.number)
    write_down(shop, None, change, by=by)


def _rows(today: dt.date) -> dict[str, Json]:
    text = files("counterhoop.bench").joinpath("demonstration", "sales.toml").read_text("utf-8")
    rows: dict[str, Json] = {}
    for row in tomllib.loads(text)["sale"]:
        sold_on = today - dt.timedelta(days=row.pop("days_ago"))
        rows[row.pop("key")] = row | {"sold_on": sold_on.isoformat()}
    return rows

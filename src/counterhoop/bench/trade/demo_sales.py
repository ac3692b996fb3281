"""The demonstration's sales of former years, put into an empty drawer."""

from __future__ import annotations

import datetime as dt
import tomllib
from importlib.resources import files

from counterhoop.bench.folders.kinds import SALES
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.trade.own_sales import ROWS
from counterhoop.bench.workshop import Workshop
from counterhoop.store.body import Json


def put_demo_sales(shop: Workshop, *, by: str) -> None:
    """Put the invented sales into a workshop that has none yet."""
    text = files("counterhoop.bench").joinpath("demonstration", "sales.toml").read_text("utf-8")
    today = shop.now().date()
    rows: dict[str, Json] = {}
    for row in tomllib.loads(text)["sale"]:
        sold_on = today - dt.timedelta(days=row.pop("days_ago"))
        rows[row.pop("key")] = row | {"sold_on": sold_on.isoformat()}
    write_down(shop, None, Change(kind=SALES, value={ROWS: rows}, based_on=0), by=by)

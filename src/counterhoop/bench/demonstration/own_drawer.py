"""What an invented workshop has in its own drawer: terms, open hours, a log that taught hours.

Each is put only where a workshop has said nothing yet, and taken back only as it was put.
"""

from __future__ import annotations

import datetime as dt
import tomllib
from collections.abc import Collection
from dataclasses import replace
from typing import Any, Final

from counterhoop.bench.demonstration.dates import moved_to
from counterhoop.bench.demonstration.invented import read
from counterhoop.bench.demonstration.putting import at, kept
from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import OPEN_HOURS, TERMS
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.price.terms import write_terms
from counterhoop.bench.promise.hours_open import write_open_hours
from counterhoop.bench.trade.demo_sales import put_demo_sales, put_demo_sales_away
from counterhoop.bench.workshop import Workshop
from counterhoop.quantities.duration import parse_duration
from counterhoop.store.work_log.read_log import all_workings
from counterhoop.store.work_log.write_log import correct_working, type_after

WRITTEN: Final = {TERMS: write_terms, OPEN_HOURS: write_open_hours}
EARLIER: Final = "a drum of last winter"
"""On what the log says that the work of earlier weeks was done."""
WHY_STRUCK: Final = "the demonstration was put away"


def put_drawer(shop: Workshop, *, today: dt.date, by: str) -> None:
    """Put in what the workshop has not said itself."""
    said, held = _said(today), drawer(shop)
    for kind, write in WRITTEN.items():
        now = held.get(kind, Kept())
        if not now.table:
            kept(write(shop, said[kind], based_on=now.number, by=by))
    put_demo_sales(shop, by=by)
    with shop.store.writing() as connection:
        if all_workings(connection):
            return
        for operation, count, took, day in said["log"]:
            then = at(shop, dt.datetime.combine(dt.date.fromisoformat(day), dt.time(17, 30)))
            type_after(
                connection, job_id=None, drum=EARLIER, operation=operation, count=count,
                took=parse_duration(took), day=dt.date.fromisoformat(day), stamp=then.stamp(by),
            )  # fmt: skip


def put_drawer_away(shop: Workshop, *, jobs: Collection[str], by: str) -> None:
    """Take back what still stands as it was put, and strike what the log says of these jobs."""
    said, held = _said(shop.now().astimezone().date()), drawer(shop)
    for kind in WRITTEN:
        now = held.get(kind, Kept())
        if now.table and now.table == said[kind]:
            kept(write_down(shop, None, Change(kind=kind, value={}, based_on=now.number), by=by))
    put_demo_sales_away(shop, by=by)
    stamp = shop.stamp(by)
    with shop.store.writing() as connection:
        for one in all_workings(connection):
            if one.job_id in jobs or (one.job_id is None and one.drum == EARLIER):
                correct_working(
                    connection, replace(one, struck=True), why=WHY_STRUCK, stamp=stamp
                )  # fmt: skip


def _said(today: dt.date) -> dict[str, Any]:
    return tomllib.loads(moved_to(read("drawer.toml"), today=today))

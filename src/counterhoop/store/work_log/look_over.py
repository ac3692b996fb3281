"""Look the work log over: each row by its hash, and what is in hand by the rows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from sqlalchemy import Connection, select

from counterhoop.store.row_hash import is_as_written
from counterhoop.store.tables import in_hand, turn, work_log
from counterhoop.store.work_log.read_log import stands_now


def work_log_faults(connection: Connection) -> Iterator[str]:
    """Yield what is wrong with the work log, a line each; nothing is changed."""
    rows = connection.execute(select(work_log).order_by(work_log.c.entry)).mappings().all()
    entry, began = 0, set()
    for row in rows:
        yield from (
            f"row {lost} of the work log is lost" for lost in range(entry + 1, row["entry"])
        )
        entry = row["entry"]
        began |= {entry} & {row["working"]}
        if row["working"] not in began:
            yield f"row {entry} of the work log says more of one that is not there"
        if not is_as_written(row):
            yield f"row {entry} of the work log is not what was written"
    last = connection.execute(select(turn.c.number).where(turn.c.name == "work log")).scalar() or 0
    yield from (f"row {lost} of the work log is lost" for lost in range(entry + 1, last + 1))
    if entry > last:
        yield f"the work log has {entry} rows, and only {last} were counted"
    kept = {row.bench: row.working for row in connection.execute(select(in_hand))}
    try:
        there = in_hand_by(rows)
    except (ValueError, KeyError, TypeError):
        yield "the work log can no longer be read"
        return
    for bench in sorted(kept.keys() | there.keys()):
        if kept.get(bench, 0) != there.get(bench, 0):
            yield f"at {bench} something else is in hand than the work log says"


def in_hand_by(rows: Iterable[Mapping[Any, Any]]) -> dict[str, int | None]:
    """Return what is in hand at each bench that ever picked anything up, from rows in order."""
    held: dict[str, int | None] = {}
    for one in stands_now(rows):
        if one.stretch is None:
            continue
        held.setdefault(one.bench, None)
        if one.is_open:
            held[one.bench] = one.entry
    return held

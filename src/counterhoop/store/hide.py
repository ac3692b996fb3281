"""Hiding instead of deleting, and bringing back; who did either, and when, stays on record."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from enum import Enum
from typing import Any

from sqlalchemy import ColumnElement, Connection, exists, func, insert, select, update

from counterhoop.errors import BadInput
from counterhoop.store.stamp import Stamp, read_time
from counterhoop.store.tables import document, enclosure, hiding, job, piece, piece_photograph


class Thing(Enum):
    """What can be hidden; a piece by ``hide_piece`` alone, which looks after its stock."""

    JOB = "job"
    DOCUMENT = "document"
    ENCLOSURE = "enclosure"
    PIECE = "piece"
    PHOTOGRAPH = "photograph"


IDS = {
    Thing.JOB: job.c.id,
    Thing.DOCUMENT: document.c.id,
    Thing.ENCLOSURE: enclosure.c.id,
    Thing.PIECE: piece.c.id,
    Thing.PHOTOGRAPH: piece_photograph.c.id,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Hidden:
    """One thing that is hidden now."""

    thing: Thing
    thing_id: str
    hidden_at: dt.datetime
    hidden_by: str


def hide(connection: Connection, *, thing: Thing, thing_id: str, stamp: Stamp) -> None:
    """Hide a thing; hiding what is hidden changes nothing.

    Raises
    ------
    BadInput
        When there is no such thing.
    """
    known = IDS[thing]
    if connection.execute(select(known).where(known == thing_id)).first() is None:
        raise BadInput(f"no such {thing.value}", where=thing.value, given=thing_id)
    its = (hiding.c.thing == thing.value) & (hiding.c.thing_id == thing_id)
    if connection.execute(select(hiding.c.turn).where(its, hiding.c.back_at.is_(None))).first():
        return
    turns = connection.execute(select(func.count()).where(its)).scalar_one()
    connection.execute(
        insert(hiding).values(
            thing=thing.value,
            thing_id=thing_id,
            turn=turns + 1,
            hidden_at=stamp.written,
            hidden_by=stamp.bench,
        )
    )


def bring_back(connection: Connection, *, thing: Thing, thing_id: str, stamp: Stamp) -> None:
    """Bring a hidden thing back as it was; what is not hidden stays where it is."""
    connection.execute(
        update(hiding)
        .where(hiding.c.thing == thing.value, hiding.c.thing_id == thing_id)
        .where(hiding.c.back_at.is_(None))
        .values(back_at=stamp.written, back_by=stamp.bench)
    )


def hidden_things(connection: Connection, *, thing: Thing | None = None) -> tuple[Hidden, ...]:
    """Return what is hidden now, the last hidden first."""
    wanted = select(hiding).where(hiding.c.back_at.is_(None))
    if thing is not None:
        wanted = wanted.where(hiding.c.thing == thing.value)
    rows = connection.execute(wanted.order_by(hiding.c.hidden_at.desc(), hiding.c.thing_id))
    return tuple(
        Hidden(
            thing=Thing(row.thing),
            thing_id=row.thing_id,
            hidden_at=read_time(row.hidden_at),
            hidden_by=row.hidden_by,
        )
        for row in rows
    )


def is_hidden(thing: Thing, thing_id: ColumnElement[Any]) -> ColumnElement[bool]:
    """Return the condition that a thing is hidden now."""
    return exists().where(
        hiding.c.thing == thing.value, hiding.c.thing_id == thing_id, hiding.c.back_at.is_(None)
    )

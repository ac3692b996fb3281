"""One writes on the shelf after the other, and a mark tells whether anybody has since."""

from __future__ import annotations

from sqlalchemy import Connection, select, text

from counterhoop.store.mark import Mark
from counterhoop.store.tables import shelf_turn

_TAKE = text(
    "INSERT INTO shelf_turn (id, number) VALUES (1, 1)"
    " ON CONFLICT (id) DO UPDATE SET number = shelf_turn.number + 1"
)


def take_the_shelf(connection: Connection) -> None:
    """Wait until nobody else writes on the shelf, and hold the others off until this block ends.

    Whoever takes several pieces could otherwise wait for one who waits for them. Entries and words
    are numbered by hand, so that a copy of them in another database goes on from there.
    """
    connection.execute(_TAKE)


def shelf_mark(connection: Connection) -> Mark:
    """Return the mark of the shelf: another one after each piece, movement, hiding that is written.

    Photographs it does not tell. A page that rests on jobs and on the shelf asks for both marks.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.reading``: the mark is of the state that it sees.
    """
    return (connection.execute(select(shelf_turn.c.number)).scalar_one_or_none() or 0,)

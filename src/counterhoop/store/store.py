"""An open store: the two ways to use it, and how it is opened."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from sqlalchemy import Connection as Connection
from sqlalchemy import Engine

from counterhoop.errors import CannotDo
from counterhoop.store.address import Address
from counterhoop.store.before_migration import copy_before_migration
from counterhoop.store.engine import (
    engine_for,
    for_migrating,
    for_reading,
    for_writing,
    keep_a_journal,
    reading_engine_for,
)
from counterhoop.store.faults import plain_faults
from counterhoop.store.migrate import NEWEST, move_to, shape_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Store:
    """A store that is open and has the newest shape.

    Attributes
    ----------
    address : Address
        Where it is.
    engine, reading_engine : sqlalchemy.Engine
        For this room only.
    """

    address: Address
    engine: Engine
    reading_engine: Engine

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Look at one state of the store; nothing can be written, not even by mistake."""
        with (
            plain_faults(only_looks=True),
            for_reading(self.reading_engine) as connection,
            connection.begin(),
        ):
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Write all of what is done inside, or nothing when it ends in an exception.

        What was done inside is safe on the disk once the block has been left, not before.
        """
        with plain_faults(), for_writing(self.engine) as connection, connection.begin():
            yield connection

    def close(self) -> None:
        """Let go of the database."""
        # The writer last: it is the one that can clear the journal away.
        self.reading_engine.dispose()
        self.engine.dispose()


@contextmanager
def open_store(address: Address, *, shape: str = NEWEST) -> Iterator[Store]:
    """Open a store, make it when it is not there, migrate it when it is older.

    Before the first pending migration of a store that holds anything, a copy of the database is
    made beside it, and looked over.

    Parameters
    ----------
    address : Address
        From ``address_of``.
    shape : str
        The shape to bring it to; the newest for all use but tests and the way back.

    Raises
    ------
    CannotDo
        When it is of a newer Counterhoop, of another program, damaged, or out of reach.
    """
    with plain_faults():
        address.folder.mkdir(parents=True, exist_ok=True)
        address.files.mkdir(exist_ok=True)
        engine = engine_for(address)
        store = Store(
            address=address,
            engine=engine,
            reading_engine=reading_engine_for(address, writes=engine),
        )
    try:
        _bring_to(engine, address=address, shape=shape)
        yield store
    finally:
        store.close()


def _bring_to(engine: Engine, *, address: Address, shape: str) -> None:
    with plain_faults():
        with for_reading(engine) as connection, connection.begin():
            found = shape_of(connection)
        keep_a_journal(engine)
        if found == shape:
            return
        if found:
            copy_before_migration(engine, address=address, shape=found)
        with for_migrating(engine) as connection, connection.begin():
            move_to(connection, shape)
            _need_sound_links(connection)


def _need_sound_links(connection: Connection) -> None:
    """See that a migration left no row without the one that it belongs to."""
    if connection.dialect.name != "sqlite":
        return
    if connection.exec_driver_sql("PRAGMA foreign_key_check").first() is not None:
        raise CannotDo("The store could not be brought to its new shape: it was left as it was.")

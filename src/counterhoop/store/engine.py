"""One engine for either database, with the settings that keep a typed line safe."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.pool import ConnectionPoolEntry

from counterhoop.store.address import Address

WAIT_SECONDS = 10
CACHE_KB = 32_000
_WRITES = "counterhoop_writes"
_PRAGMAS = (
    f"PRAGMA busy_timeout = {WAIT_SECONDS * 1000}",
    # FULL: a save is on the disk before the page says so, also when the power goes.
    "PRAGMA synchronous = FULL",
    "PRAGMA foreign_keys = ON",
    "PRAGMA trusted_schema = OFF",
    # A shelf of a million is gone through all over the file, and a long sheet is put in all over
    # it: the upper pages of its trees stay in memory.
    f"PRAGMA cache_size = -{CACHE_KB}",
)


def engine_for(address: Address) -> Engine:
    """Return the engine of a store, that reads and writes; nothing is opened yet."""
    if address.in_a_file:
        return sqlite_engine(str(address.file))
    return create_engine(
        address.database, pool_pre_ping=True, connect_args={"connect_timeout": WAIT_SECONDS}
    )


def reading_engine_for(address: Address, *, writes: Engine) -> Engine:
    """Return the engine that a store is looked at with.

    An SQLite file gets one of its own, that opens the file so that it cannot write, whatever is
    asked of it. On PostgreSQL each transaction says so by itself.
    """
    return sqlite_engine(str(address.file), may_write=False) if address.in_a_file else writes


def sqlite_engine(file: str, *, may_write: bool = True) -> Engine:
    """Return the engine of one database file."""
    from sqlalchemy.engine import URL

    url = URL.create("sqlite", database=file)
    pragmas: tuple[str, ...] = _PRAGMAS
    if not may_write:
        query = {"mode": "ro", "uri": "true"}
        url = URL.create("sqlite", database=Path(file).absolute().as_uri(), query=query)
        # Not even a table of its own, that goes when the connection does.
        pragmas = (*_PRAGMAS, "PRAGMA query_only = ON")
    engine = create_engine(url, connect_args={"timeout": WAIT_SECONDS})

    @event.listens_for(engine, "connect")
    def _set_up(connection: sqlite3.Connection, _record: ConnectionPoolEntry) -> None:
        # The driver would begin transactions late and by itself: _begin does it instead.
        connection.isolation_level = None
        for pragma in pragmas:
            connection.execute(pragma)
        if not may_write:
            # Another file that is taken in beside this one could be written.
            connection.setlimit(sqlite3.SQLITE_LIMIT_ATTACHED, 0)

    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        # A write that begins as a read could find the file locked half-way: IMMEDIATE waits first.
        writes = connection.get_execution_options().get(_WRITES, False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")

    return engine


def for_reading(engine: Engine) -> Connection:
    """Return a connection that sees one state of the store from its first look to its last."""
    connection = engine.connect()
    if engine.dialect.name == "postgresql":
        options: dict[str, Any] = {"postgresql_readonly": True}
        return connection.execution_options(isolation_level="REPEATABLE READ", **options)
    return connection


def for_writing(engine: Engine) -> Connection:
    """Return a connection whose transactions write."""
    return engine.connect().execution_options(**{_WRITES: True})


def keep_a_journal(engine: Engine) -> None:
    """Let readers go on while one writes; the file remembers it, so only our own is told."""
    with engine.connect() as connection:
        held = connection.connection.driver_connection
        if isinstance(held, sqlite3.Connection):
            held.execute("PRAGMA journal_mode = WAL")


@contextmanager
def for_migrating(engine: Engine) -> Iterator[Connection]:
    """Give a writing connection on which tables may be copied and dropped.

    SQLite would follow the links of a table that is dropped and empty others: it must not while a
    migration runs, and can only be told so before the transaction begins.
    """
    with for_writing(engine) as connection:
        held = connection.connection.driver_connection
        if not isinstance(held, sqlite3.Connection):
            yield connection
            return
        held.execute("PRAGMA foreign_keys = OFF")
        try:
            yield connection
        finally:
            held.execute("PRAGMA foreign_keys = ON")

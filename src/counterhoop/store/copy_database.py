"""A copy of the database in one SQLite file, whichever database it lies in."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from sqlalchemy import Connection, Engine, MetaData, insert, select

from counterhoop.errors import CannotDo
from counterhoop.store.engine import for_reading, for_writing, sqlite_engine
from counterhoop.store.migrate import move_to, shape_of
from counterhoop.store.to_disk import flush_file, flush_folder

ROWS_AT_ONCE = 500


def copy_database(engine: Engine, *, to: Path) -> None:
    """Write one state of a store's database to a new file and look the copy over.

    Others may go on saving meanwhile. A PostgreSQL database becomes an SQLite file of the same
    shape, so that one sort of copy serves everywhere.

    Parameters
    ----------
    engine : sqlalchemy.Engine
        Of the store.
    to : pathlib.Path
        A file that is not there yet.

    Raises
    ------
    CannotDo
        When the copy is not sound; the file is then taken away again.
    """
    try:
        if engine.dialect.name == "sqlite":
            _copy_pages(engine, to=to)
        else:
            _copy_into_file(engine, to=to)
        faults = faults_of_file(to)
        if faults:
            raise CannotDo(
                f"The copy of the database is not sound ({faults[0]}): nothing was done."
            )
    except BaseException:
        to.unlink(missing_ok=True)
        raise
    flush_file(to)
    flush_folder(to.parent)


def faults_of_file(file: Path) -> list[str]:
    """Return what SQLite's own integrity check says against a database file."""
    with closing(sqlite3.connect(file)) as connection:
        try:
            said = [str(row[0]) for row in connection.execute("PRAGMA integrity_check")]
            loose = connection.execute("PRAGMA foreign_key_check").fetchall()
        except sqlite3.DatabaseError as fault:
            return [str(fault)]
    return [line for line in said if line != "ok"] + [f"a loose row in {row[0]}" for row in loose]


def copy_rows(source: Connection, target: Connection) -> None:
    """Copy every row of one database into another that has the same shape and no rows."""
    tables = MetaData()
    tables.reflect(source)
    for table in tables.sorted_tables:
        if table.name == "alembic_version":
            continue
        result = source.execution_options(stream_results=True).execute(select(table))
        for rows in result.mappings().partitions(ROWS_AT_ONCE):
            target.execute(insert(table), [dict(row) for row in rows])


def _copy_pages(engine: Engine, *, to: Path) -> None:
    with engine.connect() as connection, closing(sqlite3.connect(to)) as copy:
        held = connection.connection.driver_connection
        assert isinstance(held, sqlite3.Connection)
        held.backup(copy)
        # One file, without the journal that an open store keeps beside it.
        copy.execute("PRAGMA journal_mode = DELETE")


def _copy_into_file(engine: Engine, *, to: Path) -> None:
    copy_engine = sqlite_engine(str(to))
    try:
        with (
            for_reading(engine) as source,
            for_writing(copy_engine) as target,
            source.begin(),
            target.begin(),
        ):
            move_to(target, shape_of(source))
            copy_rows(source, target)
    finally:
        copy_engine.dispose()

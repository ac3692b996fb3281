"""Which shape a store has, and the way from there to another."""

from __future__ import annotations

from sqlalchemy import Connection, inspect

from counterhoop.errors import CannotDo

NEWEST = "0008"
APPLICATION_ID = 0x43684F70
"""What SQLite keeps in the head of the file to tell a Counterhoop store from any other: "ChOp"."""

_VERSION_TABLE = (
    "CREATE TABLE IF NOT EXISTS alembic_version"
    " (version_num TEXT NOT NULL CONSTRAINT alembic_version_pkc PRIMARY KEY)"
)


def shape_of(connection: Connection) -> str:
    """Return the number of the last migration that a database has been through; "" when new.

    Raises
    ------
    CannotDo
        When the database holds something else, or was written by a newer Counterhoop.
    """
    names = set(inspect(connection).get_table_names())
    if connection.dialect.name == "sqlite":
        _need_our_file(connection, empty=not names)
    if not names:
        return ""
    if "alembic_version" not in names or (len(names) > 1 and "document" not in names):
        raise CannotDo(
            "This database holds something else, not a Counterhoop store: nothing was touched."
            " Give the address of an empty one."
        )
    found = connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalars().all()
    shape = str(found[0]) if found else ""
    if shape > NEWEST:
        raise CannotDo(_newer(shape))
    return shape


def _newer(shape: str) -> str:
    return (
        f"This store was written by a newer Counterhoop (its shape is {int(shape)}, this one knows"
        f" up to {int(NEWEST)}): nothing was touched. Install the newer one, or restore a backup"
        " from before it."
    )


def _need_our_file(connection: Connection, *, empty: bool) -> None:
    mark = connection.exec_driver_sql("PRAGMA application_id").scalar_one()
    shape = connection.exec_driver_sql("PRAGMA user_version").scalar_one()
    if empty and not mark and not shape:
        return
    if mark != APPLICATION_ID:
        raise CannotDo(
            "This file is a database of another program: nothing was touched."
            " Give another folder with --data."
        )
    if shape > int(NEWEST):
        raise CannotDo(_newer(str(shape)))


def move_to(connection: Connection, shape: str) -> None:
    """Bring a database to a shape, up or down, inside the transaction that the caller began.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        With a writing transaction begun.
    shape : str
        Number of a migration, "" for none.
    """
    from alembic import command
    from alembic.config import Config

    sqlite = connection.dialect.name == "sqlite"
    if not sqlite:
        # Two programs that start together must not both migrate.
        connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({APPLICATION_ID})")
    connection.exec_driver_sql(_VERSION_TABLE + (" STRICT" if sqlite else ""))
    config = Config()
    config.set_main_option("script_location", "counterhoop.store:migrations")
    config.attributes["connection"] = connection
    now = shape_of_begun(connection)
    if shape >= now:
        command.upgrade(config, shape or "base")
    else:
        command.downgrade(config, shape or "base")
    if sqlite:
        connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.exec_driver_sql(f"PRAGMA user_version = {int(shape or 0)}")


def shape_of_begun(connection: Connection) -> str:
    """Return the shape of a database whose version table is there."""
    found = connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalars().all()
    return str(found[0]) if found else ""

"""A store that the tests made by the statements of the first is the one that migrations make.

Truth: the migrations themselves, run on another empty database; both are compared by what each
database says of itself.
"""

from __future__ import annotations

from collections.abc import Callable

from sqlalchemy import Connection

from counterhoop.store.address import Address
from counterhoop.store.engine import engine_for, for_migrating
from counterhoop.store.migrate import NEWEST, move_to
from store_made_once import MovesAgain

SAYS = {
    "sqlite": (
        "SELECT type, name, tbl_name, sql FROM sqlite_master ORDER BY type, name",
        "PRAGMA application_id",
        "PRAGMA user_version",
    ),
    "postgresql": (
        "SELECT table_name, column_name, ordinal_position, data_type, is_nullable, column_default"
        " FROM information_schema.columns WHERE table_schema = 'public' ORDER BY 1, 2",
        "SELECT indexdef FROM pg_indexes WHERE schemaname = 'public' ORDER BY 1",
        "SELECT conrelid::regclass::text, conname, pg_get_constraintdef(oid) FROM pg_constraint"
        " WHERE connamespace = 'public'::regnamespace ORDER BY 1, 2",
        "SELECT pg_get_triggerdef(oid) FROM pg_trigger WHERE NOT tgisinternal ORDER BY 1",
    ),
}


def said(connection: Connection) -> list[list[tuple[object, ...]]]:
    asked = (*SAYS[connection.dialect.name], "SELECT version_num FROM alembic_version")
    return [[tuple(row) for row in connection.exec_driver_sql(one)] for one in asked]


def test_it_is_what_the_migrations_make(new_address: Callable[[str], Address]) -> None:
    made, move = [], MovesAgain()
    for name, way in (("migrated", move_to), ("first", move), ("again", move)):
        address = new_address(name)
        address.folder.mkdir()
        engine = engine_for(address)
        with for_migrating(engine) as connection, connection.begin():
            way(connection, NEWEST)
            made.append(said(connection))
        engine.dispose()
    assert sum(map(len, made[0])) > 50
    assert made[1] == made[0]
    assert made[2] == made[0]

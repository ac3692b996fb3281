"""The few types of column that SQLite's STRICT tables and PostgreSQL both take, and all tables."""

from __future__ import annotations

from sqlalchemy import BigInteger, Integer, LargeBinary, MetaData, Text

# SQLite knows one whole number, and STRICT refuses the name BIGINT for it.
WHOLE = BigInteger().with_variant(Integer(), "sqlite")
TEXT = Text()
BYTES = LargeBinary()

NAMING = {
    "pk": "pk_%(table_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
}
"""How constraints are named, so that a later migration can find them on either database."""

METADATA = MetaData(naming_convention=NAMING)

"""Run the migrations on the connection that the store hands over; alembic loads this file."""

from __future__ import annotations

from alembic import context

from counterhoop.store.tables import METADATA

connection = context.config.attributes["connection"]
context.configure(
    connection=connection,
    target_metadata=METADATA,
    # SQLite cannot alter most things in place: alembic then copies the table.
    render_as_batch=connection.dialect.name == "sqlite",
    transaction_per_migration=False,
)
# The store began the transaction and ends it.
context.run_migrations()

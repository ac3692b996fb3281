"""The steps from one shape of the store to the next, as alembic runs them."""

"""The hash of a row that is never changed, over all that stands in it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from counterhoop.store.body import hash_of, write_body


def hash_of_row(row: Mapping[Any, Any]) -> str:
    """Return the hash of a row: of all its columns but the hash, in the order of their names."""
    told = {name: row[name] for name in sorted(row) if name != "sha256"}
    return hash_of(write_body(told), None)


def is_as_written(row: Mapping[Any, Any]) -> bool:
    """Tell whether a row still is what its hash was made of."""
    return bool(hash_of_row(row) == row["sha256"])

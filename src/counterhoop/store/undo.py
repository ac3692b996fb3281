"""Undo: an earlier revision is chosen again, on top of all the others."""

from __future__ import annotations

from sqlalchemy import Connection

from counterhoop.errors import CannotDo
from counterhoop.store.revision import document_by_id, revision_of
from counterhoop.store.save import Conflict, Saved, add_revision
from counterhoop.store.stamp import Stamp


def choose_revision(
    connection: Connection, *, document_id: str, number: int, based_on: int, stamp: Stamp
) -> Saved | Conflict:
    """Make an earlier revision the newest again; those between stay in the history.

    Raises
    ------
    BadInput
        When there is no such revision.
    CannotDo
        When the document says how a drum was found.
    """
    found = document_by_id(connection, document_id)
    if found.as_found is not None:
        raise CannotDo(
            "This is how the drum was found: a correction is taken back by another correction,"
            " so that both stay on record."
        )
    earlier = revision_of(connection, document_id=document_id, number=number)
    return add_revision(
        connection,
        found,
        body=earlier.body,
        based_on=based_on,
        stamp=stamp,
        original=earlier.original,
        chosen_from=number,
    )

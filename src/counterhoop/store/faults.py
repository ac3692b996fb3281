"""What a database says when it cannot, in the words of the bench."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError, OperationalError

from counterhoop.errors import CannotDo, DoesNotAnswer

NO_ROOM = (
    "There is no room left on the disk, so nothing of this was kept; what was saved before is safe."
    " Make room and save again."
)
_REFUSED = (
    "The disk did not take it (it may be full, or failing), so nothing of this was kept;"
    " what was saved before is safe. Make room, or look after the disk, and save again."
)
_BUSY = (
    "Someone else is writing in this store and did not finish in time, so nothing of this was kept."
    " Save again."
)
_DAMAGED = (
    "The database file is damaged or is not a Counterhoop store."
    " Leave it where it is, and restore the newest backup into another folder."
)
_SILENT = (
    "The database does not answer, so nothing of this is known to be kept."
    " See that it runs and can be reached, then look and save again."
)

# Codes from the PostgreSQL manual, appendix A, error codes (from memory).
_POSTGRESQL = {"53100": NO_ROOM, "40001": _BUSY, "40P01": _BUSY, "55P03": _BUSY}


@contextmanager
def plain_faults(*, only_looks: bool = False) -> Iterator[None]:
    """Turn what the machine cannot do into one sentence; faults of this package pass through.

    Parameters
    ----------
    only_looks : bool
        Whether nothing should be written inside: writing is then a fault of this package.
    """
    try:
        yield
    except DBAPIError as fault:
        sentence = _sentence(fault)
        if not sentence or (only_looks and _has_written(fault)):
            raise
        raise (DoesNotAnswer if sentence is _SILENT else CannotDo)(sentence) from fault
    except OSError as fault:
        raise CannotDo(say_os_fault(fault)) from fault


def say_os_fault(fault: OSError) -> str:
    """Say what the file system could not do."""
    import errno

    if fault.errno in (errno.ENOSPC, errno.EFBIG, errno.EDQUOT):
        return NO_ROOM
    return f"The folder cannot be used: {fault.strerror or fault}: {fault.filename or ''}"


def _has_written(fault: DBAPIError) -> bool:
    # The bare code only: its extended ones are about a file or folder that is protected.
    return getattr(fault.orig, "sqlite_errorcode", 0) == sqlite3.SQLITE_READONLY


def _sentence(fault: DBAPIError) -> str:
    cause = fault.orig
    if not isinstance(cause, sqlite3.Error):
        state = getattr(cause, "sqlstate", None)
        if state in _POSTGRESQL:
            return _POSTGRESQL[state]
        lost = isinstance(fault, OperationalError) or fault.connection_invalidated
        return _SILENT if lost else ""
    code = getattr(cause, "sqlite_errorcode", 0) & 0xFF
    return {
        sqlite3.SQLITE_FULL: NO_ROOM,
        sqlite3.SQLITE_IOERR: _REFUSED,
        sqlite3.SQLITE_BUSY: _BUSY,
        sqlite3.SQLITE_LOCKED: _BUSY,
        sqlite3.SQLITE_CORRUPT: _DAMAGED,
        sqlite3.SQLITE_NOTADB: _DAMAGED,
        sqlite3.SQLITE_READONLY: "This store may only be read: its file or folder is protected.",
        sqlite3.SQLITE_CANTOPEN: "The database file cannot be opened or made in this folder.",
    }.get(code, "")

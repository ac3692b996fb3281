"""Look a store over: hash everything anew, and say what is missing and what belongs to nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from sqlalchemy import Connection, func, select

from counterhoop.store.as_found import moved_without_correction
from counterhoop.store.body import hash_of
from counterhoop.store.copies.orphans import orphans_of
from counterhoop.store.enclosures.keep import hash_of_file, place_of
from counterhoop.store.hide import IDS
from counterhoop.store.revision import document_by_id
from counterhoop.store.running.look_over import issued_faults
from counterhoop.store.shelf.look_over import shelf_faults
from counterhoop.store.store import Store
from counterhoop.store.tables import document, hiding, kept_file, piece, revision
from counterhoop.store.work_log.look_over import work_log_faults

PIECES_A_FILE = 25
"""So many pieces of the shelf are looked over in the time that a photograph takes, about."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What looking a store over has shown.

    Attributes
    ----------
    revisions, files : int
        How many were hashed.
    faults : tuple of str
        What is damaged or lost, a line each.
    leftovers : tuple of str
        Files that belong to nothing: an upload that was broken off, a photograph that was turned
        away. They do no harm; ``store verify --put-away`` moves them.
    """

    revisions: int
    files: int
    faults: tuple[str, ...]
    leftovers: tuple[str, ...]

    @property
    def sound(self) -> bool:
        """Whether everything that was saved is there, and is what was saved."""
        return not self.faults


def verify(store: Store, *, progress: Callable[[float], None] = lambda _share: None) -> Verdict:
    """Look everything over; nothing is changed.

    ``progress`` is called with the share done, 0 to 1; when it raises, that is the end of it.
    """
    with store.reading() as connection:
        faults = [*_database(connection), *_documents(connection), *_hidden(connection)]
        faults += [*issued_faults(connection), *work_log_faults(connection)]
        revisions = connection.execute(select(func.count()).select_from(revision)).scalar_one()
        kept = {row.sha256: row.size for row in connection.execute(select(kept_file))}
        pieces = connection.execute(select(func.count()).select_from(piece)).scalar_one()
        shelf = pieces / PIECES_A_FILE
        whole = max(shelf + len(kept), 1)
        faults += shelf_faults(
            connection, progress=lambda done: progress(done / PIECES_A_FILE / whole)
        )
    faults += _files(store, kept, progress=lambda done: progress((shelf + done) / whole))
    return Verdict(
        revisions=revisions,
        files=len(kept),
        faults=tuple(faults),
        leftovers=tuple(
            f"{what}: {file.relative_to(store.address.files).as_posix()}"
            for what, file in orphans_of(store, kept=set(kept))
        ),
    )


def _database(connection: Connection) -> Iterator[str]:
    if connection.dialect.name != "sqlite":
        return
    for line in connection.exec_driver_sql("PRAGMA integrity_check").scalars():
        if line != "ok":
            yield f"database: {line}"
    for row in connection.exec_driver_sql("PRAGMA foreign_key_check"):
        yield f"database: a row in {row[0]} has lost what it belongs to"


def _documents(connection: Connection) -> Iterator[str]:
    columns = (revision.c.document_id, revision.c.number, revision.c.body, revision.c.original)
    rows = connection.execution_options(yield_per=200).execute(select(*columns, revision.c.sha256))
    for row in rows:
        if hash_of(row.body, row.original) != row.sha256:
            yield f"revision {row.number} of document {row.document_id} is not what was saved"
    counted = (
        select(document.c.id, document.c.head, func.count(revision.c.number).label("there"))
        .outerjoin(revision)
        .group_by(document.c.id, document.c.head)
    )
    for row in connection.execute(counted).all():
        if row.there != row.head:
            yield f"document {row.id} has {row.there} of its {row.head} revisions"
    dated = select(document.c.id).join(revision, (revision.c.document_id == document.c.id))
    dated = dated.where(revision.c.number == document.c.head)
    for document_id in connection.execute(
        dated.where(document.c.changed_at.is_distinct_from(revision.c.made_at))
    ).scalars():
        yield f"document {document_id} names another time than its newest revision"
    settled = select(document.c.id).where(document.c.as_found.is_not(None))
    for document_id in connection.execute(settled).scalars().all():
        try:
            moved = moved_without_correction(connection, document_by_id(connection, document_id))
        except ValueError:  # A body or a place that can no longer be read.
            moved = True
        if moved:
            yield f"document {document_id} says something else than was found and corrected"


def _hidden(connection: Connection) -> Iterator[str]:
    known = {
        thing.value: set(connection.execute(select(ids)).scalars()) for thing, ids in IDS.items()
    }
    for row in connection.execute(select(hiding)):
        if row.thing_id not in known[row.thing]:
            yield f"a {row.thing} that is hidden is not there: {row.thing_id}"


def _files(store: Store, kept: dict[str, int], *, progress: Callable[[int], None]) -> Iterator[str]:
    for done, sha256 in enumerate(sorted(kept)):
        progress(done)
        file = place_of(store.address.files, sha256)
        if not file.is_file():
            yield f"missing file: {sha256}"
        elif file.stat().st_size != kept[sha256] or hash_of_file(file) != sha256:
            yield f"changed file: {sha256}"

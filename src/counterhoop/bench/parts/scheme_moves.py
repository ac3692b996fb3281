"""What schemes set aside, moved and put back again."""

from __future__ import annotations

from counterhoop.bench.folders.folder import job_of
from counterhoop.bench.shelf.of_fittings import SCHEME, Lying, lying
from counterhoop.bench.shelf.whose import key_of
from counterhoop.parts.movement import Movement, MovementKind
from counterhoop.store.newest import folder_documents
from counterhoop.store.shelf.look_up import Kept
from counterhoop.store.shelf.mark import take_the_shelf
from counterhoop.store.shelf.move import move, set_aside_for
from counterhoop.store.stamp import Stamp
from counterhoop.store.store import Connection


def release(connection: Connection, job_id: str, *, stamp: Stamp, drum_id: str = "") -> None:
    """Put back what schemes set aside for a drum, or for every drum of a job.

    What people set aside stays: whoever put it there knows why.
    """
    drums = [drum_id]
    if not drum_id:
        job = job_of(job_id, folder_documents(connection, job_id))
        drums = [one.id for one in (*job.drums, *job.hidden_drums)]
    take_the_shelf(connection)
    for key in (key_of(job_id, one) for one in drums):
        for one in held_for(connection, key):
            if count := one.by_scheme(key):
                back = for_a_scheme("put back", one.kept, count, key=key, client="", stamp=stamp)
                move(connection, back)


def held_for(connection: Connection, key: str) -> list[Lying]:
    """Return the pieces that are set aside for a drum or a job."""
    return [lying(connection, one.kept) for one in set_aside_for(connection, key)]


def for_a_scheme(
    kind: MovementKind, kept: Kept, count: int, *, key: str, client: str, stamp: Stamp
) -> Movement:
    """Return a movement that a scheme asks for."""
    return Movement(
        piece_id=kept.piece.id, kind=kind, count=count, on=stamp.when, job=key, client=client,
        bench=stamp.bench, why=SCHEME,
    )  # fmt: skip

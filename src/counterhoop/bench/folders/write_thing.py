"""Write one thing of a document while others write other things of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from counterhoop.bench.folders.folder import Kept, drawer, kept_job
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.body import Json
from counterhoop.store.revision import find_document, revision_of
from counterhoop.store.save import Conflict, Saved

MOST_TRIES = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class ThingChange:
    """One thing that is to stand in a drum's document.

    Attributes
    ----------
    kind, drum : str
        The document; no drum for one of the job as a whole.
    based_on : int
        The revision that the writer saw; 0 before the first.
    same : callable
        Tells of two bodies whether the thing stands in both alike: the one that the writer saw,
        and the newest. Then the change goes into the newest, whatever else was changed there.
    put : callable
        Returns a body with the change in it, from the body that the writer saw and the one to put
        it into.
    why : str
        The reason, where a drum as found is corrected.
    """

    kind: str
    drum: str
    based_on: int
    same: Callable[[Json, Json], bool]
    put: Callable[[Json, Json], Json]
    why: str = ""


def write_thing(
    shop: Workshop, job_id: str | None, change: ThingChange, *, by: str
) -> Saved | Conflict:
    """Write a thing, on top of what others wrote elsewhere in the document meanwhile.

    Parameters
    ----------
    job_id : str or None
        The folder; None for the workshop's own drawer.

    Returns
    -------
    Saved or Conflict
        ``Conflict`` when somebody changed the very thing.
    """
    seen = body_seen(shop, job_id, change)
    done: Saved | Conflict | None = None
    for _ in range(MOST_TRIES):
        kept = _kept(shop, job_id, change)
        alike = (
            kept.number == change.based_on
            or change.same(seen, kept.body)
            # Written twice, because the answer to the first was lost on its way.
            or change.put(seen, kept.body) == kept.body
        )
        base, number = (kept.body, kept.number) if alike else (seen, change.based_on)
        done = write_down(
            shop,
            job_id,
            Change(
                kind=change.kind, name=change.drum, pointer="", value=change.put(seen, base),
                based_on=number, why=change.why,
            ),
            by=by,
        )  # fmt: skip
        if isinstance(done, Saved) or not alike:
            break
    assert done is not None
    return done


def _kept(shop: Workshop, job_id: str | None, change: ThingChange) -> Kept:
    if job_id is None:
        return drawer(shop).get(change.kind, Kept())
    job = kept_job(shop, job_id)
    return (job.drum(change.drum) if change.drum else job).kept(change.kind)


def body_seen(shop: Workshop, job_id: str | None, change: ThingChange) -> Json:
    """Return what the writer saw.

    Raises
    ------
    BadInput
        When there is no such revision.
    """
    if not change.based_on:
        return {}
    with shop.store.reading() as connection:
        found = find_document(connection, job_id=job_id, kind=change.kind, name=change.drum)
        if found is None:
            raise BadInput(
                "what this page was based on is not there", where="based_on",
                given=change.based_on, step="Open the page again",
            )  # fmt: skip
        return revision_of(connection, document_id=found.id, number=change.based_on).body

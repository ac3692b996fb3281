"""Write something down in a folder: a new revision, or both versions when somebody was faster."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from counterhoop.bench.folders.kinds import (
    CHOICE,
    JOB,
    KEPT_APART,
    KIT,
    SURVEY,
    TUNING,
    WISH,
    WISHED,
    WORDS,
)
from counterhoop.bench.folders.tabs import keep_tabs
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.as_found import correct
from counterhoop.store.body import Json, write_body
from counterhoop.store.job_folder import LABEL
from counterhoop.store.pointer import NOTHING, Nothing, value_at, with_value, write_pointer
from counterhoop.store.revision import Document, find_document, newest, revision_of
from counterhoop.store.save import Conflict, Saved, save
from counterhoop.store.stamp import Stamp
from counterhoop.store.store import Connection

IN_THE_FILE = (JOB, SURVEY, WISH, CHOICE, TUNING, KIT)
"""Kinds that are written out as a survey file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One thing that a person writes.

    Attributes
    ----------
    kind, name : str
        Of the document; the name is a drum's for programs, or empty.
    pointer : str
        The place in it ("/holes/2"); empty for all of it.
    value : Json or Nothing
        What stands there from now on; ``NOTHING`` takes it away.
    based_on : int
        The revision that the writer saw.
    why : str
        The reason, where a drum as found is corrected.
    """

    kind: str
    name: str = ""
    pointer: str = ""
    value: Json | Nothing
    based_on: int
    why: str = ""


def write_down(shop: Workshop, job_id: str | None, change: Change, *, by: str) -> Saved | Conflict:
    """Keep a change as a new revision.

    Parameters
    ----------
    shop : Workshop
    job_id : str or None
        The folder; None for the workshop's own drawer.
    by : str
        The bench that writes.

    Returns
    -------
    Saved or Conflict
        ``Conflict`` when somebody saved since: nothing was kept.

    Raises
    ------
    BadInput
        When a drum as found is corrected without a reason, or a place is not there.
    """
    stamp = shop.stamp(by)
    with shop.store.writing() as connection:
        done = write_change(connection, job_id, change, stamp=stamp)
        if isinstance(done, Saved) and job_id is not None:
            if change.kind == JOB:
                keep_label(connection, job_id, stamp=stamp)
            if change.kind in (SURVEY, JOB):
                keep_tabs(connection, job_id)
    return done


def write_change(
    connection: Connection, job_id: str | None, change: Change, *, stamp: Stamp
) -> Saved | Conflict:
    """Keep a change inside a block that is writing already."""
    found = find_document(connection, job_id=job_id, kind=change.kind, name=change.name)
    before: Json = None
    if change.based_on:
        if found is None:
            raise BadInput(
                f"{WORDS.get(change.kind, change.kind)} is not there", where="based_on",
                given=change.based_on, step="Open the page again",
            )  # fmt: skip
        before = revision_of(connection, document_id=found.id, number=change.based_on).body
    after = _changed(before, change)
    need_room_for(change.kind, after)
    # As text: a changed order, or yes in place of 1, is a change that Python calls equal.
    said = found is not None and change.based_on == found.head
    if found is not None and said and write_body(before) == write_body(after):
        return Saved(revision=newest(connection, found))
    if found is not None and found.as_found is not None:
        return _corrected(connection, found, before, after, change, stamp=stamp)
    return save(
        connection, job_id=job_id, kind=change.kind, name=change.name, body=after,
        based_on=change.based_on, stamp=stamp,
    )  # fmt: skip


def _changed(before: Json, change: Change) -> Json:
    if not change.pointer:
        return None if isinstance(change.value, Nothing) else change.value
    body: Json = {} if before is None else before
    *way, last = change.pointer.split("/")[1:]
    # Tables and lists on the way to a place that is written for the first time.
    for depth in range(1, len(way) + 1):
        here = "/" + "/".join(way[:depth])
        if isinstance(value_at(body, here), Nothing):
            inner = way[depth] if depth < len(way) else last
            body = with_value(body, here, [] if inner.isdigit() else {})
    holder = value_at(body, "/" + "/".join(way)) if way else body
    if isinstance(change.value, Nothing) and isinstance(holder, list):
        place = int(last)
        kept = [inner for number, inner in enumerate(holder) if number != place]
        return with_value(body, "/" + "/".join(way), kept if kept else NOTHING)
    return with_value(body, change.pointer, change.value)


def _corrected(
    connection: Connection, found: Document, before: Json, after: Json, change: Change, *,
    stamp: Stamp,
) -> Saved | Conflict:  # fmt: skip
    """Correct a drum as found, one place after another, each on record with the reason."""
    if not change.why.strip():
        raise BadInput(
            "this is how the drum was found",
            where="why",
            wanted='the reason for correcting it, such as "read the tape from the wrong end"',
        )
    based_on = change.based_on
    now = newest(connection, found)
    if now.bench == stamp.bench and write_body(now.body) == write_body(after):
        # Sent twice, because the answer to the first was lost on its way.
        return Saved(revision=now)
    done: Saved | Conflict | None = None
    for pointer, value in differences(before, after):
        done = correct(
            connection, document_id=found.id, pointer=pointer, new=value, why=change.why,
            based_on=based_on, stamp=stamp,
        )  # fmt: skip
        if isinstance(done, Conflict):
            return done
        based_on = done.revision.number
    return done or Saved(revision=newest(connection, found))


def differences(
    before: Json, after: Json, *, way: tuple[str, ...] = ()
) -> Iterator[tuple[str, Json | Nothing]]:
    """Yield the places at which two bodies differ, with what stands there afterwards.

    Lists of one length are compared place by place; one that grew or shrank goes whole.

    Examples
    --------
    >>> list(differences({"wall": "5 mm", "holes": [1, 2]}, {"wall": "6 mm", "holes": [1]}))
    [('/wall', '6 mm'), ('/holes', [1])]
    """
    if isinstance(before, dict) and isinstance(after, dict):
        for name in dict.fromkeys((*before, *after)):
            if name not in after:
                yield write_pointer([*way, name]), NOTHING
            elif name not in before:
                yield write_pointer([*way, name]), after[name]
            else:
                yield from differences(before[name], after[name], way=(*way, name))
    elif isinstance(before, list) and isinstance(after, list) and len(before) == len(after):
        for place, (old, new) in enumerate(zip(before, after, strict=True)):
            yield from differences(old, new, way=(*way, str(place)))
    elif not _same(before, after):
        yield write_pointer(list(way)), after


def need_room_for(kind: str, body: Json) -> None:
    """Refuse what could not be shown or handed out again from where it is to stand.

    Raises
    ------
    BadInput
        For half a sign and for nothing at all in place of a value, which no survey file can hold;
        for a wish among what was found, and the other way round.
    """
    _need_signs(body, may_be_null=kind not in IN_THE_FILE)
    if not isinstance(body, dict):
        return
    wished = set(body) & {*KEPT_APART}
    wrong = sorted(wished if kind == SURVEY else set(body) - {*WISHED} if kind == WISH else ())
    if wrong:
        raise BadInput(
            f"this does not belong to {WORDS[kind]}", where=wrong[0], given=wrong[0],
            wanted=f"it is written in {WORDS[SURVEY if kind == WISH else WISH]}",
        )  # fmt: skip


def _need_signs(value: Json, *, may_be_null: bool, inside: bool = False) -> None:
    if value is None and inside and not may_be_null:
        raise BadInput("nothing at all", given="null", wanted="a value, or the name left out")
    if isinstance(value, str):
        try:
            value.encode()
        except UnicodeEncodeError:
            raise BadInput("half a sign, which cannot be written", given=ascii(value)) from None
    elif isinstance(value, dict):
        for name, inner in value.items():
            _need_signs(name, may_be_null=True)
            _need_signs(inner, may_be_null=may_be_null, inside=True)
    elif isinstance(value, list):
        for inner in value:
            _need_signs(inner, may_be_null=may_be_null, inside=True)


def _same(one: Json, other: Json) -> bool:
    # True and 1 are equal in Python, but not what a person wrote.
    return repr(one) == repr(other) if type(one) is not type(other) else one == other


def keep_label(connection: Connection, job_id: str, *, stamp: Stamp) -> None:
    """Write the folder's label anew where number or client changed."""
    found = find_document(connection, job_id=job_id, kind=JOB)
    label = find_document(connection, job_id=job_id, kind=LABEL)
    if found is None or label is None:
        return
    body = newest(connection, found).body
    title = title_of(body)
    before = newest(connection, label)
    if isinstance(before.body, dict) and before.body.get("title") != title:
        save(
            connection, job_id=job_id, kind=LABEL, body={**before.body, "title": title},
            based_on=before.number, stamp=stamp,
        )  # fmt: skip


def title_of(body: Json) -> str:
    """Return what one calls a job: its number and whose it is."""
    table = body.get("job") if isinstance(body, dict) else None
    job = table if isinstance(table, dict) else {}
    parts = [str(job[name]).strip() for name in ("number", "client") if job.get(name)]
    return ", ".join(part for part in parts if part) or "job without a number"

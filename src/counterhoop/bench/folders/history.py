"""Earlier versions: look at them, choose one again, settle how a drum was found."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Final

from counterhoop.bench.folders.folder import Kept
from counterhoop.bench.folders.kinds import APPROVAL, CHOICE, FOUND, JOB, QUOTE, STRIPPED, SURVEY
from counterhoop.bench.folders.tabs import keep_tabs
from counterhoop.bench.folders.write_down import keep_label
from counterhoop.bench.parts.scheme_moves import release
from counterhoop.bench.price.kept_quote import ACCEPTED, OFFERS
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import CannotDo
from counterhoop.store.as_found import Correction, corrections_of, settle_as_found
from counterhoop.store.body import Json, write_body
from counterhoop.store.revision import (
    Document,
    document_by_id,
    history_of,
    newest,
    revision_of,
)
from counterhoop.store.save import Conflict, Saved, add_revision
from counterhoop.store.shelf.mark import take_the_shelf
from counterhoop.store.stamp import Stamp
from counterhoop.store.store import Connection
from counterhoop.store.undo import choose_revision

DRUMS = "drums"
"""The job's list of its drums."""
STAYS: Final = {JOB: (DRUMS,), QUOTE: (OFFERS, ACCEPTED)}
"""What going back leaves as it is, by the kind of document: a drum is put away by hand, what was
handed to a client was handed out, and what the client said was said."""
ONLY_FORWARD: Final = {
    FOUND: "What was found on the way is taken back on its own sheet, one by one.",
    APPROVAL: "A client's yes is taken back with the day and by whom, and given again by the"
    " client: going back over it would lift DRAFT with nobody's word.",
}
"""What nobody goes back in, and why, by the kind of document."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Version:
    """One saved version of a document.

    Attributes
    ----------
    number : int
        From 1.
    made_at, bench :
        When and where.
    chosen_from : int or None
        The earlier version that was chosen again.
    body : Json
        What it says.
    correction : Correction or None
        What was corrected, and why, where a drum as found was.
    """

    number: int
    made_at: dt.datetime
    bench: str
    chosen_from: int | None
    body: Json
    correction: Correction | None = None


def versions(shop: Workshop, document_id: str) -> tuple[Version, ...]:
    """Return all versions of a document, the newest first.

    Raises
    ------
    BadInput
        When there is no such document.
    """
    with shop.store.reading() as connection:
        document_by_id(connection, document_id)
        corrected = {one.number: one for one in corrections_of(connection, document_id)}
        found = history_of(connection, document_id)
    return tuple(
        Version(
            number=one.number,
            made_at=one.made_at,
            bench=one.bench,
            chosen_from=one.chosen_from,
            body=one.body,
            correction=corrected.get(one.number),
        )
        for one in reversed(found)
    )


def document_in(shop: Workshop, document_id: str) -> Document:
    """Return where a document lies and what it is."""
    with shop.store.reading() as connection:
        return document_by_id(connection, document_id)


def choose_version(
    shop: Workshop, document_id: str, *, number: int, based_on: int, by: str
) -> Saved | Conflict:
    """Make an earlier version the newest again; those between stay on record.

    Before the first version of a choice nothing was taken by hand, before that of a strip-down
    nothing was counted, before that of a quote nothing was changed: that is its version 0.

    The drums of a job, and what they are called, stay as they are: a drum that was put in since is
    put away by hand, never by going back. So do the offers of a quote and the yes.

    Raises
    ------
    CannotDo
        When it is how a drum was found: a correction takes back a correction. When it is what was
        found on the way: the client has answered to it, and the survey has it too. When it is the
        client's yes: what was taken back would stand again.
    """
    stamp = shop.stamp(by)
    with shop.store.writing() as connection:
        found = document_by_id(connection, document_id)
        if found.kind in ONLY_FORWARD:
            raise CannotDo(ONLY_FORWARD[found.kind])
        if found.kind == CHOICE and found.job_id is not None:
            take_the_shelf(connection)
        if found.kind in STAYS:
            done = _rest_chosen(connection, found, number=number, based_on=based_on, stamp=stamp)
        elif found.kind in (CHOICE, STRIPPED) and number == 0:
            done = add_revision(
                connection, found, body={}, based_on=based_on, stamp=stamp, chosen_from=0
            )
        else:
            done = choose_revision(
                connection, document_id=document_id, number=number, based_on=based_on, stamp=stamp
            )
        if found.job_id is not None and isinstance(done, Saved):
            if found.kind == JOB:
                keep_label(connection, found.job_id, stamp=stamp)
            if found.kind in (SURVEY, JOB):
                keep_tabs(connection, found.job_id)
            if found.kind == CHOICE:
                # The scheme that is gone back to asks for other pieces.
                release(connection, found.job_id, drum_id=found.name, stamp=stamp)
    return done


def _rest_chosen(
    connection: Connection, found: Document, *, number: int, based_on: int, stamp: Stamp
) -> Saved | Conflict:
    """Choose a version again but for what stays."""
    stays = STAYS[found.kind]
    said: Json = {}
    original = None
    if number or found.kind == JOB:
        earlier = revision_of(connection, document_id=found.id, number=number)
        said, original = earlier.body, earlier.original
    body, now = said, newest(connection, found).body
    if isinstance(body, dict) and isinstance(now, dict):
        goes = {name: value for name, value in body.items() if name not in stays}
        body = goes | {name: now[name] for name in stays if name in now}
    return add_revision(
        connection, found, body=body, based_on=based_on, stamp=stamp, chosen_from=number,
        original=original if body == said else None,
    )  # fmt: skip


def before(kept: Kept, shop: Workshop, *, nothing_first: bool = False) -> int | None:
    """Return the version that one step of undo goes back to, or nothing.

    Undo upon undo goes further back, and what was taken back once does not come again. A version
    that differs only in what stays is stepped over.

    Parameters
    ----------
    nothing_first : bool
        Whether one can go back to before the first version: 0 stands for it.
    """
    if kept.number < (1 if nothing_first else 2) or kept.as_found is not None:
        return None
    with shop.store.reading() as connection:
        kind = document_by_id(connection, kept.document_id).kind
        found = {one.number: one for one in history_of(connection, kept.document_id)}

    def said_first(number: int) -> int:
        while number and (earlier := found[number].chosen_from) is not None:
            number = earlier
        return number

    now, here = _going_back(kind, kept.body), said_first(kept.number)
    while here > 1:
        here = said_first(here - 1)
        if here and _going_back(kind, found[here].body) != now:
            return here
    # Whoever is at nothing, or back at it, has nowhere further back to go.
    said = nothing_first and here <= 1 and said_first(kept.number) and now != write_body({})
    return 0 if said else None


def _going_back(kind: str, body: Json) -> str:
    """Return what of a body goes back with it."""
    stays = STAYS.get(kind, ())
    if isinstance(body, dict):
        return write_body({name: value for name, value in body.items() if name not in stays})
    return write_body(body)


def settle(shop: Workshop, kept: Kept) -> None:
    """Say that the survey is done: this is how the drum was found.

    Raises
    ------
    BadInput
        When somebody has saved since.
    CannotDo
        When it was settled before.
    """
    with shop.store.writing() as connection:
        settle_as_found(connection, document_id=kept.document_id, number=kept.number)

"""A job folder as it lies on the table: its documents, drum by drum."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from counterhoop.bench.folders.kinds import BOOK, JOB, OF_A_DRUM, SURVEY
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.body import Json
from counterhoop.store.job_folder import LABEL
from counterhoop.store.newest import Newest, folder_documents


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """What a document says now.

    Attributes
    ----------
    document_id : str
        Its name for programs; empty before its first save.
    body : Json
        What it says, as typed.
    number : int
        Its newest revision; 0 before its first save.
    as_found : int or None
        The revision that says how the drum came in, once that is settled.
    made_at, bench :
        When and at which bench it was last saved.
    hidden : bool
        Whether it is out of sight.
    """

    document_id: str = ""
    body: Json = None
    number: int = 0
    as_found: int | None = None
    made_at: dt.datetime | None = None
    bench: str = ""
    hidden: bool = False

    @property
    def table(self) -> dict[str, Any]:
        """The body of a document that is a table; empty before its first save."""
        return self.body if isinstance(self.body, dict) else {}

    @property
    def rows(self) -> list[Any]:
        """The body of a document that is a list; empty before its first save."""
        return self.body if isinstance(self.body, list) else []


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptDrum:
    """One drum of a folder.

    Attributes
    ----------
    id : str
        Its name for programs; it stays when the drum is called otherwise.
    name : str
        What it is called.
    documents : mapping of str to Kept
        By kind.
    """

    id: str
    name: str
    documents: Mapping[str, Kept] = field(default_factory=dict)

    def kept(self, kind: str) -> Kept:
        """Return a document, empty before its first save."""
        return self.documents.get(kind, Kept())

    @property
    def hidden(self) -> bool:
        """Whether the drum is out of sight."""
        return self.kept(SURVEY).hidden


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptJob:
    """A folder with everything that is written in it.

    Attributes
    ----------
    id, title : str
        Its name for programs, and what one calls it.
    documents : mapping of str to Kept
        Those of the job as a whole, by kind.
    drums : tuple of KeptDrum
        In the order of the survey, those in sight.
    hidden_drums : tuple of KeptDrum
        Those out of sight.
    books : mapping of str to str
        Fittings books that came with its survey file, by name, in the order in which it names
        them: a later one lies over an earlier one.
    """

    id: str
    title: str
    documents: Mapping[str, Kept]
    drums: tuple[KeptDrum, ...]
    hidden_drums: tuple[KeptDrum, ...] = ()
    books: Mapping[str, str] = field(default_factory=dict)

    def kept(self, kind: str) -> Kept:
        """Return a document of the job as a whole, empty before its first save."""
        return self.documents.get(kind, Kept())

    @property
    def job(self) -> dict[str, Any]:
        """The job's own table: number, client, units."""
        table = self.kept(JOB).table.get("job")
        return table if isinstance(table, dict) else {}

    def drum(self, drum_id: str) -> KeptDrum:
        """Return a drum, in sight or not.

        Raises
        ------
        BadInput
            When the folder has none of that name.
        """
        for drum in (*self.drums, *self.hidden_drums):
            if drum.id == drum_id:
                return drum
        raise BadInput("no such drum in this job", where="drum", given=drum_id)


def kept_job(shop: Workshop, job_id: str) -> KeptJob:
    """Return a folder, hidden or not.

    Raises
    ------
    BadInput
        When there is none of that name.
    """
    with shop.store.reading() as connection:
        found = folder_documents(connection, job_id)
    if not found:
        raise BadInput("no such job", where="job", given=job_id)
    return job_of(job_id, found)


def job_of(job_id: str, found: Iterable[Newest]) -> KeptJob:
    """Sort the documents of a folder by what they are about."""
    whole: dict[str, Kept] = {}
    by_drum: dict[str, dict[str, Kept]] = {}
    books: dict[str, Kept] = {}
    for one in found:
        kept = kept_of(one)
        kind, name = one.document.kind, one.document.name
        if kind == BOOK:
            books[name] = kept
        elif kind in OF_A_DRUM:
            by_drum.setdefault(name, {})[kind] = kept
        else:
            whole[kind] = kept
    listed = whole.get(JOB, Kept()).table.get("drums", [])
    drums = tuple(
        KeptDrum(id=one["id"], name=one["name"], documents=by_drum.get(one["id"], {}))
        for one in listed
    )
    return KeptJob(
        id=job_id,
        title=str(whole.get(LABEL, Kept()).table.get("title", "")),
        documents=whole,
        drums=tuple(drum for drum in drums if not drum.hidden),
        hidden_drums=tuple(drum for drum in drums if drum.hidden),
        books={
            name: str(book.table.get("toml", ""))
            for name, book in sorted(books.items(), key=lambda one: _place(one[1]))
        },
    )


def _place(book: Kept) -> int:
    place = book.table.get("place")
    return place if isinstance(place, int) else 0


def kept_of(one: Newest) -> Kept:
    """Return a document with what it says now."""
    return Kept(
        document_id=one.document.id,
        body=one.revision.body,
        number=one.revision.number,
        as_found=one.document.as_found,
        made_at=one.revision.made_at,
        bench=one.revision.bench,
        hidden=one.hidden,
    )


def drawer(shop: Workshop) -> Mapping[str, Kept]:
    """Return the workshop's own documents by kind: rules, book, printer."""
    with shop.store.reading() as connection:
        return {one.document.kind: kept_of(one) for one in folder_documents(connection, None)}

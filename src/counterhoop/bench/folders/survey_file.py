"""A survey file into a folder, and a folder out to a survey file."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import chain, count
from pathlib import Path, PurePosixPath

from counterhoop.bench.deliver import deliver
from counterhoop.bench.folders.folder import KeptJob, drawer, kept_job
from counterhoop.bench.folders.kinds import BOOK, JOB
from counterhoop.bench.folders.own_book import TITLE, own_books
from counterhoop.bench.folders.tables import SHARED, documents_in, same_tables, tables_of
from counterhoop.bench.folders.tabs import keep_tabs
from counterhoop.bench.folders.write_down import title_of
from counterhoop.bench.workshop import Workshop
from counterhoop.shell.survey_file.gate import survey_bytes, toml_tables
from counterhoop.store.job_folder import open_job
from counterhoop.store.revision import document_by_id, history_of
from counterhoop.store.save import save

SURVEY_FILE = "survey.toml"
OWN_FILE = "workshop-fittings.toml"
BOOK_FILE = "fittings.toml"
BookOf = Callable[[str], bytes]


def take_in(shop: Workshop, content: bytes, *, name: str, book_of: BookOf, by: str) -> str:
    """Open a folder with what a survey file says and return its name for programs.

    The file itself is kept byte for byte: it is handed out again while nothing has changed.

    Parameters
    ----------
    content : bytes
        The survey file.
    name : str
        What it is called, for messages.
    book_of : callable
        Gives the bytes of a fittings book that it names.

    Raises
    ------
    BadInput
        For anything in it that cannot be used, in one line; nothing is kept then.
    """
    from counterhoop.bench.open_job import opened

    read = opened(content, name=name, book_of=book_of)
    tables = toml_tables(survey_bytes(content, name=name), name=name)
    stamp = shop.stamp(by)
    documents = documents_in(tables)
    with shop.store.writing() as connection:
        title = title_of(documents[JOB, ""])
        job_id = open_job(connection, title=title, stamp=stamp)
        for (kind, drum), body in documents.items():
            save(
                connection, job_id=job_id, kind=kind, name=drum, body=body, based_on=0,
                stamp=stamp, original=content if kind == JOB else None,
            )  # fmt: skip
        for place, book in enumerate(dict.fromkeys(read.job.book_files)):
            raw = book_of(book)
            save(
                connection, job_id=job_id, kind=BOOK, name=book,
                body={"toml": survey_bytes(raw, name=book), "place": place}, based_on=0,
                stamp=stamp, original=raw,
            )  # fmt: skip
        keep_tabs(connection, job_id)
    return job_id


def take_in_file(shop: Workshop, path: Path, *, by: str) -> str:
    """Open a folder with what a survey file and the books beside it say."""

    from counterhoop.bench.open_job import read_bytes

    def book_beside(name: str) -> bytes:
        return read_bytes(path.parent / name, what="fittings book")

    content = read_bytes(path, what="survey file")
    return take_in(shop, content, name=path.name, book_of=book_beside, by=by)


def survey_files(shop: Workshop, job_id: str, *, for_client: bool = False) -> dict[str, bytes]:
    """Return the survey file of a folder and the books that go beside it.

    While the folder says what its file said, that is the file itself, remarks and all. Otherwise
    it is written anew: the same values as typed, the workshop's figures and fittings with them.

    Parameters
    ----------
    for_client : bool
        Only what was measured: no remarks, and nothing of the workshop's rates, minutes and stock.
    """
    import tomli_w

    job, shops = kept_job(shop, job_id), drawer(shop)
    original = None if for_client else _original(shop, job)
    tables = tables_of(job, shop=shops)
    if for_client:
        tables = {name: table for name, table in tables.items() if name not in SHARED}
    books = own_books(job, shops)
    names = _file_names(books)
    beside = {names[book]: text.encode() for book, text in books.items()}
    if original is not None and TITLE not in books and list(names) == list(beside):
        text = survey_bytes(original, name=SURVEY_FILE)
        if same_tables(tables, toml_tables(text, name=SURVEY_FILE)):
            return {SURVEY_FILE: original, **beside}
    tables["job"].pop("book", None)
    # A survey file wants a number; a folder can do without for a while.
    tables["job"].setdefault("number", "-")
    if beside:
        tables["job"]["book"] = list(beside)
    return {SURVEY_FILE: tomli_w.dumps(tables).encode(), **beside}


def hand_out(shop: Workshop, job_id: str, *, folder: Path) -> Path:
    """Write the survey file of a folder, and its books, into a fresh folder."""
    return deliver(survey_files(shop, job_id), folder=folder)


def _original(shop: Workshop, job: KeptJob) -> bytes | None:
    with shop.store.reading() as connection:
        found = job.kept(JOB)
        if not found.number:
            return None
        first = history_of(connection, document_by_id(connection, found.document_id).id)[0]
    return first.original


def _file_names(books: Iterable[str]) -> dict[str, str]:
    """Return a file's name for each book, in the same order; none takes the place of another.

    A book keeps its name, unless that leads out of the folder or is the survey file's own.
    """
    every = list(books)
    taken = {SURVEY_FILE.casefold()}
    made: dict[str, str] = {}
    for book in sorted(every, key=lambda name: name == TITLE):
        wanted = OWN_FILE if book == TITLE else _within(book)
        stem = wanted.removesuffix(".toml")
        others = (f"{stem} {number}.toml" for number in count(2))
        made[book] = next(one for one in chain([wanted], others) if one.casefold() not in taken)
        taken.add(made[book].casefold())
    return {book: made[book] for book in every}


def _within(name: str) -> str:
    """Return a name below the folder: the last part of one that leads out of it."""
    path = PurePosixPath(name.replace("\\", "/"))
    if ":" not in name and not path.is_absolute() and ".." not in path.parts:
        return name
    last = path.name.rpartition(":")[2]
    return last if last not in ("", "..") else BOOK_FILE

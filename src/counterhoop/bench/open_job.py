"""Open a survey file with the fittings books it names."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, get_args

from counterhoop.development.flat import End
from counterhoop.errors import BadInput, Finding
from counterhoop.fittings.book import Book
from counterhoop.fittings.read_book import packaged_book, read_book
from counterhoop.scheme.schemes import Shop
from counterhoop.shell.job import Job
from counterhoop.shell.survey_file.gate import MOST_BYTES, survey_bytes
from counterhoop.shell.survey_file.read import SurveyRead, read_survey, read_tables
from counterhoop.survey.edge_profile import profile_of


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenJob:
    """A job as read: the file's job, the shop it is worked in, and what the reading noticed."""

    job: Job
    shop: Shop
    noticed: dict[str, tuple[Finding, ...]]
    name: str


def open_job(path: Path) -> OpenJob:
    """Read a survey file and the books beside it.

    Raises
    ------
    BadInput
        For anything in the files that cannot be used, in one line.
    """

    def book_beside(name: str) -> bytes:
        return read_bytes(path.parent / name, what="fittings book")

    return opened(read_bytes(path, what="survey file"), name=path.name, book_of=book_beside)


def opened(content: bytes, *, name: str, book_of: Callable[[str], bytes]) -> OpenJob:
    """Open a survey from its bytes.

    Parameters
    ----------
    content : bytes
        The survey file.
    name : str
        What it is called in complaints.
    book_of : callable
        Gives the bytes of a fittings book that the survey names.
    """
    read = read_survey(survey_bytes(content, name=name), name=name)
    own = {book: survey_bytes(book_of(book), name=book) for book in read.job.book_files}
    return _with_books(read, own, name=name)


def opened_tables(tables: dict[str, Any], *, name: str = "", books: Mapping[str, str]) -> OpenJob:
    """Open a survey from its tables.

    Parameters
    ----------
    tables : dict
        As a survey file has them; its own list of books is not looked at.
    name : str
        What it is called in complaints.
    books : mapping of str to str
        Texts of own fittings books by name; a later one lies over an earlier one.
    """
    return _with_books(read_tables(tables, name=name), books, name=name)


def _with_books(read: SurveyRead, own: Mapping[str, str], *, name: str) -> OpenJob:
    job = read.job
    book = packaged_book()
    for title, text in own.items():
        book = book.merged(read_book(text, name=title))
    _named_in_book(job, book)
    _cuts_fit(job)
    shop = Shop(
        rules=job.rules,
        figures=job.figures,
        book=book,
        stock=dict(job.stock),
        approvals=job.approvals,
    )
    return OpenJob(job=job, shop=shop, noticed=read.findings, name=name)


def read_bytes(path: Path, *, what: str) -> bytes:
    """Read a file a person named, of at most the size such a file can have."""
    try:
        if path.is_file() and path.stat().st_size > MOST_BYTES:
            raise BadInput(
                f"too large for a {what}",
                where=path.name,
                given=f"{path.stat().st_size} bytes",
                wanted=f"at most {MOST_BYTES}",
            )
        return path.read_bytes()
    except OSError as fault:
        reason = (
            "there is no such file" if isinstance(fault, FileNotFoundError) else "cannot read it"
        )
        raise BadInput(
            reason, where=what, given=str(path), wanted=f"the path of a {what}"
        ) from None


def _named_in_book(job: Job, book: Book) -> None:
    """Every fitting that the file names must be in a book."""
    for wanted in job.drums:
        drum, where = wanted.drum, f"drums.{wanted.drum.key}"
        for number, row in enumerate(drum.rows, 1):
            book.find(row.fitting, where=f"{where}.rows[{number}].fitting")
        for number, placed in enumerate(drum.fittings, 1):
            book.find(placed.fitting, where=f"{where}.fittings[{number}].fitting")
        for head, name in drum.hoops:
            book.find(name, where=f"{where}.hoops.{head}")
    for name, _ in job.stock:
        book.find(name, where="stock")
    for name, _ in job.figures.prices_minor:
        book.find(name, where="prices")


def _cuts_fit(job: Job) -> None:
    """Every cut of an edge must go into its wall."""
    for wanted in job.drums:
        for end in get_args(End):
            try:
                profile_of(wanted.drum, end)
            except BadInput as fault:
                raise fault.at(f"drums.{wanted.drum.key}.edges.{end}") from None

"""A file of rows, opened: what it is, its headers, and its rows as often as one wants them."""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterator
from dataclasses import dataclass
from itertools import islice

from counterhoop.errors import BadInput, CannotDo
from counterhoop.parts.rows.csv_rows import DELIMITERS, csv_rows, find_delimiter, split_lines
from counterhoop.parts.rows.row import MOST_BYTES, Progress, Row, Stop, letters, place
from counterhoop.parts.rows.text_of import text_of
from counterhoop.parts.rows.xlsx_book import Book, Listed, open_book
from counterhoop.parts.rows.xlsx_parts import may_name, open_parts
from counterhoop.parts.rows.xlsx_rows import Survey, look_over, xlsx_rows

_ARCHIVE = b"PK\x03\x04"
_OTHER_FILES = {
    b"\xd0\xcf\x11\xe0": "an old or locked workbook",
    b"%PDF": "a PDF",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a photograph",
    b"{\\rtf": "a text document",
    b"<": "a web page or other marked text",
}
_WANTED = 'a file saved as "XLSX" or as "CSV UTF-8"'
_ASK_EVERY = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A file of rows that was opened.

    Attributes
    ----------
    form : str
        "CSV" or "XLSX".
    says : tuple of str
        What was found out or left unread, a sentence each.
    header : tuple of str
        The headers, from column A.
    header_row : int
        Where they stand.
    read : callable
        Starts reading anew: yields the share of the file that was read, and a row.
    """

    form: str
    says: tuple[str, ...]
    header: tuple[str, ...]
    header_row: int
    read: Callable[[], Iterator[tuple[float, Row]]]

    def rows(
        self, *, on_progress: Progress | None = None, stop: Stop | None = None
    ) -> Generator[Row, None, None]:
        """Yield the rows below the headers that are not empty.

        Raises
        ------
        BadInput
            The file cannot be read on from here.
        CannotDo
            ``stop`` said so.
        """
        for number, (share, row) in enumerate(self.read()):
            if number % _ASK_EVERY == 0:
                if stop is not None and stop():
                    raise CannotDo("reading the rows was stopped")
                if on_progress is not None:
                    on_progress(min(1.0, share))
            if row.number > self.header_row and not row.is_empty:
                yield row
        if on_progress is not None:
            on_progress(1.0)


def open_sheet(
    data: bytes,
    *,
    where: str,
    sheet: str = "",
    encoding: str = "",
    delimiter: str = "",
    header_row: int = 0,
) -> Sheet:
    """Open a CSV file or an XLSX workbook; which it is, its content tells.

    Parameters
    ----------
    data : bytes
        The whole file.
    where : str
        What to call it.
    sheet : str
        The sheet of a workbook; empty for the only one that has rows.
    encoding, delimiter : str
        Of a CSV file; empty to find out.
    header_row : int
        Where the headers stand; 0 for the first row that is not empty.

    Raises
    ------
    BadInput
        It cannot be read, or a person has to choose.

    Examples
    --------
    >>> opened = open_sheet(b"number;holes apart\\nA1;42,5 mm\\n", where="shelf.csv")
    >>> opened.header, [row.cells for row in opened.rows()]
    (('number', 'holes apart'), [('A1', '42,5 mm')])
    """
    if not data.strip():
        raise BadInput("the file is empty", where=where, wanted=_WANTED)
    if len(data) > MOST_BYTES:
        raise BadInput(
            f"larger than {MOST_BYTES // 10**6} MB", where=where, step="Part the file in two."
        )
    for start, called in _OTHER_FILES.items():
        if data.removeprefix(b"\xef\xbb\xbf").lstrip().startswith(start):
            raise BadInput(f"this is {called}, not a file of rows", where=where, wanted=_WANTED)
    if data.startswith(_ARCHIVE):
        return _opened_book(data, where=where, sheet=sheet, header_row=header_row)
    return _opened_text(
        data, where=where, encoding=encoding, delimiter=delimiter, header_row=header_row
    )


def _opened_text(
    data: bytes, *, where: str, encoding: str, delimiter: str, header_row: int
) -> Sheet:
    text = text_of(data, where=where, encoding=encoding)
    if delimiter and delimiter not in DELIMITERS:
        raise BadInput(
            "cells are not parted so", where=where, given=delimiter, wanted="one of , ; | or a tab"
        )
    lines, first = split_lines(text.text), 1
    if lines and lines[0].lower().startswith("sep=") and lines[0].strip()[4:] in DELIMITERS:
        delimiter, first = delimiter or lines[0].strip()[4:], 2
        lines = lines[1:]
    sign = delimiter or find_delimiter(lines)
    guessed = "" if text.sure else " That is a guess: look whether signs such as Ø and é are right."
    says = (f"Read as {text.encoding}, cells parted by {DELIMITERS[sign]}.{guessed}",)

    def read() -> Iterator[tuple[float, Row]]:
        for line, row in csv_rows(lines, delimiter=sign, first=first):
            yield line / len(lines), row

    return _with_headers("CSV", says, read, where=where, header_row=header_row)


def _opened_book(data: bytes, *, where: str, sheet: str, header_row: int) -> Sheet:
    book = open_book(open_parts(data, where=where))
    chosen = _chosen(book, sheet=sheet, where=where)
    # Most sheets hide and merge nothing, which is seen without reading every cell.
    odd = may_name(book.parts, chosen.part, (b"mergeCell", b"hidden"))
    survey = look_over(book, chosen) if odd else Survey()
    says = [f'Read from the sheet "{chosen.name}".']
    others = [f'"{each.name}"' for each in book.sheets if each.hidden and each is not chosen]
    if others:
        says.append(f"Not read, because hidden: {', '.join(others)}.")
    if survey.hidden_columns:
        says.append(f"Hidden columns are read as well: {', '.join(survey.hidden_columns[:20])}.")
    if survey.hidden_rows:
        says.append(f"Hidden or filtered rows are read as well: {survey.hidden_rows}.")
    size = max(1, book.parts.size(chosen.part))

    def read() -> Iterator[tuple[float, Row]]:
        book.parts.unpacked = 0
        for done, row in xlsx_rows(book, chosen, survey=survey):
            yield done / size, row

    return _with_headers("XLSX", tuple(says), read, where=where, header_row=header_row)


def _chosen(book: Book, *, sheet: str, where: str) -> Listed:
    names = [each.name for each in book.sheets]
    if sheet:
        found = next((each for each in book.sheets if each.name == sheet), None)
        if found is None:
            raise BadInput(
                "there is no such sheet", where=where, given=sheet, wanted=", ".join(names[:20])
            )
        return found
    seen = [each for each in book.sheets if not each.hidden]
    filled = [each for each in seen if look_over(book, each).filled] if len(seen) > 1 else seen
    if len(filled) > 1:
        listed = ", ".join(f'"{each.name}"' for each in filled[:20])
        raise BadInput(f"several sheets have rows: {listed}", where=where, step="Name one of them.")
    if not filled:
        raise BadInput("no sheet that can be seen has rows", where=where)
    return filled[0]


def _with_headers(
    form: str,
    says: tuple[str, ...],
    read: Callable[[], Iterator[tuple[float, Row]]],
    *,
    where: str,
    header_row: int,
) -> Sheet:
    wanted = (row for _, row in read() if row.number >= header_row and not row.is_empty)
    first = next(islice(wanted, 1), None)
    if first is None or (header_row and first.number != header_row):
        raise BadInput("no headers stand there", where=place(header_row) if header_row else where)
    for column, says_why in sorted(first.faults.items()):
        raise BadInput(
            f"a header cannot be read: {says_why}",
            where=place(first.number, column),
            step="Give every column a header of its own, or say in which row the headers are.",
        )
    if len([cell for cell in first.cells if cell]) < 2:
        raise BadInput(
            "one header only, so this looks like a title or like cells parted by another sign",
            where=place(first.number),
            step="Say in which row the headers are, or what parts the cells.",
        )
    header = first.cells
    twice = [
        (column, cell)
        for column, cell in enumerate(header)
        if cell and cell.casefold() in {other.casefold() for other in header[:column]}
    ]
    if twice:
        column, cell = twice[0]
        before = [other.casefold() for other in header].index(cell.casefold())
        raise BadInput(
            f"the same header as column {letters(before)}",
            where=place(first.number, column, cell),
            step="Call one of them something else, or empty its header to leave it out.",
        )
    return Sheet(form=form, says=says, header=header, header_row=first.number, read=read)

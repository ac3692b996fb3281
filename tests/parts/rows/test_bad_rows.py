"""Rows that cannot be used: each a sentence that says row, column, what and what to write instead.

Hand-worked: each case is one slip in a sheet that is right otherwise, and where it is is counted
by eye.
"""

from __future__ import annotations

import datetime as dt
from io import BytesIO

import openpyxl
import pytest

from counterhoop.errors import BadInput
from counterhoop.parts.piece import Piece
from counterhoop.parts.rows.dry_run import dry_run
from counterhoop.parts.rows.mapping import map_columns
from counterhoop.parts.rows.open_sheet import open_sheet
from counterhoop.parts.rows.shelf_check import shelf_check
from counterhoop.parts.rows.shelf_layout import shelf_layout, values_of

SHELF = shelf_layout()
KEPT = [Piece(id="9", number="K9", kind="lug", owner="A. Hale", count=2)]
BOOK = ("Corvane round lug", "Hallmere bow tie lug")


def try_text(text: str | bytes, **opening):
    data = text if isinstance(text, bytes) else text.encode()
    sheet = open_sheet(data, where="shelf.csv", **opening)
    mapping = map_columns(sheet.header, SHELF, header_row=sheet.header_row)
    kept = {SHELF.key_of(values_of(piece)): values_of(piece) for piece in KEPT}
    return dry_run(sheet, mapping, SHELF, kept=kept.get, check=shelf_check(BOOK))


def cell(header: str, text: str) -> str:
    """Return a sheet whose third row has one odd cell, in column C."""
    return f'number,kind,{header}\nA1,lug,\nA2,lug,"{text}"\nA3,lug,\n'


CELLS = {
    "no unit": ("holes apart", "42.5", 'no unit: found \'42.5\', wanted "42.5 mm" or "42.5 in"'),
    "another unit than the header": (
        "holes apart (mm)",
        "1 5/8 in",
        "the header says mm and this cell says in",
    ),
    "centimetres under millimetres": ("hole (mm)", "0.65 cm", "the header says mm"),
    "thousands or a decimal": ("length (mm)", "1,500", "the comma may mean thousands"),
    "below zero": ("hole (mm)", "-6.5", "below zero"),
    "nothing": ("hole (mm)", "0", "a length of nothing makes no sense here"),
    "a guess": ("hole (mm)", "about 6", '"about" is not a unit'),
    "a range": ("hole (mm)", "6-7", "two numbers with a dash"),
    "two sizes": ("base wide", "24 x 60 mm", "two sizes where one length belongs"),
    "longer than a room": ("length (mm)", "45000", "impossible for a drum"),
    "a power of ten": ("length (mm)", "1e3", "a power of ten"),
    "a wrong unit": ("length", "40 kg", '"kg" is not a unit of length'),
    "no instrument": ("length", "40 mm (eyeball)", "not an instrument"),
    "an instrument that cannot": ("mass", "61 g (rule)", "cannot be taken with that"),
    "a pitch without its way": ("pitch", "24", "threads to the inch, or millimetres?"),
    "a pitch of no screw": ("pitch", "400 tpi", "no screw has that pitch"),
    "grains or grams": ("mass", "61 gr", "grain"),
    "half a hole": ("hole count", "2.5", "not a count"),
    "a count below none": ("count", "-3", "fewer than none"),
    "a count in groups": ("count", "1,200", "in groups of three"),
    "a count in words": ("count", "a few", "not a count"),
    "more than any shelf": ("count", "98765432", "more than any shelf holds"),
    "none of a new piece": ("count", "0", "a new piece of which there is none"),
    "no currency": ("price", "28.50", "no currency"),
    "another currency": ("price (GBP)", "28.50 EUR", "the header says GBP and this cell EUR"),
    "a price below nothing": ("price", "-3 GBP", "an amount cannot be below zero"),
    "whose dollars": ("price", "$ 5", "several countries write"),
    "day or month first": ("came on", "03/04/2024", "not a day that reads one way only"),
    "no such day": ("came on", "2023-02-29", "there is no such day"),
    "no such month": ("came on", "4 Ma 2023", "not a day that reads one way only"),
    "a year that cannot be": ("came on", "0024-03-04", "a year that cannot be"),
    "more than the lot": ("share of lot", "25", "more than the whole"),
    "more than all of it": ("share of lot", "130 %", "more than the whole"),
    "a share of nothing": ("share of lot", "25 %", "a share of no lot"),
    "neither yes nor no": ("matched set", "perhaps", "neither yes nor no"),
    "no such fitting": ("fitting", "Corvane rond lug", 'Did you mean "Corvane round lug"'),
    "several lines in a name": ("bin", "3\n4", "several lines where one word or name belongs"),
    "a name without end": ("bin", "drawer " * 30, "too long for a name"),
    "a sign that cannot be printed": ("says", "round\x07 lug", "cannot be printed (U+0007)"),
    "a lost sign": ("says", "bo\ufffdte", "a sign was lost when this file was saved"),
    "a formula": ("count", "=2+2", "a formula, whose result is not taken unseen"),
    "a formula that hides": ("says", '=HYPERLINK(""x"")', "a formula"),
    "too much text": ("says", "x" * 2001, "at most 2000 are read"),
}


@pytest.mark.parametrize("case", CELLS)
def test_a_cell_is_refused_by_row_and_column(case):
    header, text, says = CELLS[case]
    run = try_text(cell(header, text))
    assert [(one.row, one.column) for one in run.refused] == [(3, 2)]
    (refused,) = run.refused
    assert refused.says.startswith(f'row 3, column C "{header}": ')
    assert says in refused.says
    assert "\n" not in refused.says
    assert (len(run.new), run.refused_rows) == (2, 1)


ROWS = {
    "the same number twice": (
        "number,kind\nA1,lug\na 1,lug\nA1 ,rod\n",
        'row 4, column A "number": the same piece as in row 2',
    ),
    "capitals tell no two apart": (
        "number,kind\nA1,lug\na1,rod\n",
        'row 3, column A "number": the same piece as in row 2',
    ),
    "no number": (
        "kind,number\nlug,A1\nlug,\n",
        'row 3, column B "number": this is missing: the "number" of a piece',
    ),
    "no kind of a new one": (
        "number,kind\nA1,lug\nA2,\n",
        'row 3, column B "kind": this is missing: the "kind" of a piece',
    ),
    "another's piece": (
        "number,kind,owner\nA1,lug,\nK9,lug,B. Rowe\n",
        'row 3, column C "owner": it belongs to A. Hale, and a sheet does not change that',
    ),
    "a cell under no header": (
        "number,kind\nA1,lug\nA2,lug,3\n",
        "row 3, column C: no header stands above this cell: found '3'",
    ),
}


@pytest.mark.parametrize("case", ROWS)
def test_a_row_is_refused_by_row_and_column(case):
    text, says = ROWS[case]
    run = try_text(text)
    assert len(run.refused) == 1
    assert run.refused[0].says.startswith(says)
    assert run.refused_rows == 1


def test_empty_rows_count_as_the_spreadsheet_counts_them():
    run = try_text('number,kind,says\n\nA1,lug,"two\nlines"\n,,\nA2,lug,x\nA3,,x\n')
    assert [new.row for new in run.new] == [3, 5]
    assert run.refused[0].row == 6


FILES = {
    "a quote never closed": (
        'number,kind,says\nA1,lug,ok\nA2,lug,"14 in\nA3,lug,x\n',
        "row 3, line 3 of the file: a quote is opened in this row and never closed",
    ),
    "a quote never closed in a long file": (
        'number,kind,says\nA2,lug,"14 in\n' + "A3,lug,x\n" * 20_000,
        "row 2, line 2 of the file: a cell without end",
    ),
    "inches in a quoted cell": (
        'number,kind,says\nA1,lug,"14" deep"\n',
        "row 2, line 2 of the file: a quote stands inside a cell",
    ),
    "a million columns": (
        "number,kind\nA1,lug" + ",x" * 10**6 + "\n",
        "row 2, column GS: 1000002 columns",
    ),
    "a million headers": ("number," * 10**6, "row 1, column GS: 1000001 columns"),
    "more rows than are read": (
        "number,kind\n" + "\n" * 200_000 + "A,lug\n",
        "row 200002: more rows than are read at once",
    ),
    "a header twice": (
        "number,kind,Number\nA1,lug,A2\n",
        'row 1, column C "Number": the same header as column A',
    ),
    "a title in the first row": (
        "Our shelf\nnumber,kind\nA1,lug\n",
        "row 1: one header only, so this looks like a title",
    ),
    "no column of numbers": (
        "kind,bin\nlug,3\n",
        'row 1: no column is the "number", without which no piece is told from another',
    ),
    "a formula for a header": (
        "number,=A1\nA1,lug\n",
        "row 1, column B: a header cannot be read: a formula",
    ),
    "a unit that does not go with it": (
        "number,kind,hole (acres)\nA1,lug,2\n",
        'row 1, column C "hole (acres)": "acres" in the header is no unit that goes with "hole"',
    ),
}


@pytest.mark.parametrize("case", FILES)
def test_a_file_is_refused_by_row_and_column(case):
    text, says = FILES[case]
    with pytest.raises(BadInput) as fault:
        try_text(text)
    assert str(fault.value).startswith(says)
    assert len(str(fault.value)) < 400


def workbook(*rows):
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    return book


def try_book(book):
    out = BytesIO()
    book.save(out)
    return try_text(out.getvalue())


def test_a_formula_of_a_workbook_is_not_taken_even_where_its_result_is_stored():
    run = try_book(workbook(["number", "kind", "count"], ["A1", "lug", "=2+2"]))
    assert [one.says for one in run.refused] == [
        'row 2, column C "count": a formula, whose result is not taken unseen. '
        "Write what it should say in its place."
    ]


def test_merged_cells_are_refused_in_each_row_that_they_cover():
    book = workbook(["number", "kind", "bin"], ["A1", "lug", "3"], ["A2", "lug"], ["A3", "rod"])
    book.active.merge_cells("C2:C3")
    run = try_book(book)
    assert [(one.row, one.column) for one in run.refused] == [(2, 2), (3, 2)]
    assert 'row 3, column C "bin": merged cells (C2:C3)' in run.refused[1].says
    assert [new.row for new in run.new] == [4]


def test_an_error_of_the_spreadsheet_is_refused():
    book = workbook(["number", "kind", "bin"], ["A1", "lug", "#N/A"])
    book.active["C2"].data_type = "e"
    (refused,) = try_book(book).refused
    assert refused.says.startswith('row 2, column C "bin": "#N/A", an error of the spreadsheet')


def test_a_number_that_the_spreadsheet_made_a_day_of_is_refused():
    book = workbook(["number", "kind"], [dt.date(2026, 3, 8), "lug"])
    refused = try_book(book).refused
    assert refused[0].says.startswith(
        'row 2, column A "number": the spreadsheet has made a day of what was typed here'
    )


def test_a_time_is_no_day_that_it_came():
    book = workbook(["number", "kind", "came on"], ["A1", "lug", dt.datetime(2026, 3, 8, 9, 5)])
    (refused,) = try_book(book).refused
    assert refused.says.startswith('row 2, column C "came on": not a day')


def test_a_cell_far_out_is_refused_by_its_place():
    book = workbook(["number", "kind"], ["A1", "lug"])
    book.active["XFD2"] = "x"
    with pytest.raises(BadInput, match=r"^row 2, column XFD: further to the right"):
        try_book(book)


def test_a_cell_far_down_is_refused_by_its_place():
    book = workbook(["number", "kind"], ["A1", "lug"])
    book.active["A1048576"] = "x"
    with pytest.raises(BadInput, match=r"^row 1048576: more rows than are read at once"):
        try_book(book)


def test_several_sheets_must_be_chosen_from():
    book = workbook(["number", "kind"], ["A1", "lug"])
    book.active.title = "Lugs"
    other = book.create_sheet("Rods")
    other.append(["number", "kind"])
    with pytest.raises(BadInput, match='several sheets have rows: "Lugs", "Rods"'):
        try_book(book)


def test_refusals_are_counted_beyond_those_that_are_listed():
    run = try_text("number,kind,count\n" + "".join(f"A{n},lug,x\n" for n in range(1_200)))
    assert (len(run.refused), run.refused_cells, run.refused_rows) == (1_000, 1_200, 1_200)
    assert run.says[-1] == "1200 cells are refused; the first 1000 are listed."

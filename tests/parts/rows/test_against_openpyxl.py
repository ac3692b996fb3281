"""Workbooks read and written, held against an independent implementation: openpyxl."""

from __future__ import annotations

import datetime as dt
from io import BytesIO
from zipfile import ZipFile

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl.styles import Font

from counterhoop.parts.rows.open_sheet import open_sheet
from counterhoop.parts.rows.xlsx_bytes import xlsx_bytes


def saved(book) -> bytes:
    out = BytesIO()
    book.save(out)
    return out.getvalue()


def book_of(rows, **called):
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    return book


printed = st.text(
    st.characters(
        exclude_categories=("Cs", "Cc", "Zs", "Zl", "Zp"), exclude_characters="\ufffe\uffff"
    ),
    min_size=1,
    max_size=30,
).filter(lambda text: not text.startswith("=") and "_x" not in text)
figures = st.integers(-(10**9), 10**9) | st.floats(-1e6, 1e6, allow_nan=False).filter(
    lambda value: value == 0 or abs(value) > 1e-4
)


@given(st.lists(st.lists(printed | figures, min_size=2, max_size=5), min_size=1, max_size=5))
def test_what_it_writes_is_read_as_it_was_meant(rows):
    """Texts as they are; figures as the same float, written without a power of ten."""
    data = saved(book_of([["number", "kind"], *rows]))
    read = list(open_sheet(data, where="x.xlsx").rows())
    # It writes figures to sixteen digits: what it reads back is what stands there.
    kept = openpyxl.load_workbook(BytesIO(data)).active.iter_rows(min_row=2, values_only=True)
    assert [row.number for row in read] == list(range(2, len(rows) + 2))
    for row, meant in zip(read, kept, strict=True):
        assert row.faults == {}
        for text, value in zip(row.cells, meant, strict=False):
            if isinstance(value, str):
                assert text == value.strip()
            else:
                assert float(text) == value
                assert "e" not in text.lower()


@given(st.lists(st.lists(printed | figures, min_size=1, max_size=5), min_size=1, max_size=5))
def test_what_is_written_it_reads_the_same(rows):
    book = openpyxl.load_workbook(BytesIO(xlsx_bytes(rows, sheet="shelf")))
    assert book.sheetnames == ["shelf"]
    for row, meant in zip(book.active.iter_rows(), rows, strict=True):
        for cell, value in zip(row, meant, strict=False):
            assert cell.value == value
            assert cell.data_type == ("s" if isinstance(value, str) else "n")


@pytest.mark.parametrize("text", ["=1+1", '=HYPERLINK("x")', "@SUM(1)", "-2+3", "+1", "'=1"])
def test_no_text_that_is_written_is_a_formula(text):
    book = openpyxl.load_workbook(BytesIO(xlsx_bytes([["says"], [text]], sheet="shelf")))
    cell = book.active["A2"]
    assert (cell.value, cell.data_type, cell.number_format) == (text, "s", "@")
    # A number is none, whatever its sign; anything else opens as if typed with an apostrophe.
    assert bool(cell.quotePrefix) == (text not in ("+1", "'=1"))


def test_days_are_days_and_times_stay():
    rows = [
        ["number", "came on"],
        ["A1", dt.date(2026, 3, 4)],
        ["A2", dt.datetime(2026, 3, 4, 15, 30)],
        ["A3", dt.date(1900, 1, 1)],
    ]
    read = list(open_sheet(saved(book_of(rows)), where="x").rows())
    assert [row.cells[1] for row in read] == ["2026-03-04", "2026-03-04 15:30", "1900-01-01"]
    assert [row.days for row in read] == [frozenset({1})] * 3


def test_the_other_calendar_is_read():
    book = book_of([["number", "came on"], ["A1", dt.date(2026, 3, 4)]])
    book.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904
    book.active["B2"] = dt.date(2026, 3, 4)
    (row,) = open_sheet(saved(book), where="x").rows()
    assert row.cells[1] == "2026-03-04"


@pytest.mark.parametrize(
    ("code", "is_day"),
    [
        ("dd/mm/yyyy", True),
        ('d" March "yy', True),
        ("0.00", False),
        ('0.0" mm deep"', False),
        ("[Red]0", False),
        ("General", False),
        ("@", False),
        ("0.0\\d", False),
        ("mmm yy", True),
    ],
)
def test_which_formats_make_days(code, is_day):
    book = book_of([["number", "hole"], ["A1", 46085]])
    book.active["B2"].number_format = code
    (row,) = open_sheet(saved(book), where="x").rows()
    assert row.cells[1] == ("2026-03-04" if is_day else "46085")
    assert (1 in row.days) == is_day == bool(openpyxl.styles.numbers.is_date_format(code))


def test_the_only_sheet_with_rows_is_read_and_hidden_ones_are_named():
    book = book_of([["number", "kind"], ["A1", "lug"]])
    book.active.title = "Lugs"
    book.create_sheet("Sheet2")
    hidden = book.create_sheet("old")
    hidden.append(["number", "kind"])
    hidden.sheet_state = "hidden"
    sheet = open_sheet(saved(book), where="x")
    assert sheet.says == (
        'Read from the sheet "Lugs".',
        'Not read, because hidden: "old".',
    )
    assert len(list(sheet.rows())) == 1


def test_hidden_rows_and_columns_are_read_and_said():
    book = book_of([["number", "kind", "bin"], ["A1", "lug", "3"], ["A2", "rod", "4"]])
    book.active.row_dimensions[3].hidden = True
    book.active.column_dimensions["C"].hidden = True
    sheet = open_sheet(saved(book), where="x")
    assert sheet.says[1:] == (
        "Hidden columns are read as well: C.",
        "Hidden or filtered rows are read as well: 1.",
    )
    assert [row.cells for row in sheet.rows()] == [("A1", "lug", "3"), ("A2", "rod", "4")]


def test_bold_parts_of_a_text_are_one_text():
    book = book_of([["number", "says"], ["A1", "x"]])
    parts = openpyxl.cell.rich_text.CellRichText(
        "round ", openpyxl.cell.rich_text.TextBlock(openpyxl.cell.text.InlineFont(b=True), "lug")
    )
    book.active["B2"] = parts
    book.active["A1"].font = Font(bold=True)
    (row,) = open_sheet(saved(book), where="x").rows()
    assert row.cells == ("A1", "round lug")


def test_any_prefix_of_the_vocabulary_is_read():
    """Writers choose it; some put one before every name."""
    data = saved(book_of([["number", "kind"], ["A1", "lug"]]))
    out = BytesIO()
    with ZipFile(BytesIO(data)) as old, ZipFile(out, "w") as new:
        for name in old.namelist():
            text = old.read(name).decode()
            if name.startswith("xl/worksheets/"):
                for tag in ("worksheet", "sheetData", "row", "c", "v", "f"):
                    text = text.replace(f"<{tag} ", f"<s:{tag} ").replace(f"<{tag}>", f"<s:{tag}>")
                    text = text.replace(f"</{tag}>", f"</s:{tag}>")
                text = text.replace(" xmlns=", " xmlns:s=")
            new.writestr(name, text)
    (row,) = open_sheet(out.getvalue(), where="x").rows()
    assert row.cells == ("A1", "lug")

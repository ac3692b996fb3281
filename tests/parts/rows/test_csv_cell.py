"""Cells that a spreadsheet would run: the signs are those that OWASP lists (from memory)."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.parts.rows.csv_cell import csv_cell, csv_text

SIGNS = "=+-@\t\r\n|%＝＋－＠"


@pytest.mark.parametrize(
    "cell",
    [
        '=HYPERLINK("http://evil.example","click")',
        "=1+1",
        "+1+1",
        "-2+3+cmd|' /C calc'!A0",
        "@SUM(1,1)",
        "\t=1+1",
        "\tlug 3",
        "\nlug 3",
        "\r=1+1",
        "\n=1+1",
        "  =1+1",
        "\u00a0=1+1",
        "\0=1+1",
        "＝1+1",
        "-1e5",
        "+44 20 555",
    ],
)
def test_a_formula_becomes_text(cell):
    assert csv_cell(cell).startswith("'")
    assert csv_cell(cell)[1:] == cell.replace("\0", "")


@pytest.mark.parametrize(
    "cell", ["lug 3", "7/32 in", "a=b", "", "-3.5", "+2", "-0,5", "Ø 6.5", "'"]
)
def test_what_a_bench_writes_stays(cell):
    assert csv_cell(cell) == cell


def test_figures_stay_figures():
    assert [csv_cell(value) for value in (-3.5, 7, None, 1e-9)] == ["-3.5", "7", "", "1e-09"]


@given(st.lists(st.lists(st.text(), min_size=1, max_size=4), max_size=4))
def test_read_back_each_cell_is_there_once_and_none_begins_with_a_sign(rows):
    read = list(csv.reader(io.StringIO(csv_text(rows), newline=""), strict=True))
    assert [len(row) for row in read] == [len(row) for row in rows]
    for row, original in zip(read, rows, strict=True):
        for cell, text in zip(row, original, strict=True):
            assert cell.removeprefix("'") == text.replace("\0", "").removeprefix("'")
            start = cell.lstrip(" \u00a0")[:1]
            number = cell.lstrip("+-").replace(",", "").replace(".", "").isdecimal()
            assert number or not start or start not in SIGNS


def test_a_cell_stays_whole_where_semicolons_part_cells():
    (row,) = csv.reader(io.StringIO(csv_text([["a;=1+1", 'b";=2']]), newline=""), delimiter=";")
    assert row[0].startswith("a;=1+1")

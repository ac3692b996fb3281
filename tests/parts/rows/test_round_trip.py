"""What is written can be read back: an exact law, for any text and any reading."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from io import BytesIO
from zipfile import ZipFile

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.parts.dimension import Dimension, Measured, read_measured, usual_doubt
from counterhoop.parts.piece import Piece
from counterhoop.parts.rows.csv_cell import csv_cell, typed_cell
from counterhoop.parts.rows.dry_run import dry_run
from counterhoop.parts.rows.mapping import map_columns
from counterhoop.parts.rows.open_sheet import open_sheet
from counterhoop.parts.rows.shelf_check import shelf_check
from counterhoop.parts.rows.shelf_layout import (
    counted,
    names_in_use,
    piece_after,
    piece_of,
    shelf_layout,
    values_of,
)
from counterhoop.parts.rows.write_sheet import csv_bytes, sheet_rows
from counterhoop.parts.rows.xlsx_bytes import xlsx_bytes

SHELF = shelf_layout()
WRITERS = {"CSV": csv_bytes, "XLSX": lambda rows: xlsx_bytes(rows, sheet="shelf")}


def read_back(data: bytes, kept=None):
    sheet = open_sheet(data, where="shelf")
    mapping = map_columns(sheet.header, SHELF, header_row=sheet.header_row)
    kept = {SHELF.key_of(values): values for values in kept or ()}
    return dry_run(sheet, mapping, SHELF, kept=kept.get, check=shelf_check())


def written(pieces, form):
    values = [values_of(piece) for piece in pieces]
    return WRITERS[form](sheet_rows(values, SHELF, fields=names_in_use(values)))


# Signs that a text may have; line ends and spaces around it are not told apart anywhere.
printed = st.characters(
    exclude_categories=("Cs", "Cc", "Zs", "Zl", "Zp"), exclude_characters="\ufffd\ufeff"
)
line = st.text(printed, min_size=1, max_size=20)
formula = st.sampled_from(["=1+1", "+cmd", "-worn", "@x", "'=1", "''-a", "|x", "'60s", "_x000A_"])
words = line | formula
fact = words.filter(lambda text: ";" not in text)
lengths = st.decimals(min_value=1, max_value=999, places=1).map(lambda mm: f"{mm} mm")
reading = st.builds(
    lambda one, text, tool: read_measured(one, text, instrument=tool),
    st.sampled_from([one for one in Dimension if one.about.instrument in ("rule", "caliper")]),
    lengths | st.sampled_from(["1 5/8 in", '2 1/2"', "7/32 in", "250 thou"]),
    st.sampled_from(["", "rule", "caliper"]),
)
other_reading = st.sampled_from(
    [
        read_measured(Dimension.PITCH, "24 tpi"),
        read_measured(Dimension.MASS, "61 g"),
        read_measured(Dimension.EARS, "8"),
        Measured(dimension=Dimension.HOLE, value=5.5, doubt=0.3, written="about 5.5"),
        Measured(dimension=Dimension.PITCH, value=1.0, doubt=0.05),
        Measured(dimension=Dimension.MASS, value=61.5, doubt=5.0, written=""),
    ]
)
pieces = st.lists(
    st.builds(
        Piece,
        id=st.just("1"),
        number=words,
        kind=words,
        says=st.just("") | words,
        measured=st.lists(reading | other_reading, max_size=4).map(tuple),
        condition=st.lists(fact, max_size=3).map(tuple),
        count=st.integers(1, 900),
        bin=st.just("") | words,
        lot=words,
        lot_share=st.none() | st.sampled_from([0.25, 0.5, 1 / 3, 1.0, 0.0]),
        owner=st.just("") | words,
        price_minor=st.integers(0, 10**7),
        currency=st.sampled_from(["GBP", "JPY", "KWD"]),
        came_on=st.none() | st.dates(dt.date(1900, 3, 1), dt.date(2199, 12, 31)),
        matched_set=st.booleans(),
    ),
    min_size=1,
    max_size=4,
    unique_by=lambda piece: SHELF.key_of(values_of(piece)),
)


def sizes(piece: Piece):
    return sorted((one.dimension, round(one.value, 6), one.doubt) for one in piece.measured)


@pytest.mark.parametrize("form", WRITERS)
@given(shelf=pieces)
def test_a_shelf_comes_back_as_it_went(form, shelf):
    run = read_back(written(shelf, form))
    assert [one.says for one in run.refused] == []
    for piece, new in zip(shelf, run.new, strict=True):
        made = piece_of(new.values, id="1")
        assert sizes(made) == sizes(piece)
        assert replace(made, measured=(), lot_share=None) == replace(
            piece, measured=(), lot_share=None
        )
        assert (made.lot_share is None) == (piece.lot_share is None)
        assert made.lot_share is None or abs(made.lot_share - piece.lot_share) < 1e-9


@pytest.mark.parametrize("form", WRITERS)
@given(shelf=pieces)
def test_nothing_changes_when_a_sheet_comes_back_unchanged(form, shelf):
    run = read_back(written(shelf, form), kept=[values_of(piece) for piece in shelf])
    assert (run.left, run.new, run.changed, run.refused) == (len(shelf), [], [], [])


@pytest.mark.parametrize("form", WRITERS)
def test_a_change_of_one_cell_is_the_only_one_that_is_found(form):
    """Hand-worked: one of two pieces moves to another bin and gains a reading."""
    shelf = [
        Piece(id="1", number="A1", kind="lug", bin="3", count=4),
        Piece(id="2", number="A2", kind="rod", bin="3", count=8),
    ]
    moved = replace(shelf[1], bin="7", measured=(read_measured(Dimension.LENGTH, "62 mm"),))
    run = read_back(written([shelf[0], moved], form), kept=[values_of(piece) for piece in shelf])
    (changed,) = run.changed
    assert (changed.row, run.left) == (3, 1)
    assert [(one.field, one.was) for one in changed.changes] == [("bin", "3"), ("length", None)]
    assert piece_after(shelf[1], changed) == moved


def test_counts_are_figures_in_a_workbook():
    """openpyxl reads them as such; a bag's number stays the text that it is."""
    piece = Piece(
        id="2", number="0042", kind="hoop", count=8, measured=(read_measured(Dimension.EARS, "6"),)
    )
    rows = openpyxl.load_workbook(BytesIO(written([piece], "XLSX"))).active.values
    said = dict(zip(*rows, strict=True))
    assert (said["number"], said["count"], said["ears"]) == ("0042", 8, 6)


def test_a_count_is_a_movement_and_leaves_what_came_as_it_is():
    """Hand-worked: eight came, six lie there, five are counted in the sheet."""
    piece = Piece(id="2", number="A2", kind="rod", count=8)
    run = read_back(b"number,count\nA2,5\n", kept=[values_of(piece, on_shelf=6)])
    (changed,) = run.changed
    assert counted(changed, where="shelf.csv") == (
        5,
        "6 on the shelf, 5 in row 2 of shelf.csv",
    )
    assert piece_after(piece, changed) == piece
    assert counted(replace(changed, changes=()), where="shelf.csv") is None


def test_an_empty_cell_leaves_what_is_kept():
    kept = values_of(Piece(id="1", number="A1", kind="lug", bin="3", says="round"))
    run = read_back(b"number,kind,bin,says\nA1,lug,,\n", kept=[kept])
    assert (run.left, run.changed) == (1, [])


@given(st.text(st.characters(exclude_characters="\0")))
def test_what_is_guarded_against_formulas_can_be_taken_back(text):
    assert typed_cell(csv_cell(text)) == text


def test_a_workbook_does_not_say_when_it_was_written():
    with ZipFile(BytesIO(xlsx_bytes([["number"], ["A1"]], sheet="shelf"))) as archive:
        assert {each.date_time for each in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert b"20" not in archive.read("xl/workbook.xml").replace(b"2006", b"")


def test_a_doubt_of_no_instrument_is_kept_in_brackets():
    """Hand-worked: a reading to 0.3 mm is neither a rule's nor a caliper's."""
    odd = Measured(dimension=Dimension.HOLE, value=5.5, doubt=0.3, written="5.5 mm")
    rows = list(sheet_rows([{"hole": (odd,)}], SHELF, fields=["hole"]))
    assert rows == [["hole"], ["5.5 mm (±0.3)"]]
    assert usual_doubt(Dimension.HOLE) == 0.1


def test_no_such_column_is_refused():
    with pytest.raises(BadInput, match='Did you mean "bin"'):
        list(sheet_rows([], SHELF, fields=["bim"]))

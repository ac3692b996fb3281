"""Files that are no sheets, are damaged, or were made to swell: a sentence each, and soon.

Made by hand; that nothing else is ever raised is an exact law, tried on damaged bytes.
"""

from __future__ import annotations

import codecs
import random
import tracemalloc
from io import BytesIO
from zipfile import ZIP_DEFLATED, ZipFile

import pytest

from counterhoop.errors import BadInput, CannotDo
from counterhoop.parts.rows import xlsx_parts
from counterhoop.parts.rows.csv_rows import find_delimiter
from counterhoop.parts.rows.open_sheet import open_sheet
from counterhoop.parts.rows.xlsx_bytes import xlsx_bytes

GOOD = xlsx_bytes([["number", "kind"], ["A1", "lug"], ["A2", "rod"]], sheet="shelf")


def read_all(data: bytes, **opening):
    return list(open_sheet(data, where="shelf", **opening).rows())


def with_part(name: str, content: bytes, *, method: int = ZIP_DEFLATED) -> bytes:
    """Return the good workbook with one part put in place of its own."""
    out = BytesIO()
    with ZipFile(BytesIO(GOOD)) as old, ZipFile(out, "w", method) as new:
        for each in old.namelist():
            if each != name:
                new.writestr(each, old.read(each))
        new.writestr(name, content)
    return out.getvalue()


def part(name: str) -> bytes:
    with ZipFile(BytesIO(GOOD)) as archive:
        return archive.read(name)


def sheet_of(rows: bytes) -> bytes:
    return with_part(
        "xl/sheet1.xml", b"<worksheet><sheetData>" + rows + b"</sheetData></worksheet>"
    )


def test_the_good_workbook_is_read():
    assert [row.cells for row in read_all(GOOD)] == [("A1", "lug"), ("A2", "rod")]
    assert [row.cells for row in read_all(sheet_of(ROWS + b"</row>"))] == [("1", "2")]


ROWS = b"<row><c><v>8</v></c><c><v>9</v></c></row><row><c><v>1</v></c><c><v>2</v></c>"
LAUGHS = b"<!DOCTYPE x [<!ENTITY a 'lol'>" + b"".join(
    b"<!ENTITY %c '%s'>" % (98 + n, b"&%c;" % (97 + n) * 10) for n in range(9)
)

SAYS = {
    "nothing": (b"", "the file is empty"),
    "spaces": (b" \n\n ", "the file is empty"),
    "an old workbook": (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(900), "old or locked workbook"),
    "a PDF": (b"%PDF-1.7\n", "this is a PDF"),
    "a web page": (b"<html><table>", "a web page"),
    "a photograph": (b"\xff\xd8\xff\xe0", "a photograph"),
    "noise": (b"number,kind\nA1,\0\1\2\n", "line 2 has bytes that no text has"),
    "too large": (b"a,b\n" * 10_000_001, "larger than 40 MB"),
    "an archive of something else": (with_part("_rels/.rels", b"<a/>"), "but not a workbook"),
    "an archive of nothing": (b"PK\x03\x04" + bytes(60), "damaged or not complete"),
    "cut off": (GOOD[:-200], "damaged or not complete"),
    "cut off in its rows": (sheet_of(b"<row><c>")[:-30], "damaged or not complete"),
    "rows that are no XML": (with_part("xl/sheet1.xml", b"<worksheet><row>"), "damaged"),
    "rows in no order": (
        sheet_of(b'<row r="3"><c><v>1</v></c></row><row r="2"/>'),
        "damaged",
    ),
    "definitions": (
        with_part("xl/workbook.xml", LAUGHS + b"]>" + part("xl/workbook.xml")[56:]),
        "definitions of its own",
    ),
    "definitions in the rows": (
        with_part("xl/sheet1.xml", LAUGHS + b"]><worksheet>&i;</worksheet>"),
        "definitions of its own",
    ),
    "nested without end": (
        sheet_of(b"<row><c>" + b"<is>" * 100_000 + b"</is>" * 100_000 + b"</c></row>"),
        "nested deeper than any sheet",
    ),
    "cells without end in a row": (
        sheet_of(b"<row>" + b"<c><v>1</v></c>" * 100_000 + b"</row>"),
        "row 1, column GS: further to the right",
    ),
    "rows beyond all": (
        sheet_of(ROWS + b'</row><row r="99999999"><c><v>1</v></c></row>'),
        "row 99999999: more rows",
    ),
    "merged without end": (
        sheet_of(ROWS + b"</row>" + b'<mergeCell ref="A1:B999999"/>' * 1_000),
        "most of the sheet is merged cells",
    ),
    "many files": (
        b"PK\x03\x04" + b"PK\x01\x02" * 3_000,
        "more than 2000 files in the workbook",
    ),
}


@pytest.mark.parametrize("case", SAYS)
def test_what_is_no_sheet_is_refused_soon(case):
    data, says = SAYS[case]
    with pytest.raises(BadInput) as fault:
        read_all(data)
    assert says in str(fault.value)


@pytest.mark.parametrize("codec", ["utf-8", "utf-16", "iso-8859-1"])
def test_merged_cells_are_found_in_whatever_encoding(codec):
    """The same sheet in three encodings, by hand; in one of them no name is seen in its bytes."""
    text = f"<sheetData>{ROWS.decode()}</row></sheetData><mergeCells><mergeCell ref='A2:B2'/>"
    marked = f'<?xml version="1.0" encoding="{codec}"?><worksheet>{text}</mergeCells></worksheet>'
    (row,) = read_all(with_part("xl/sheet1.xml", marked.encode(codec)))
    assert row.faults == dict.fromkeys((0, 1), "merged cells (A2:B2)")


def test_a_name_that_two_pieces_share_is_found():
    """Brute force: the piece ends before, within and after the name."""
    for spaces in range(xlsx_parts._CHUNK - 60, xlsx_parts._CHUNK + 1):
        data = with_part("xl/sheet1.xml", b"<worksheet>" + b" " * spaces + b"<mergeCell/>")
        parts = xlsx_parts.open_parts(data, where="shelf")
        assert xlsx_parts.may_name(parts, "xl/sheet1.xml", (b"mergeCell", b"hidden"))
        assert not xlsx_parts.may_name(parts, "xl/sheet1.xml", (b"hidden",))


def test_a_file_that_swells_is_given_up_before_it_fills_the_memory(monkeypatch):
    """Forty megabytes of one text in a hundred kilobytes, where thirty are held to be too many."""
    monkeypatch.setattr(xlsx_parts, "MOST_UNPACKED", 30_000_000)
    data = sheet_of(b"<row><c t='inlineStr'><is><t>" + b" lug 3  " * 5_000_000)
    assert len(data) < 200_000
    tracemalloc.start()
    with pytest.raises(BadInput, match="unpacked, the workbook is larger than any shelf"):
        read_all(data)
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert most < 5_000_000


def test_a_locked_workbook_is_refused():
    """The mark of a locked part, set by hand in the archive's list and before the part."""
    data = bytearray(GOOD)
    for sign, flags in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        at = -1
        while (at := data.find(sign, at + 1)) >= 0:
            data[at + flags] |= 1
    with pytest.raises(BadInput, match="damaged"):
        read_all(bytes(data))


@pytest.mark.parametrize("kind", ["xlsx", "csv"])
def test_whatever_is_damaged_is_read_or_refused_with_a_sentence(kind):
    """Two hundred files with bytes changed, dropped or doubled, from a fixed seed."""
    chance = random.Random(60)
    good = GOOD if kind == "xlsx" else 'number,kind\r\nA1,"lug ""a"""\r\n'.encode("utf-8-sig")
    refused = []
    for _ in range(200):
        data = bytearray(good)
        for _ in range(chance.randint(1, 4)):
            at = chance.randrange(len(data))
            match chance.randrange(3):
                case 0:
                    data[at] = chance.randrange(256)
                case 1:
                    del data[at : at + chance.randrange(1, 30)]
                case _:
                    data[at:at] = data[at : at + 20]
            data = data or bytearray(b"x")
        try:
            read_all(bytes(data))
        except BadInput as fault:
            refused.append(str(fault))
    assert len(refused) > 10
    assert [says for says in refused if "\n" in says] == []


@pytest.mark.parametrize(
    ("data", "encoding"),
    [
        ("number;says\nA1;Ø bléu\n".encode(), "UTF-8"),
        ("number;says\nA1;Ø bléu\n".encode("utf-8-sig"), "UTF-8"),
        ("number;says\nA1;Ø bléu\n".encode("cp1252"), "Western (code page 1252)"),
        ("number;says\nA1;Ø bléu\n".encode("utf-16"), "UTF-16"),
        (codecs.BOM_UTF16_BE + "number;says\nA1;Ø bléu\n".encode("utf-16-be"), "UTF-16"),
        ("number;says\rA1;Ø bléu\r".encode(), "UTF-8"),
    ],
)
def test_the_encoding_is_found_and_said(data, encoding):
    sheet = open_sheet(data, where="shelf")
    assert sheet.says[0].startswith(f"Read as {encoding}, cells parted by semicolons.")
    assert ("guess" in sheet.says[0]) == encoding.startswith("Western")
    assert [row.cells for row in sheet.rows()] == [("A1", "Ø bléu")]


def test_a_chosen_encoding_is_held_to():
    assert read_all("number;says\nA1;é\n".encode("cp1252"), encoding="Western (code page 1252)")
    with pytest.raises(BadInput, match="line 2 has a byte that is no sign in UTF-8"):
        read_all("number;says\nA1;é\n".encode("cp1252"), encoding="UTF-8")
    with pytest.raises(BadInput, match="no such encoding"):
        read_all(b"a,b\n", encoding="EBCDIC")


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("a,b\n1,2\n", ","),
        ("a;b\n1,5;2,5\n", ";"),
        ("a\tb,c\n1\t2\n", "\t"),
        ("a|b\n1|2\n", "|"),
        ('a,"b;c;d"\n1,"2;3;4"\n', ","),
        ("a;b, c and d\n1;2, 3 and 4\n5;6\n", ";"),
    ],
)
def test_what_parts_the_cells_is_found(text, sign):
    """Hand-worked: the sign that gives every row equally many cells."""
    assert find_delimiter(text.splitlines(keepends=True)) == sign


def test_what_parts_the_cells_may_be_said_in_the_file_or_by_a_person():
    assert read_all(b"sep=;\nnumber;bin\nA1;1,5\n")[0].cells == ("A1", "1,5")
    assert read_all(b"sep=;\nnumber;bin\nA1;1,5\n")[0].number == 3
    assert read_all(b"number|bin,x\nA1|1,5\n", delimiter="|")[0].cells == ("A1", "1,5")


def test_headers_may_stand_further_down():
    sheet = open_sheet(b"Our shelf\n\nnumber,bin\nA1,3\n", where="shelf", header_row=3)
    assert (sheet.header, [row.number for row in sheet.rows()]) == (("number", "bin"), [4])


def test_reading_tells_how_far_it_is_and_can_be_stopped():
    data = b"number,bin\n" + b"A1,3\n" * 5_000
    for given in (data, xlsx_bytes([["number", "bin"]] + [["A1", "3"]] * 5_000, sheet="x")):
        told: list[float] = []
        sheet = open_sheet(given, where="shelf")
        assert len(list(sheet.rows(on_progress=told.append))) == 5_000
        assert told == sorted(told)
        assert told[-1] == 1.0
        assert len(told) > 20
        asked = iter([False, False, True])
        with pytest.raises(CannotDo, match="stopped"):
            list(sheet.rows(stop=lambda asked=asked: next(asked)))

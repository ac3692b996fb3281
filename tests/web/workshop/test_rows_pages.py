"""Sheets of rows in and out through the pages, without a browser.

Truth: worked by hand; openpyxl as an independent reader and writer of workbooks.
"""

from __future__ import annotations

import csv
import io
import re
import threading

import openpyxl
import pytest

from counterhoop.bench.chores import Outcome
from counterhoop.bench.evidence import rows as evidence_rows
from counterhoop.bench.evidence.own_reference import own_rows
from counterhoop.bench.evidence.write_reference import write_row
from counterhoop.bench.long_work.rows_tasks import ask_rows_out
from counterhoop.bench.rows.take_rows import says_of
from counterhoop.bench.rows.taken import taken_files
from counterhoop.bench.rows.waiting import FOLDER, MOST_WAITING, change_waiting, find_waiting
from counterhoop.bench.shelf.cards import find_pieces, move_piece, write_piece
from counterhoop.store.shelf.look_up import all_pieces, piece_by_number
from counterhoop.store.shelf.put_away import hide_piece

ROOT, DATED = "/shelf/rows", "/workshop/dated/rows"
SHEET = b"Sticker,What,Holes apart (mm),How many\nA1,lug,42.5,4\nA2,claw,,8\nA3,lug,44,few\n"


def put_in(bench, data, *, name="shelf.csv", root=ROOT, **fields):
    sent = {"file": (name, data, "application/octet-stream")}
    return bench.ask.post(root, files=sent, data=fields, follow_redirects=False)


def columns_of(text):
    """Return what each select of a page shows, by its name."""
    found = {}
    for name, inside in re.findall(
        r'<select id="f-[^"]*" name="([^"]*)"[^>]*>(.*?)</select>', text, re.S
    ):
        chosen = re.search(r'value="([^"]*)" selected', inside)
        found[name] = chosen[1] if chosen else ""
    return found


def tried(bench, data, *, root=ROOT, change=None, **said):
    """Put a file in, send its columns as they are guessed with some changes; address and page."""
    made = put_in(bench, data, root=root, **said)
    assert made.status_code == 303, made.text
    address = made.headers["location"]
    form = columns_of(bench.ask.get(address).text) | (change or {})
    answer = bench.ask.post(f"{address}/columns", data=form)
    return address, answer


def take(bench, address):
    bench.ask.post(f"{address}/take")
    bench.shop.chores.wait(20)
    return bench.ask.get(f"{address}/tried").text


def shelf(bench):
    with bench.shop.store.reading() as connection:
        return {one.piece.number: one for one in all_pieces(connection)}


def files(bench):
    folder = bench.shop.store.address.folder / FOLDER
    return [*folder.iterdir()] if folder.is_dir() else []


def test_a_sheet_goes_onto_the_shelf(bench):
    address, answer = tried(bench, SHEET, change={"f0": "number", "f1": "kind"})
    assert "2 new, 0 changed, 0 left as they are, 1 refused." in answer.text
    assert "Column D &#34;How many&#34;: not a count: found" in answer.text
    assert shelf(bench) == {}
    assert "2 new pieces are on the shelf; 1 row was refused and left out." in take(bench, address)
    assert {number: one.on_shelf for number, one in shelf(bench).items()} == {"A1": 4, "A2": 8}
    assert [
        one.kept.piece.number for one in find_pieces(bench.shop, "holes 42.5", units="mm").found
    ]
    assert files(bench) == []
    # The page of a file that was taken says so, and pressing once more takes nothing twice.
    assert "2 new pieces" in bench.ask.get(address).text
    assert "2 new pieces" in bench.ask.post(f"{address}/take").text
    assert len(shelf(bench)) == 2
    assert "shelf.csv" in bench.ask.get(ROOT).text


def test_the_same_sheet_again_changes_nothing_and_its_columns_are_remembered(bench):
    address, _ = tried(bench, SHEET, change={"f0": "number", "f1": "kind"})
    take(bench, address)
    made = put_in(bench, SHEET)
    assert columns_of(bench.ask.get(made.headers["location"]).text)["f0"] == "number"
    again, answer = tried(bench, SHEET.replace(b"A2,claw,,8", b"A2,claw,51,7"))
    assert "0 new, 1 changed, 1 left as they are, 1 refused." in answer.text
    assert "A2: count: 8 → 7; holes apart: nothing → 51 mm" in answer.text
    assert "1 piece was changed" in take(bench, again)
    kept = shelf(bench)["A2"]
    assert (kept.on_shelf, kept.piece.count, kept.piece.measured[0].value) == (7, 8, 51)


BAD_FILES = [
    (b"", "the file is empty"),
    (b"   \n", "The file is empty"),
    (b"%PDF-1.7 \n", "this is a PDF, not a file of rows"),
    (b"\x89PNG\r\n", "this is a picture"),
    (b"number\nA1\n", "one header only"),
    (b"number,number\nA1,2\n", "the same header as column A"),
    (b"number,kind\n\"A1,lug\n", "quote"),
    (b"PK\x03\x04 no workbook", "damaged or not complete"),
    (b"number,kind\nA1,\xff\x00\n", "not a CSV file"),
]  # fmt: skip


def test_a_file_that_cannot_be_read_is_one_sentence(bench):
    for data, says in BAD_FILES:
        made = put_in(bench, data)
        text = made.text
        if made.status_code == 303:
            address = made.headers["location"]
            text = bench.ask.get(address).text
            if "row-columns" in text:
                text = bench.ask.post(f"{address}/columns", data=columns_of(text)).text
            bench.ask.post(f"{address}/aside")
        assert says.casefold() in text.casefold(), says
        assert "Traceback" not in text


BAD_CELLS = [
    ("A0,lug,42.5 in,4", 'column C "Holes apart (mm)": the header says mm and this cell says in'),
    ("B1,lug,\"1,250\",4", "the comma may mean thousands or a decimal"),
    ("B2,lug,0 mm,4", 'column C "Holes apart (mm)"'),
    ("B3,lug,42,-3", "fewer than none"),
    (",lug,42,1", "this is missing: the"),
    ("B4,,42,1", "this is missing: the"),
    ("B5,lug,42,1,,stray", "no header stands above this cell"),
    ("A\x07,lug,42,1", "a sign that cannot be printed"),
]  # fmt: skip


def test_a_cell_that_cannot_be_used_is_one_sentence_with_its_place(bench):
    rows = "".join(f"{row}\n" for row, _ in BAD_CELLS)
    address, answer = tried(bench, f"number,kind,Holes apart (mm),count\n{rows}".encode())
    text = answer.text.replace("&#34;", '"').replace("&#39;", "'")
    assert f"{len(BAD_CELLS)} refused." in text
    listed = bench.ask.get(f"{address}/list").content.decode("utf-8-sig")
    lines = [*csv.DictReader(io.StringIO(listed))]
    for number, (_, says) in enumerate(BAD_CELLS, 2):
        assert says.casefold() in text.casefold(), says
        its = [line for line in lines if line["row"] == str(number)]
        assert any(says.casefold() in line["why not"].casefold() for line in its), says
    assert {line["what happens"] for line in lines} == {"refused"}
    assert "nothing to take" in bench.ask.post(f"{address}/take").text
    assert shelf(bench) == {}


def test_columns_that_do_not_go_together_are_said_beside_them(bench):
    _, answer = tried(bench, SHEET, change={"f1": ""})
    assert answer.status_code == 422
    assert "Which column is the &#34;number&#34;?" in answer.text
    _, answer = tried(bench, SHEET, change={"f0": "number", "f1": "number"})
    assert answer.status_code == 422
    assert 'id="f-f1-fault"' in answer.text
    assert "Column A is taken for" in answer.text
    _, answer = tried(bench, SHEET, change={"f0": "number", "f2": "pitch", "u2": "g"})
    assert answer.status_code == 422
    assert 'id="f-f2-fault"' in answer.text
    assert columns_of(answer.text)["u2"] == "g"


def test_a_header_with_an_odd_unit_asks_for_one(bench):
    address = put_in(bench, b"number,kind,hole (furlongs)\nA1,lug,5\n").headers["location"]
    text = bench.ask.get(address).text
    assert "is no unit that goes with" in text
    form = columns_of(text) | {"u2": "mm"}
    assert "1 new" in bench.ask.post(f"{address}/columns", data=form).text


def test_a_sheet_of_a_workbook_is_named(bench):
    book = openpyxl.Workbook()
    for sheet in (book.active, book.create_sheet("Rods")):
        sheet.append(["number", "kind"])
        sheet.append([sheet.title, "rod"])
    out = io.BytesIO()
    book.save(out)
    address = put_in(bench, out.getvalue(), name="two.xlsx").headers["location"]
    text = bench.ask.get(address).text.replace("&#34;", '"')
    assert 'several sheets have rows: "Sheet", "Rods"' in text
    bench.ask.post(f"{address}/reading", data={"sheet": "Rods"})
    answer = bench.ask.post(f"{address}/columns", data=columns_of(bench.ask.get(address).text))
    assert "1 new" in answer.text
    assert "Rods: kind rod" in answer.text


def test_what_a_comma_is_can_be_said(bench):
    data = b"number;kind;hole (mm);price (EUR)\nA1;lug;6,500;1.250,50\n"
    address, answer = tried(bench, data)
    assert "may mean thousands or a decimal" in answer.text
    form = columns_of(bench.ask.get(address).text) | {"comma": "decimal"}
    assert "hole 6.500 mm" in bench.ask.post(f"{address}/columns", data=form).text
    take(bench, address)
    assert shelf(bench)["A1"].piece.price_minor == 125_050


def test_what_was_written_meanwhile_is_not_written_over(bench):
    address, _ = tried(bench, SHEET, change={"f0": "number", "f1": "kind"})
    take(bench, address)
    kept = shelf(bench)
    changed = SHEET.replace(b"42.5,4", b"43,3").replace(b"A2,claw,,8", b"A2,claw,,6")
    address, _ = tried(bench, changed)
    write_piece(bench.shop, kept["A1"].piece.id, {"bin": "7"}, based_on=1, by="window bench")
    move_piece(bench.shop, kept["A2"].piece.id, "sold", count=1, by="window bench")
    text = take(bench, address)
    assert "Row 2: A1 was written on by window bench".casefold() in text.casefold()
    assert "row 3: A2 has 7 on the shelf by now" in text
    assert shelf(bench)["A1"].piece.bin == "7"
    assert "A1" in bench.ask.post(f"{address}/again").text
    assert "2 pieces were changed" in take(bench, address)
    now = shelf(bench)
    assert (now["A1"].on_shelf, now["A1"].piece.bin, now["A2"].on_shelf) == (3, "7", 6)


def test_what_was_written_elsewhere_meanwhile_does_not_matter(bench):
    address, _ = tried(bench, SHEET, change={"f0": "number", "f1": "kind"})
    write_piece(bench.shop, None, {"number": "B1", "kind": "rod"}, based_on=0, by="window bench")
    assert "2 new pieces" in take(bench, address)


def test_a_number_that_came_meanwhile_or_was_put_away_is_said(bench):
    address, _ = tried(bench, SHEET, change={"f0": "number", "f1": "kind"})
    made = write_piece(bench.shop, None, {"number": "A1", "kind": "rod"}, based_on=0, by="bench")
    assert "row 2: A1 is on the shelf by now" in take(bench, address)
    assert [*shelf(bench)] == ["A1"]
    with bench.shop.store.writing() as connection:
        hide_piece(connection, made.piece.id, stamp=bench.shop.stamp("bench"))
    answer = bench.ask.post(f"{address}/again")
    assert "this number is on a piece that was put away" in answer.text.casefold()


def test_pieces_set_aside_are_not_counted_away(bench):
    address, _ = tried(bench, SHEET, change={"f0": "number", "f1": "kind"})
    take(bench, address)
    made = bench.ask.post("/jobs", data={"number": "30-001", "client": "Nell Ashby"},
                          follow_redirects=False)  # fmt: skip
    job = re.match(r"/jobs/(\w+)", made.headers["location"])[1]
    with bench.shop.store.reading() as connection:
        one = piece_by_number(connection, "A1")
    move_piece(bench.shop, one.piece.id, "set aside", count=3, job=job, by="bench")
    _, answer = tried(bench, SHEET.replace(b"42.5,4", b"42.5,2"))
    assert "3 of them are set aside for jobs" in answer.text


def test_a_file_is_put_aside_and_gone(bench):
    address = put_in(bench, SHEET).headers["location"]
    assert "Not taken yet" in bench.ask.get(ROOT).text
    bench.ask.post(f"{address}/aside")
    assert files(bench) == []
    assert bench.ask.get(address).status_code == 404
    assert bench.ask.get(f"{ROOT}/{'0' * 16}").status_code == 404
    assert bench.ask.get(f"{ROOT}/..%2F..%2Fcounterhoop.sqlite3").status_code == 404


def test_so_many_files_wait_and_no_more(bench):
    for _ in range(MOST_WAITING):
        assert put_in(bench, SHEET).status_code == 303
    answer = put_in(bench, SHEET)
    assert (answer.status_code, len(files(bench))) == (422, MOST_WAITING)
    assert "wait already" in answer.text


def test_nothing_chosen_is_said_beside_the_field(bench):
    answer = bench.ask.post(ROOT, data={"sort": "shelf"})
    assert answer.status_code == 422
    assert "No file was chosen." in answer.text


@pytest.mark.parametrize("form", ["csv", "xlsx"])
def test_the_shelf_goes_out_and_comes_in_as_it_went(bench, form):
    for number, kind, says in (("A1", "lug", "=1+1"), ("A2", "rod", "plain")):
        said = {"number": number, "kind": kind, "says": says, "count": 4}
        write_piece(bench.shop, None, said, based_on=0, by="bench")
    sent = bench.ask.get(f"{ROOT}/out", params={"form": form})
    assert f"shelf.{form}" in sent.headers["content-disposition"]
    assert "attachment" in sent.headers["content-disposition"]
    if form == "csv":
        assert '"\'=1+1"' in sent.text
    else:
        cell = openpyxl.load_workbook(io.BytesIO(sent.content)).active["C2"]
        assert (cell.value, cell.data_type) == ("=1+1", "s")
    _, answer = tried(bench, sent.content, name=f"shelf.{form}")
    assert "0 new, 0 changed, 2 left as they are, 0 refused." in answer.text
    assert "already" in answer.text
    found = bench.ask.get(f"{ROOT}/out", params={"form": "csv", "find": "rod"}).text
    assert ("A2" in found, "A1" in found) == (True, False)


def test_the_dated_features_go_in_and_out(bench):
    rows = (
        b"family,feature,name,from,to,follows,source\n"
        b"Corvane,badge,octagon,1950,1955,,seen on job 12\n"
        b"Corvane,badge,star,,1960,octagon,seen on job 12\n"
        b"Corvane,bodge,x,1950,1955,,y\n"
        b"Corvane,badge,late,1960,1955,,y\n"
    )
    address, answer = tried(bench, rows, root=DATED, sort="forms")
    text = answer.text.replace("&#34;", '"')
    assert "2 new, 0 changed, 0 left as they are, 2 refused." in text
    assert 'Column B "feature": no such feature here' in text
    assert "it ends before it begins" in text.casefold()
    assert "2 new forms of features are among your dated features" in take(bench, address)
    kept = own_rows(bench.shop)["value"]
    assert [(row["name"], row.get("from"), row["to"]) for row in kept] == [
        ("octagon", 1950, 1955), ("star", None, 1960),
    ]  # fmt: skip
    sent = bench.ask.get(f"{DATED}/out", params={"form": "csv", "sort": "forms"})
    changed = sent.content.replace(b'"1955"', b'"1956"')
    address, answer = tried(bench, changed, root=DATED, sort="forms")
    assert "0 new, 1 changed, 1 left as they are, 0 refused." in answer.text
    assert "Corvane badge octagon: to: 1955 → 1956" in answer.text
    take(bench, address)
    address, _ = tried(bench, b"family,number,year,source\nCorvane,12345,1957,a receipt\n",
                       root=DATED, sort="serials")  # fmt: skip
    assert "1 new serial number is among your dated features" in take(bench, address)
    assert own_rows(bench.shop)["serial"][0]["year"] == 1957
    # A file of one place is none of the other's.
    assert bench.ask.get(address.replace(DATED, ROOT)).status_code == 404


def test_dated_features_written_meanwhile_are_not_written_over(bench):
    from counterhoop.bench.evidence.write_reference import write_row

    rows = b"family,feature,name,from,to,source\nCorvane,badge,octagon,1950,1955,job 12\n"
    address, _ = tried(bench, rows, root=DATED, sort="forms")
    row = {"family": "Corvane", "feature": "badge", "name": "star", "from": 1950, "source": "x"}
    write_row(bench.shop, "value", None, row, based_on=0, by="window bench")
    assert "by window bench. Nothing of them was taken." in take(bench, address)
    bench.ask.post(f"{address}/again")
    assert "1 new form" in take(bench, address)
    assert len(own_rows(bench.shop)["value"]) == 2


def test_dated_rows_and_the_record_that_they_were_taken_are_there_together(bench, monkeypatch):
    rows = b"family,feature,name,from,source\nCorvane,badge,star,1971,two bills\n"
    address, _ = tried(bench, rows, root=DATED, sort="forms")

    class Ended(Exception):
        """The program is ended at this very place."""

    def end(*_args, **_named):
        raise Ended

    # As the last thing and as the first: killed at either, both are there or neither is.
    for name in ("record_taken", "write_rows_in"):
        with monkeypatch.context() as patched:
            patched.setattr(evidence_rows, name, end)
            take(bench, address)
        assert own_rows(bench.shop)["value"] == []
        assert taken_files(bench.shop) == ()
    assert "1 new form of a feature is among" in take(bench, address)
    assert [one.new for one in taken_files(bench.shop)] == [1]


def test_of_two_files_called_alike_only_the_one_that_is_taken_is_stopped(bench):
    first, _ = tried(bench, SHEET, change={"f0": "number", "f1": "kind"})
    second, _ = tried(bench, SHEET.replace(b"A", b"B"))
    one = change_waiting(find_waiting(bench.shop, first.rpartition("/")[2]), taking=True)
    done = threading.Event()

    def work(_share):
        done.wait(20)
        return Outcome(says=("taken",))

    bench.shop.chores.start(says_of(one), work, now=bench.shop.now, by="bench")
    try:
        assert "Stop" in bench.ask.get(f"{first}/tried").text
        assert "Stop" not in bench.ask.get(f"{second}/tried").text
        refused = bench.ask.post(f"{first}/aside", follow_redirects=False)
        aside = bench.ask.post(f"{second}/aside", follow_redirects=False)
        assert (refused.status_code, aside.status_code) == (409, 303)
    finally:
        done.set()
        bench.shop.chores.wait(20)


def test_dated_rows_that_were_asked_for_are_not_written_again_for_each_look(bench):
    asked = [
        ask_rows_out(bench.shop, "forms", form="csv", find="", units="mm").id for _ in range(2)
    ]
    assert asked[0] == asked[1]
    row = {"family": "Corvane", "feature": "badge", "name": "shield", "source": "two bills"}
    write_row(bench.shop, "value", None, row, based_on=0, by="bench")
    assert ask_rows_out(bench.shop, "forms", form="csv", find="", units="mm").id != asked[0]

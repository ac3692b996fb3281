"""One line that finds a piece, as one types it. Truth: what was put on the shelf before."""

from __future__ import annotations

import re
from html import unescape

from counterhoop.bench.shelf.cards import write_piece
from counterhoop.parts.dimension import Dimension, read_measured


def words(answer) -> str:
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", answer.text)).split())


def put(bench, **fields: object) -> None:
    write_piece(bench.shop, None, fields, based_on=0, by="window bench")


def found(bench, line: str):
    return bench.ask.get("/shelf", params={"find": line})


def shelf(bench) -> None:
    length = read_measured(Dimension.LENGTH, "42 mm")
    put(bench, number="W-052", kind="strainer", says="lever strainer", bin="B4")
    put(bench, number="W-053", kind="rod", says="rods", bin="B5", measured=(length,))
    put(bench, number="W-054", kind="rod", says="rods", bin="B5", fitting="rod 12-24 x 42 mm")


def test_a_number_is_found_however_it_is_typed(bench) -> None:
    shelf(bench)
    for line in ("W-053", "W053", "w-53", "w 53"):
        assert "1 found" in words(found(bench, line)), line
        assert "W-053" in words(found(bench, line)), line
    assert "No piece says all of this" in words(found(bench, "W-99"))


def test_a_bin_a_slip_and_what_to_leave_out(bench) -> None:
    shelf(bench)
    assert "lever strainer" in words(found(bench, "bin B4"))
    slip = found(bench, "lever stainer")
    assert "Did you mean strainer ?" in words(slip)
    (href,) = re.findall(r'<a class="to-place" href="([^"]*)">strainer</a>', slip.text)
    assert "1 found" in words(bench.ask.get(unescape(href)))
    assert "Did you mean" not in words(found(bench, "lever xylophone"))
    left_out = words(found(bench, "strainer 76mm"))
    assert left_out.count("“76mm”") == 1


def test_pieces_called_the_same_are_told_apart_and_the_example_finds_something(bench) -> None:
    assert "such as" not in words(bench.ask.get("/shelf"))
    shelf(bench)
    newest = words(bench.ask.get("/shelf"))
    assert "length 42 mm" in newest
    assert "rod 12-24 x 42 mm" in newest
    (example,) = re.findall(r"such as: (.*?)\. ", newest)
    assert example == "rod, length 42 mm"
    assert "found" in words(found(bench, example))


def test_none_alike_is_no_piece(bench) -> None:
    asked = {
        "measured.0.what": "length", "measured.0.written": "42 mm", "number": "7", "count": "0",
    }  # fmt: skip
    refused = bench.ask.post("/shelf/unknown/put", data=asked, follow_redirects=False)
    assert refused.status_code == 422
    assert "None to put on the shelf" in words(refused)
    assert "No piece says all of this" in words(found(bench, "7"))

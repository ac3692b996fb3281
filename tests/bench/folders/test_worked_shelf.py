"""The shelf and the small job that come with the worked one.

Truth: the packaged rows themselves, read a second time by the standard library; and what the
contract of the demonstration says by hand (one strainer, two jobs).
"""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from pathlib import Path

from counterhoop.bench.demonstration.rows import demo_files
from counterhoop.bench.demonstration.worked_shelf import (
    LOT,
    demo_in_sight,
    demo_pieces,
    demo_rows,
    put_demo_away,
    put_demo_shelf,
)
from counterhoop.bench.folders.first_page import on_the_bench
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.worked_job import put_worked_job
from counterhoop.bench.shelf.cards import move_piece, write_piece
from counterhoop.bench.shelf.known import known_pieces
from counterhoop.bench.shelf.whose import key_of
from counterhoop.bench.workshop import Workshop
from counterhoop.evidence.read_reference import packaged_reference, read_reference
from counterhoop.fittings.read_book import packaged_book
from counterhoop.parts.rows.dry_run import dry_run
from counterhoop.parts.rows.mapping import map_columns
from counterhoop.parts.rows.open_sheet import open_sheet
from counterhoop.parts.rows.shelf_layout import piece_of, shelf_layout


def rows() -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(demo_rows().decode("utf-8"))))


def test_every_row_is_taken_and_says_what_stands_in_it() -> None:
    pieces = demo_pieces()
    assert [one.number for one in pieces] == [row["number"] for row in rows()]
    assert [one.count for one in pieces] == [int(row["count"]) for row in rows()]
    assert [one.owner for one in pieces] == [row["owner"] for row in rows()]
    assert all(one.lot.startswith(LOT) for one in pieces)


def test_what_it_calls_an_entry_of_the_book_is_one_of_that_kind() -> None:
    kinds = {entry.name: entry.kind.value for entry in packaged_book()}
    named = [one for one in demo_pieces() if one.fitting]
    assert len(named) > 40
    assert [one.kind for one in named] == [kinds.get(one.fitting) for one in named]


def test_the_shares_of_each_bought_box_make_a_whole() -> None:
    shares: dict[str, float] = {}
    for one in demo_pieces():
        if one.lot_share is not None:
            shares[one.lot] = shares.get(one.lot, 0.0) + one.lot_share
    assert {lot: round(share, 9) for lot, share in shares.items()} == {
        f"{LOT}, box {box}": 1.0 for box in (1, 2, 3)
    }


def test_the_example_a_user_changes_is_the_packaged_one() -> None:
    example = Path(__file__).parents[3] / "examples" / "shelf.csv"
    assert example.read_bytes() == demo_rows()


def test_the_workbook_says_what_the_rows_say_and_the_reference_can_be_read() -> None:
    by_name = {one.name: one.content for one in demo_files()}
    assert set(by_name) == {"shelf.csv", "shelf.xlsx", "dated-features.toml"}
    sheet = open_sheet(by_name["shelf.xlsx"], where="shelf.xlsx")
    run = dry_run(
        sheet, map_columns(sheet.header, shelf_layout()), shelf_layout(), kept=lambda _key: None
    )
    assert not run.refused
    assert tuple(piece_of(row.values, id="") for row in run.new) == demo_pieces()
    text = by_name["dated-features.toml"].decode()
    assert read_reference(text, name="dated-features.toml") == packaged_reference()


def test_pressed_twice_nothing_is_there_twice(shop: Workshop) -> None:
    first = put_worked_job(shop, by="window bench")
    assert put_worked_job(shop, by="window bench") == first
    assert [one.title.partition(",")[0] for one in on_the_bench(shop)] == ["26-031", "26-034"]
    assert len(known_pieces(shop)) == len(rows())
    assert put_demo_shelf(shop, by="window bench") == 0
    assert on_the_bench(shop)[0].id == first


def test_the_band_s_own_pieces_carry_the_name_of_their_job_s_client(shop: Workshop) -> None:
    job = kept_job(shop, put_worked_job(shop, by="window bench"))
    owned = {one.piece.owner for one in known_pieces(shop)} - {""}
    assert owned == {job.job["client"]}


def test_one_press_puts_it_away_and_another_brings_it_back(shop: Workshop) -> None:
    job = put_worked_job(shop, by="window bench")
    own = write_piece(
        shop, None, {"number": "0001", "kind": "lug", "lot": "a box"}, based_on=0, by="x"
    )
    promised = next(one.piece for one in known_pieces(shop) if one.piece.number == "W-005")
    move_piece(shop, promised.id, "set aside", count=1, job=key_of(job), by="window bench")
    assert [one.number for one in put_demo_away(shop, by="window bench")] == ["W-005"]
    assert {one.piece.number for one in known_pieces(shop)} == {"W-005", own.piece.number}
    assert demo_in_sight(shop) == 1
    assert [one.number for one in put_demo_away(shop, by="window bench")] == ["W-005"]
    assert put_demo_shelf(shop, by="window bench") == len(rows()) - 1
    assert demo_in_sight(shop) == len(rows())


def test_a_piece_of_ones_own_with_one_of_its_numbers_stays(shop: Workshop) -> None:
    own = replace(demo_pieces()[0], lot="my own", says="mine")
    fields = {"number": own.number, "lot": own.lot, "says": own.says, "kind": own.kind}
    write_piece(shop, None, fields, based_on=0, by="x")
    assert put_demo_shelf(shop, by="x") == len(rows()) - 1
    assert put_demo_away(shop, by="x") == ()
    assert [one.piece.says for one in known_pieces(shop)] == ["mine"]

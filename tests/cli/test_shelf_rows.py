"""Sheets of rows in and out, as one types it; truth: worked by hand."""

from __future__ import annotations

import csv

import pytest

from counterhoop.bench.rows import take_rows
from counterhoop.cli import progress

SHEET = "Sticker,What,Holes apart (mm),How many\nA1,lug,42.5,4\nA2,claw,,8\nA3,lug,44,few\n"


@pytest.fixture(autouse=True)
def nothing_said_on_the_way(monkeypatch):
    """On a slow day a second passes, and how far it is would stand among the lines."""
    monkeypatch.setattr(progress, "SILENT_S", 1e9)


@pytest.fixture
def data(tmp_path):
    return ("--data", tmp_path / "data")


@pytest.fixture
def sheet(tmp_path):
    (tmp_path / "drawers.csv").write_text(SHEET, encoding="utf-8")
    return tmp_path / "drawers.csv"


def waiting(tmp_path):
    return [*(tmp_path / "data" / "rows").iterdir()]


def test_a_sheet_goes_in_comes_out_and_in_again(run, data, sheet, tmp_path):
    first = run("shelf", "in", sheet, *data)
    assert (first.code, first.err) == (
        2,
        'row 1: no column is the "number", without which no piece is told from another.'
        " Say which column it is.\n",
    )
    ran = run("shelf", "in", sheet, "--as", "Sticker=number", "--dry-run", "--list",
              tmp_path / "list.csv", *data)  # fmt: skip
    assert "2 new, 0 changed, 0 left as they are, 1 refused.\n" in ran.out
    assert "Nothing was taken: this was a dry run." in ran.out
    assert (ran.code, ran.err.count("\n")) == (1, 1)
    assert ran.err.startswith('row 4, column D "How many": not a count')
    with (tmp_path / "list.csv").open(encoding="utf-8-sig", newline="") as opened:
        assert [row["what happens"] for row in csv.DictReader(opened)] == ["new", "new", "refused"]
    ran = run("shelf", "in", sheet, "--as", "A=number", *data)
    assert "2 new pieces are on the shelf; 1 row was refused and left out.\n" in ran.out
    for name in ("out.csv", "out.xlsx"):
        assert run("shelf", "out", tmp_path / name, *data).code == 0
        again = run("shelf", "in", tmp_path / name, *data)
        assert "0 new, 0 changed, 2 left as they are, 0 refused.\n" in again.out
        assert again.code == 0
    assert run("shelf", "out", tmp_path / "few.csv", "--find", "claw", *data).code == 0
    assert "A1" not in (tmp_path / "few.csv").read_text("utf-8")
    assert waiting(tmp_path) == []


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("out", "shelf.doc"), "how shall it be written?"),
        (("in", "nowhere.csv"), "there is no such file"),
        (("in", "drawers.csv", "--as", "Label=number"), "the sheet has no such column"),
        (("in", "drawers.csv", "--as", "number"), "which column is what?"),
        (("in", "drawers.csv", "--as", "A=nmber"), "no such field of a piece"),
        (("in", "drawers.csv", "--unit", "C=g"), "no unit of"),
        (("in", "drawers.csv", "--comma", "dot"), "what is a comma?"),
        (("in", "drawers.csv", "--headers-in", "9"), "no headers stand there"),
    ],
)
def test_bad_words_are_one_line_and_leave_nothing(run, data, sheet, tmp_path, words, says):
    sub, name, *options = words
    ran = run("shelf", sub, tmp_path / name, *options, *data)
    assert (ran.code, ran.err.count("\n")) == (2, 1)
    assert says in ran.err
    assert not (tmp_path / "data" / "rows").exists() or waiting(tmp_path) == []


def test_stopped_half_way_nothing_is_there(run, data, tmp_path, monkeypatch):
    rows = "".join(f"A{n},lug\n" for n in range(2500))
    (tmp_path / "long.csv").write_text("number,kind\n" + rows, encoding="utf-8")
    whole = take_rows.take_now

    def interrupted(shop, one, *, by, share):
        def press(done):
            share(done)
            if done > 0.5:
                raise KeyboardInterrupt

        return whole(shop, one, by=by, share=press)

    monkeypatch.setattr(take_rows, "take_now", interrupted)
    ran = run("shelf", "in", tmp_path / "long.csv", *data)
    assert (ran.code, ran.err) == (130, "Stopped. Nothing of these rows was taken.\n")
    monkeypatch.undo()
    assert "2500 new" in run("shelf", "in", tmp_path / "long.csv", "--dry-run", *data).out
    assert waiting(tmp_path) == []


def test_the_dated_features_too(run, data, tmp_path):
    (tmp_path / "mine.csv").write_text(
        "family,feature,name,from,to,source\nCorvane,badge,octagon,1950,1955,job 12\n", "utf-8"
    )
    ran = run("dated-rows", "in", tmp_path / "mine.csv", *data)
    assert "1 new form of a feature is among your dated features." in ran.out
    assert run("dated-rows", "out", tmp_path / "out.csv", *data).code == 0
    assert "octagon" in (tmp_path / "out.csv").read_text("utf-8")
    (tmp_path / "numbers.csv").write_text("family,number,year,source\nCorvane,1,1957,x\n", "utf-8")
    ran = run("dated-rows", "in", tmp_path / "numbers.csv", "--serials", *data)
    assert "1 new serial number" in ran.out

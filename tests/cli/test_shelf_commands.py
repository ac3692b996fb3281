"""The shelf as one types it. Truth: worked by hand from what was typed before."""

from __future__ import annotations

import pytest

from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.workshop import open_workshop
from planned_once import PLANNED


@pytest.fixture
def shelf(run, tmp_path):
    """Type a command of the shelf; two lugs lie on it, and job 214 has a small tom."""
    data = tmp_path / "data"
    with open_workshop(data=data, works=PLANNED) as shop:
        job = open_folder(shop, job={"number": "214", "client": "A. Hale"}, by="x")
        add_drum(shop, job, name="small tom", survey={}, by="x")

    def typed(*words):
        return run("shelf", *words, "--data", data)

    lug = ("single-ended lug", "--measured", "holes apart 42.5 mm", "--measured", "pitch 24 tpi")
    assert typed("new", *lug, "--count", "6", "--bin", "B 7").out == "0001 is on the shelf.\n"
    assert typed("new", "brass lug", "--owner", "B. Rowe").out == "0002 is on the shelf.\n"
    return typed


def test_found_shown_moved_and_labelled(shelf, tmp_path):
    assert shelf("find", "lug,", "holes 42 +- 1").out == (
        "0001  single-ended lug: 6 free, bin B 7, holes apart 42.5 mm\n"
        "0002  brass lug: 1 free, belongs to B. Rowe\n"
    )
    nothing = shelf("find", "iron lug")
    assert nothing.out == 'No piece says all of this.\nThere is something without "iron".\n'
    moved = shelf("move", "0001", "set aside", "--count", "2", "--for", "small tom")
    assert moved.out == "6 on the shelf, 2 of them set aside for job 214, small tom.\n"
    shown = shelf("show", "0001").out
    for line in ("6 on the shelf", "measured: holes apart 42.5 mm; pitch 24 tpi", "bin: B 7",
                 "2 set aside for job 214, small tom"):  # fmt: skip
        assert line in shown, line

    to = tmp_path / "labels.pdf"
    address = "http://192.0.2.7:8600"
    ran = shelf("labels", "0001", "0002", "--bin", "B 7", "--to", to, "--address", address)
    assert ran.out == f"Wrote {to}.\n"
    assert to.read_bytes().startswith(b"%PDF")


def test_what_cannot_be_is_one_line(shelf):
    for words, says in (
        (("show", "0009"), "no piece has this number"),
        (("move", "0001", "lost"), "no such movement"),
        (("move", "0001", "sold", "--count", "7"), "only 6 free"),
        (("move", "0001", "set aside", "--for", "job 9"), "no job or drum is called so"),
        (("move", "0001", "set aside", "--for", "small tom", "--count", "7"), "only 6 free"),
        (("move", "0002", "set aside", "--for", "small tom"), "this piece is B. Rowe's"),
        (("move", "0001", "counted", "--count", "5"), "put right"),
        (("new", "x", "--measured", "girth 4 mm"), "what was measured"),
        (("new", "x", "--price", "4 shells"), "price"),
        (("new", "x", "--number", "0001"), "another piece's"),
        (("labels",), "no label is chosen"),
        (("labels", "0001", "--sheet", "A7"), "no such sheet"),
        (("labels", "0001", "--used", "12"), "no label is left"),
    ):
        ran = shelf(*words)
        assert (ran.code, ran.err.count("\n"), ran.out) == (2, 1, ""), words
        assert says in ran.err

"""The dated command: the same answer as text, and what can be looked at.

Truth: the reckoning itself, called beside it; the packaged rows as they are written.
"""

from __future__ import annotations

from counterhoop.bench.workshop import utc_now
from counterhoop.evidence.dated import date_drum
from counterhoop.evidence.read_reference import packaged_reference
from counterhoop.evidence.seen import Seen
from counterhoop.evidence.words import years_words

MINE = """
source = "two bills"
[[value]]
family = "Corvane"
feature = "badge"
name = "star"
from = 1970
"""


def test_what_was_seen_told_and_numbered_is_dated(run):
    looks = ["--saw", "badge=round", "--told", "shell make-up=six", "--serial", "15 001"]
    done = run("dated", "--family", "Corvane", "--size", "14 in dia x 5 in deep", *looks)
    wanted = date_drum(
        [
            Seen(feature="badge", value="round, nailed", sure=0.95),
            Seen(feature="shell make-up", value="six plies", sure=0.8),
        ],
        packaged_reference(), family="Corvane", looked_at=utc_now().year, diameter_mm=355.6,
        serial="15 001",
    )  # fmt: skip
    assert (done.code, done.err) == (0, "")
    assert done.out.startswith(years_words(wanted))
    assert "15 220 is dated 1961, against the order of the others" in done.out
    assert f"95 %: {wanted.spans[0.95]}" in done.out


def test_a_file_of_ones_own_lies_over_the_packaged_rows(run, tmp_path):
    mine = tmp_path / "mine.toml"
    mine.write_text(MINE)
    listed = run("dated", "--list", "--reference", mine).out
    assert "    star: from about 1970\n" in listed
    assert "    square: from about 1966\n" in listed
    assert "Quennick: Quennick" in listed
    assert "Quennick" not in run("dated", "--list", "--family", "Corvane").out
    mine.write_text(MINE.replace("1970", '"about 1970"'))
    refused = run("dated", "--list", "--reference", mine)
    assert refused.code == 2
    assert refused.err.startswith("mine.toml: value star.from: ")


def test_dated_numbers_are_listed_from_the_lowest_to_the_highest(run, tmp_path):
    rows = "".join(
        f'[[serial]]\nfamily = "Corvane"\nnumber = "{number}"\nyear = 1960\n'
        for number in ("9 000", "100", "20 000", "700")
    )
    mine = tmp_path / "mine.toml"
    mine.write_text(f'source = "bills"\n{rows}', "utf-8")
    listed = run("dated", "--list", "--family", "Corvane", "--reference", str(mine))
    assert "serial numbers: 4 dated, 100 to 20 000" in listed.out


def test_a_slip_is_one_line(run):
    for words, says in (
        (["--saw", "badge=ovel"], "one of transfer"),
        (["--line", "Concerto"], 'Did you mean "Concert"?'),
        (["--serial", "behind the vent"], "not a serial number"),
        (["--size", "14x5"], "size"),
    ):
        done = run("dated", "--family", "Corvane", *words)
        assert done.code == 2
        assert says in done.err
        assert done.err.count("\n") == 1

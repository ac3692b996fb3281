"""The page on what can be heard: its figures are today's, and what its words say holds.

Truth: the model as the program has it now, computed again; the recordings are held by
``tests/bench/test_recordings.py`` and read again here at full counts.
"""

from __future__ import annotations

import re
from pathlib import Path
from types import ModuleType

import pytest

from counterhoop.heads.rank import hearing
from counterhoop.listen.advice import EVEN_ENOUGH_CENTS
from counterhoop.listen.calibration import FIRST_TURNS

PAGE = "explanation/what-can-be-heard.md"
AGAIN = "run docs/make_heard.py, and read what changed"


def words(docs: Path) -> str:
    return (docs / PAGE).read_text(encoding="utf-8")


def figures(table: str) -> list[list[float]]:
    """All numbers of each row below the head, its first cell left out."""
    rows = [line.split("|")[2:] for line in table.split("\n") if line.startswith("|")][2:]
    return [[float(n) for n in re.findall(r"[-+]?\d+", " ".join(cells))] for cells in rows]


def test_what_is_computed_is_todays(docs: Path, heard: ModuleType) -> None:
    assert heard.filled(words(docs), heard.computed()) == words(docs), AGAIN


@pytest.mark.full
def test_what_is_read_of_the_recordings_is_todays(docs: Path, heard: ModuleType) -> None:
    assert heard.filled(words(docs), heard.listened()) == words(docs), AGAIN
    for name, text in heard.strips().items():
        assert (docs / "pictures" / name).read_text("utf-8") == text, AGAIN


def test_a_changed_figure_is_found_out(docs: Path, heard: ModuleType) -> None:
    page = words(docs).replace("| 12 | 12 | 3 | 9 |", "| 12 | 12 | 4 | 8 |")
    assert page != words(docs)
    assert heard.filled(page, {"rods": heard.rods()}) == words(docs)


def test_every_part_is_filled_and_none_is_forgotten(docs: Path, heard: ModuleType) -> None:
    named = re.findall(r"<!-- made: (\w+) -->\n\|?\w*", words(docs))
    assert set(named) == {*heard.computed(), "demo"}


def test_opposite_rods_read_the_same_while_they_pull_differently(heard: ModuleType) -> None:
    """Exact at first order: no wave but the one with two lobes is heard."""
    read = figures(heard.pulls())
    for row in (read[1], read[4]):
        assert row[:4] == row[4:]
    assert max(abs(n) for n in read[4]) <= EVEN_ENOUGH_CENTS / 2
    assert max(abs(n) for n in read[5]) > 50.0
    assert len(hearing([0.0, 90.0, 180.0, 270.0]).cents) == 2


def test_what_the_words_say_of_a_second_head_is_what_the_table_says(
    docs: Path, heard: ModuleType
) -> None:
    assert "by three or four semitones" in words(docs)
    assert "to a few cents" in words(docs)
    for _, _, middle, rim, apart in figures(heard.second()):
        assert 300.0 <= middle < 450.0
        assert abs(rim) < 5.0 < apart


def test_the_words_name_the_limits_that_hold(docs: Path) -> None:
    assert f"is {EVEN_ENOUGH_CENTS:.0f} cents, which is common practice" in words(docs)
    assert f"at most 1/{1 / FIRST_TURNS:.0f} of a turn" in words(docs)

"""The page on how sure the tool is: its figures are today's, and what its words say holds.

Truth: the program as it is now, computed again; what is counted over invented parts and drums is
held to limits by ``tests/parts`` and ``tests/evidence``, and compared here at full counts.
"""

from __future__ import annotations

import re
from pathlib import Path
from types import ModuleType

import pytest

PAGE = "explanation/parts-and-years.md"
AGAIN = "run docs/make_sure.py, and read what changed"


def words(docs: Path) -> str:
    return (docs / PAGE).read_text(encoding="utf-8")


def rows(table: str) -> list[list[str]]:
    """The cells of each row below the head."""
    lines = [line for line in table.split("\n") if line.startswith("|")][2:]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines]


def test_what_is_computed_is_todays(docs: Path, sure: ModuleType) -> None:
    assert sure.filled(words(docs), sure.computed()) == words(docs), AGAIN


@pytest.mark.full
def test_what_is_counted_is_todays(docs: Path, sure: ModuleType) -> None:
    assert sure.filled(words(docs), sure.counted()) == words(docs), AGAIN


def test_a_changed_figure_is_found_out(docs: Path, sure: ModuleType) -> None:
    page = words(docs).replace("| seen | 95 % |", "| seen | 99 % |")
    assert page != words(docs)
    assert sure.filled(page, {"eye": sure.eye()}) == words(docs)


def test_every_part_is_made(docs: Path) -> None:
    made = re.findall(r"<!-- made: (\w+) -->\n(.*?)<!-- end -->", words(docs), re.DOTALL)
    assert {name for name, _ in made} == {
        *("words", "casting", "parts", "hands", "eye", "snare", "years", "later", "numbers")
    }
    assert all("|" in text for _, text in made)


def test_the_walks_tell_what_the_words_beside_them_say(sure: ModuleType) -> None:
    """By hand: a lug leads first, the third reading turns it; the strainer alone looks later."""
    read = rows(sure.casting())
    assert "bass lug" in read[1][1]
    assert read[1][3] == "base wide"
    assert all(
        line[1].startswith("It is almost surely Corvane lever strainer") for line in read[2:]
    )
    seen = rows(sure.snare())
    assert [line[2] for line in seen] == ["none"] * 5 + ["strainer and butt"]

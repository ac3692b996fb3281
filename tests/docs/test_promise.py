"""The page on what a promise means: its figures are today's, and its words say what they say.

Truth: the program as it is now, computed again.
"""

from __future__ import annotations

import re
from pathlib import Path
from types import ModuleType

import pytest

PAGE = "explanation/what-a-promise-means.md"
AGAIN = "run docs/make_promise.py, and read what changed"


@pytest.fixture(scope="module")
def parts(promised: ModuleType) -> dict[str, str]:
    """What the tables say today."""
    computed: dict[str, str] = promised.computed()
    return computed


def shares(table: str) -> list[int]:
    """The percentages at the ends of a table's rows."""
    return [int(one) for one in re.findall(r"(\d+) % \|$", table, re.MULTILINE)]


def test_every_figure_is_todays(docs: Path, promised: ModuleType, parts: dict[str, str]) -> None:
    page = (docs / PAGE).read_text(encoding="utf-8")
    assert set(re.findall(r"<!-- made: (\w+) -->", page)) == set(parts)
    assert promised.filled(page, parts) == page, AGAIN
    other = page.replace("| 80 % |", "| 81 % |")
    assert other != page
    assert promised.filled(other, parts) == page


def test_the_words_beside_the_tables_hold(parts: dict[str, str]) -> None:
    """By hand from the page: too narrow, right, too wide; by usual hours fewer than half."""
    alone, shared, end_to_end = shares(parts["sums"])
    assert alone < 75
    assert 78 <= shared <= 82
    assert end_to_end > 93
    snare_usual, _, snare_shared, kit_usual, kit_alone, kit_shared = shares(parts["days"])
    assert max(snare_usual, kit_usual) < 50
    assert kit_alone < 80 <= min(snare_shared, kit_shared)
    usual = re.findall(r"\| (\d+\.\d) min \|", parts["log"])
    assert [float(one) for one in usual] == sorted(float(one) for one in usual)
    assert usual[0] == "6.0"

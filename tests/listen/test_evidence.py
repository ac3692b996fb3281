"""The page of evidence says what is read of real drums today.

Truth: the recordings, read again; how they are to be read is held by ``test_real_strokes.py``.
"""

from __future__ import annotations

import runpy
from pathlib import Path

import pytest
from recordings import Recordings

DOCS = Path(__file__).parents[2] / "docs"
PAGE = DOCS / "explanation" / "what-can-be-heard-evidence.md"


def rows_of(page: str, first: str) -> list[list[str]]:
    """Return the rows of the table whose head begins with a word, cell by cell."""
    lines = page.split("\n")
    at = next(i for i, line in enumerate(lines) if line.startswith(f"| {first} |"))
    rows = []
    for line in lines[at + 2 :]:
        if not line.startswith("|"):
            break
        rows.append([cell.strip() for cell in line.strip("|").split("|")])
    return rows


@pytest.mark.full
def test_the_drums_are_read_as_the_page_says(recordings: Recordings) -> None:
    script = runpy.run_path(str(DOCS / "pictures" / "listening.py"))
    today = "\n".join(script["drum_by_drum"](script["Takes"](recordings)))
    assert rows_of(today, "drum") == rows_of(PAGE.read_text("utf-8"), "drum"), (
        "run docs/pictures/listening.py, and read what changed"
    )


def test_the_page_hides_nothing() -> None:
    rows = rows_of(PAGE.read_text("utf-8"), "read by")
    by = {(row[0], row[1]): row for row in rows}
    assert {name for name, _ in by} >= {"as it is read here", "yin", "pyin", "piptrack"}
    for _, where, takes, unread, gross, near, *_ in rows:
        assert where in ("middle", "edge")
        assert int(unread) + int(gross) + int(near) <= int(takes)
    assert by["as it is read here", "middle"][4] == "0"

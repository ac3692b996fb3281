"""No figure without its source: the loader refuses the row."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import pytest

from counterhoop.sources import Source, TableError, load_table


@pytest.fixture
def table(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Any:
    """Plant a package with one table and load it."""
    (tmp_path / "planted_shelf" / "tables").mkdir(parents=True)
    (tmp_path / "planted_shelf" / "__init__.py").touch()
    monkeypatch.syspath_prepend(str(tmp_path))
    monkeypatch.delitem(sys.modules, "planted_shelf", raising=False)

    def load(text: str) -> Any:
        load_table.cache_clear()
        (tmp_path / "planted_shelf" / "tables" / "x.toml").write_text(text, encoding="utf-8")
        return load_table("planted_shelf", "x.toml")

    yield load
    load_table.cache_clear()


def test_a_row_with_its_own_source(table: Any) -> None:
    (row,) = table('[[row]]\nname = "½ in"\nsource = "ISO 724"\nseen = true\n')
    assert row.values == {"name": "½ in"}
    assert row.source == Source(text="ISO 724", seen=True)


def test_the_source_of_the_file_serves_rows_that_name_none(table: Any) -> None:
    rows = table(
        'source = "BS 328"\nseen = true\n[[row]]\na = 1\n[[row]]\na = 2\nsource = "my own"\n'
        "seen = false\n"
    )
    assert [str(row.source) for row in rows] == ["BS 328", "my own (from memory)"]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[[row]]\na = 1\nseen = true\n", "x.toml row 1 has no source"),
        ('[[row]]\na = 1\nsource = "  "\nseen = true\n', "has no source"),
        ("[[row]]\na = 1\nsource = 7\nseen = true\n", "has no source"),
        ('[[row]]\na = 1\nsource = "ISO 724"\n', "seen"),
        ('[[row]]\na = 1\nsource = "ISO 724"\nseen = "yes"\n', "seen"),
        (
            '[[row]]\na = 1\nsource = "ISO 724"\nseen = true\n[[row]]\na = 2\nseen = true\n',
            "row 2 has no source",
        ),
        ("[[row\n", "not TOML"),
    ],
)
def test_a_row_without_is_refused_by_number(table: Any, text: str, says: str) -> None:
    with pytest.raises(TableError, match=says):
        table(text)


def test_a_table_is_read_once(table: Any) -> None:
    first = table('[[row]]\na = 1\nsource = "ISO 724"\nseen = true\n')
    assert load_table("planted_shelf", "x.toml") is first

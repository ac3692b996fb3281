"""Every name in a survey file has its line."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from counterhoop.shell.survey_file.lines import lines_of, path_of

EVERYTHING = Path(__file__).parent / "data" / "everything.toml"


def paths_in(tables: Any, path: tuple[str | int, ...] = ()) -> list[str]:
    found = [path_of(path)] if path else []
    inner = tables.items() if isinstance(tables, dict) else enumerate(tables)
    for name, held in inner:
        if isinstance(held, dict | list):
            found += paths_in(held, (*path, name))
        else:
            found.append(path_of((*path, name)))
    return found


def test_whatever_the_toml_reader_finds_has_a_line() -> None:
    # Independent reading: tomllib of the standard library names every value.
    text = EVERYTHING.read_text()
    lines = lines_of(text)
    assert [path for path in paths_in(tomllib.loads(text)) if path not in lines] == []


def test_the_line_holds_the_name() -> None:
    text = EVERYTHING.read_text()
    rows = text.split("\n")
    for path, line in lines_of(text).items():
        last = path.rsplit(".", 1)[-1].split("[")[0]
        if not path.endswith("]"):
            assert last in rows[line - 1], (path, line)


@pytest.mark.parametrize(
    ("text", "path", "line"),
    [
        ('a = """\nx = 1\n"""\nb = 2', "b", 4),
        ("a = '''\n[b]\n'''\nb = 2", "b", 4),
        ('a = "# no \\" remark"\nb = 2', "b", 2),
        ("# [a]\n[b]\nc = 1", "b.c", 3),
        ("[[a]]\n[[a]]\nb = 1", "a[2].b", 3),
        ("[[a]]\n[[a.c]]\n[[a]]\n[[a.c]]\nd = 1", "a[2].c[1].d", 5),
        ("a = [\n  # one\n  1,\n  { b = 2,\n  },\n]", "a[2].b", 4),
        ("x.'y z'.w = 1", "x.y z.w", 1),
        ("\r\n[a]\r\nb = 1", "a.b", 3),
    ],
)
def test_a_line_is_found(text: str, path: str, line: int) -> None:
    assert lines_of(text)[path] == line

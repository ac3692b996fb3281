"""The published schema accepts the packaged book and refuses what the reader refuses."""

from __future__ import annotations

import json
import tomllib
from importlib.resources import files
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from counterhoop.errors import BadInput
from counterhoop.fittings.read_book import book_schema, packaged_book, read_book


def packaged() -> dict[str, Any]:
    text = (files("counterhoop.fittings") / "tables" / "book.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def errors(book: dict[str, Any]) -> list[str]:
    return [error.message for error in Draft202012Validator(book_schema()).iter_errors(book)]


def test_the_schema_is_a_schema_and_plain_json() -> None:
    Draft202012Validator.check_schema(book_schema())
    assert json.loads(json.dumps(book_schema())) == book_schema()


def test_it_accepts_the_packaged_book() -> None:
    assert errors(packaged()) == []


@pytest.mark.parametrize(
    ("field", "value"),
    [("rod_line", None), ("rod_line", 9.5), ("rodline", "9.5 mm"), ("kind", "lgu"), ("holes", [])],
)
def test_it_refuses_a_slip(field: str, value: object) -> None:
    book = packaged()
    lug = book["fitting"][0]
    if value is None:
        del lug[field]
    else:
        lug[field] = value
    assert errors(book)


def test_it_describes_every_field_of_a_length_with_an_example() -> None:
    lug = book_schema()["$defs"]["Lug"]
    assert lug["properties"]["rod_line"]["examples"] == ["12.7 mm"]
    assert "source" not in lug["required"]


def test_a_book_may_take_out_what_another_has() -> None:
    """Hand-worked: one entry fewer, and whoever names it is told which book took it out."""
    mine = read_book('without = ["corvane round  LUG"]', name="mine.toml")
    assert errors({"without": ["Corvane round lug"]}) == []
    over = packaged_book().merged(mine)
    assert len(over) == len(packaged_book()) - 1
    with pytest.raises(BadInput, match="your own book takes this one out"):
        over.find("Corvane round lug")
    with pytest.raises(BadInput, match="names are wanted here"):
        read_book("without = [7]", name="mine.toml")

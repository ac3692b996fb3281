"""The care sheet: what is said of a drum by what it is."""

from __future__ import annotations

import pytest
from documents import pages, words
from example_letters import head_of

from counterhoop.errors import BadInput
from counterhoop.papers.care_sheet import EVERY, care_rows, care_says, care_sheet_pdf
from counterhoop.papers.order_of_work import PACKAGE
from counterhoop.sources import load_table

ROWS = load_table(PACKAGE, "care.toml")


def test_every_row_is_for_something_a_drum_can_be() -> None:
    named = {thing for row in ROWS for thing in row.values["when"]}
    assert named == {"always", *EVERY}


def test_all_is_said_of_a_drum_that_is_everything_and_little_of_one_that_is_nothing() -> None:
    assert care_rows(frozenset(EVERY)) == ROWS
    assert {tuple(row.values["when"]) for row in care_rows(frozenset())} == {("always",)}


def test_only_what_holds_is_said() -> None:
    made = care_sheet_pdf(
        head_of(), drum="small tom", holds=frozenset({"wood", "calf"}), own=("Two fingers.",)
    )
    said = words(made)
    assert "Calf lives with the weather" in said
    assert "Plastic heads wear out" not in said
    assert "metal shell" not in said
    assert "For this drum • Two fingers." in said
    assert "drum small tom" in said
    assert "Where the cautions come from" not in said  # there is none


def test_a_caution_names_its_source() -> None:
    said = words(care_sheet_pdf(head_of(), drum="x", holds=frozenset({"wrap", "old wrap", "oil"})))
    assert "Take care. Wrap from before the 1970s" in said
    assert "HSE leaflet INDG469 (from memory)" in said
    assert "go before them" in said
    care, cautions = care_says(frozenset({"wrap", "old wrap", "oil"}))
    assert len(cautions) == 2
    assert not set(care) & set(cautions)


def test_a_common_drum_needs_one_sheet() -> None:
    holds = frozenset({"wood", "wrap", "old wrap", "plastic", "new edges", "plugs"})
    for paper in ("A4", "Letter"):
        assert len(pages(care_sheet_pdf(head_of(), drum="x", holds=holds, paper=paper))) == 1


def test_what_nobody_knows_is_refused() -> None:
    with pytest.raises(BadInput, match="nothing is known of this"):
        care_rows(frozenset({"leather"}))

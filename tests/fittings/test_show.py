"""What is shown of an entry: every kind says something, both units, nothing that is not there."""

from __future__ import annotations

from dataclasses import replace

import pytest

from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.fittings.read_book import packaged_book
from counterhoop.fittings.show import describe

BOOK = packaged_book()


def shown(name: str, units: str = "mm") -> dict[str, str]:
    return dict(describe(BOOK.find(name), units=units))


def test_a_long_lug_says_what_one_measures_on_it() -> None:
    lines = shown("Corvane round long lug 134")
    assert lines["base"] == "24.0 wide x 134.0 tall mm (15/16 wide x 5 9/32 tall in)"
    assert lines["holes apart"] == "25.4 mm (1 in)"
    assert lines["hole, upper"] == "6.0 mm (15/64 in) for a screw of 4.8 mm; 12.7 mm (1/2 in) up"
    assert lines["mouth to mouth"] == "134.0 mm (5 9/32 in)"
    assert lines["thread"] == "12-24 UNC, fixed"
    assert lines["serves"] == "batter and resonant head"
    assert lines["price"] == "14.50 GBP"
    assert lines["source"] == "invented for the demonstration"


def test_a_stiffness_is_shown_where_somebody_measured_it() -> None:
    hoop = BOOK.find("flanged hoop 14 in, 8 ears")
    label = "stiffness against bending up and down"
    assert label not in dict(describe(hoop))
    assert dict(describe(replace(hoop, bending_n_m2=1500.0)))[label] == "1500 N m2"


def test_inches_come_first_when_asked() -> None:
    assert shown("Corvane round long lug 134", "in")["holes apart"] == "1 in (25.4 mm)"
    assert shown("Corvane block bracket", "in")["base"].startswith("2 wide x 1 1/2 tall in (50.8")


def test_a_hoop_says_where_it_hangs() -> None:
    lines = shown("flanged hoop 12 in, 6 ears")
    assert lines["kind"] == "flanged hoop"
    assert lines["washer seat"] == "7.0 mm (9/32 in) below the edge, the head at pitch"
    assert shown("wood hoop 22 in, with inlay")["ears"] == "none: held by claws, any number"


def test_slots_are_said() -> None:
    assert "4.0 mm (5/32 in) up and down" in shown("Ossering plate lug")["hole, lower"]
    assert "slot" not in shown("Ossering plate lug")["hole, upper"]


@pytest.mark.parametrize("entry", BOOK.entries, ids=lambda entry: entry.name)
def test_every_entry_can_be_shown(entry: Fitting) -> None:
    for units in ("mm", "in"):
        lines = describe(entry, units=units)
        labels = [label for label, _ in lines]
        assert len(set(labels)) == len(labels)
        assert len(lines) >= 4
        for label, value in lines:
            assert label.strip() == label != ""
            assert value.strip() == value != ""
            assert "None" not in value
            assert "nan" not in value.split()


def test_an_entry_that_says_nothing_is_shown_as_that() -> None:
    bare = Fitting(name="x", kind=Kind.LUG, source="measured")
    assert [tuple(line) for line in describe(bare)] == [("kind", "lug"), ("source", "measured")]

"""What is measured is kept by a number: the same for ever, in every store that ever was."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from shelf_samples import fill_shelf, shelf_rows
from sqlalchemy import text

from counterhoop.parts.dimension import Dimension
from counterhoop.store.address import Address
from counterhoop.store.copies.verify import verify
from counterhoop.store.migrations.versions import r0007_dimensions_by_number as r0007
from counterhoop.store.shelf.by_number import dimensions_in_use
from counterhoop.store.shelf.dimension_numbers import DIMENSIONS, NUMBERS
from counterhoop.store.store import open_store

FOREIGN = (
    "INSERT INTO piece_measure (dimension, entry, doubt_nm, value_nm)"
    " SELECT 'colour', entry, 1, 2 FROM piece"
)
DAMAGING = "UPDATE piece_measure SET dimension = 'colour' WHERE dimension = 'pitch'"


def test_every_dimension_has_a_number_of_its_own() -> None:
    assert NUMBERS.keys() == {*Dimension}
    assert {number: one for one, number in NUMBERS.items()} == DIMENSIONS
    assert len(DIMENSIONS) == len(NUMBERS)


def test_the_numbers_are_those_that_stores_were_brought_to() -> None:
    """Held against the migration's own list, which is never changed."""
    assert {name: NUMBERS[Dimension(name)] for name in r0007.NUMBERS} == r0007.NUMBERS
    assert [*r0007.NUMBERS.values()] == [*range(1, 27)]


@pytest.mark.parametrize(
    ("also", "is_sound"),
    [("", True), (FOREIGN, True), (DAMAGING, False)],
    ids=["sound", "foreign row", "damaged row"],
)
def test_names_become_numbers(
    new_address: Callable[[str], Address], also: str, is_sound: bool
) -> None:
    """Exact law: down and up again is as it was; readings of what is no dimension are dropped."""
    address = new_address("store")
    with open_store(address) as store:
        fill_shelf(store)
        before = shelf_rows(store)
        with store.reading() as r:
            in_use = dimensions_in_use(r)
    with open_store(address, shape="0006") as store, store.writing() as w:
        named = w.execute(text("SELECT DISTINCT dimension FROM piece_measure")).scalars()
        assert {*named} == {one.value for one in in_use} > {"pitch"}
        if also:
            w.execute(text(also))
    with open_store(address) as store:
        after = shelf_rows(store)
        faults = verify(store).faults
    if is_sound:
        assert (after, faults) == (before, ())
    else:
        pitch = NUMBERS[Dimension.PITCH]
        left = [row for row in before["piece_measure"] if row[0] != pitch]
        assert after["piece_measure"] == left != before["piece_measure"]
        assert any("is found by other measurements" in one for one in faults)

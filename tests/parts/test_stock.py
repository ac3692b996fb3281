"""What is left of a piece. Truth: hand-worked counts, and laws that hold after any movements."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.parts.movement import Movement
from counterhoop.parts.stock import Stock, after, stock

ON = dt.datetime(2026, 3, 4, 9, 0)


def moved(kind: str, count: int, **more: str) -> Movement:
    return Movement(piece_id="1", kind=kind, count=count, on=ON, **more)


def test_a_year_of_a_bag_of_lugs_worked_by_hand() -> None:
    left = stock(
        (
            moved("came in", 10),
            moved("set aside", 4, job="Hale snare"),
            moved("used", 5, job="Hale snare"),  # the four and a free one
            moved("set aside", 2, job="Rowe tom"),
            moved("put back", 1, job="Rowe tom"),
            moved("scrapped", 1),
            moved("counted", 3, corrects="four written, three in the bag"),
        )
    )
    assert left == Stock(came_in=10, on_shelf=3, gone=6, by_count=-1, set_aside={"Rowe tom": 1})
    assert left.free == 2


def test_the_last_one_is_promised_once() -> None:
    one = stock((moved("came in", 1), moved("set aside", 1, job="Hale snare")))
    for kind in ("set aside", "used", "sold", "scrapped"):
        with pytest.raises(BadInput, match="only 0 free"):
            after(one, moved(kind, 1, job="Rowe tom"))
    assert after(one, moved("used", 1, job="Hale snare")).on_shelf == 0


@pytest.mark.parametrize(
    ("movement", "says"),
    [
        (moved("put back", 1, job="Rowe tom"), "only 0 set aside for Rowe tom"),
        (moved("counted", 1, corrects="lost"), "fewer than are promised"),
        (moved("given back", 1, client="A. Hale"), "goes back to nobody"),
    ],
)
def test_what_cannot_be_is_refused(movement: Movement, says: str) -> None:
    two = stock((moved("came in", 3), moved("set aside", 2, job="Hale snare")))
    with pytest.raises(BadInput, match=says):
        after(two, movement)


@pytest.mark.parametrize(
    ("kind", "count", "more", "says"),
    [
        ("came in", 0, {}, "how many"),
        ("came in", -1, {}, "how many"),
        ("set aside", 1, {}, "which job"),
        ("counted", 1, {}, "put right"),
        ("lent", 1, {}, "no such movement"),
    ],
)
def test_a_movement_that_makes_no_sense(
    kind: str, count: int, more: dict[str, str], says: str
) -> None:
    with pytest.raises(BadInput, match=says):
        moved(kind, count, **more)


def test_a_clients_piece_serves_and_leaves_only_with_its_owner() -> None:
    came = moved("came in", 2)

    def done(*movements: Movement) -> Stock:
        return stock((came, *movements), owner="A. Hale")

    for barred in (
        moved("set aside", 1, job="Rowe tom", client="B. Rowe"),
        moved("used", 1, job="Rowe tom", client="B. Rowe"),
        moved("used", 1, job="Rowe tom"),
        moved("sold", 1),
        moved("scrapped", 1, release=" "),
        moved("given back", 1, client="B. Rowe"),
    ):
        with pytest.raises(BadInput, match=r"this piece is A\. Hale's"):
            done(barred)
    assert done(moved("used", 1, job="Hale snare", client="A. Hale")).free == 1
    assert done(moved("given back", 2, client="A. Hale")).on_shelf == 0
    assert done(moved("scrapped", 1, release="A. Hale, 4 March 2026")).gone == 1


JOBS = ("Hale snare", "Rowe tom")
MOVES = st.builds(
    moved,
    st.sampled_from(("came in", "set aside", "put back", "used", "sold", "scrapped", "counted")),
    st.integers(1, 5),
    job=st.sampled_from(JOBS),
    corrects=st.just("as counted"),
)


@given(st.lists(MOVES, max_size=40))
def test_no_run_of_movements_promises_or_loses_one(movements: list[Movement]) -> None:
    now = Stock()
    for movement in movements:
        try:
            now = after(now, movement)
        except BadInput:
            continue
        assert now.free >= 0
        assert all(count > 0 for count in now.set_aside.values())
        assert now.came_in + now.by_count == now.on_shelf + now.gone

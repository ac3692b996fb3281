"""Which of the pieces set aside for a drum its scheme asked for. Truth: worked by hand."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.bench.shelf.of_fittings import SCHEME, Lying
from counterhoop.errors import BadInput
from counterhoop.parts.movement import Movement
from counterhoop.parts.piece import Piece
from counterhoop.parts.stock import Stock, after
from counterhoop.store.shelf.look_up import Kept

ON = dt.datetime(2026, 11, 2, 9, 30, tzinfo=dt.UTC)
KEPT = Kept(piece=Piece(id="p", number="7"), head=1, changed_at=ON, bench="b", on_shelf=0, free=0)


def moved(kind, count, why="", job="drum"):
    job = "" if kind == "came in" else job
    return Movement(piece_id="p", kind=kind, count=count, on=ON, job=job, why=why)


@pytest.mark.parametrize(
    ("moves", "by_scheme"),
    [
        ([("set aside", 6, SCHEME)], 6),
        ([("set aside", 2, ""), ("set aside", 4, SCHEME)], 4),
        # A person puts back what people set aside first, then what the scheme did.
        ([("set aside", 2, ""), ("set aside", 4, SCHEME), ("put back", 2, "")], 4),
        ([("set aside", 2, ""), ("set aside", 4, SCHEME), ("put back", 3, "")], 3),
        # The scheme puts back its own.
        ([("set aside", 2, ""), ("set aside", 4, SCHEME), ("put back", 4, SCHEME)], 0),
        # What is used is the scheme's first.
        ([("set aside", 2, ""), ("set aside", 4, SCHEME), ("used", 3, "")], 1),
        ([("set aside", 2, ""), ("set aside", 4, SCHEME), ("used", 5, "")], 0),
        # More is used than was set aside: the rest came from the free ones.
        ([("set aside", 4, SCHEME), ("used", 5, ""), ("set aside", 1, SCHEME)], 1),
    ],
)
def test_what_the_scheme_asked_for_is_told_from_what_people_did(moves, by_scheme):
    lies = Lying(kept=KEPT, moved=(moved("came in", 10), *(moved(*one) for one in moves)))
    assert lies.by_scheme("drum") == by_scheme
    assert lies.by_scheme("another") == 0


STEP = st.tuples(
    st.sampled_from(["set aside", "put back", "used", "sold"]),
    st.integers(1, 4),
    st.sampled_from(["", SCHEME]),
    st.sampled_from(["drum", "other"]),
)


@given(st.lists(STEP, max_size=12))
def test_it_is_never_more_than_what_is_set_aside(steps):
    """Law: whatever moves, the scheme's part lies between none and all that is set aside."""
    moves = [moved("came in", 10)]
    now = after(Stock(), moves[0])
    for kind, count, why, job in steps:
        step = moved(kind, count, why, job)
        # A scheme puts back no more than its own.
        lies = Lying(kept=KEPT, moved=tuple(moves))
        if kind == "put back" and why and count > lies.by_scheme(job):
            continue
        try:
            now = after(now, step)
        except BadInput:
            continue
        moves.append(step)
        lies = Lying(kept=KEPT, moved=tuple(moves))
        for key in ("drum", "other"):
            assert 0 <= lies.by_scheme(key) <= now.set_aside.get(key, 0)
        assert lies.stock == now

"""What the shelf gives to a part of a scheme. Truth: worked by hand."""

from __future__ import annotations

import datetime as dt

from counterhoop.bench.parts.from_the_shelf import in_words, one_served
from counterhoop.bench.shelf.of_fittings import Lying
from counterhoop.bench.workshop import Workshop
from counterhoop.parts.movement import Movement
from counterhoop.parts.piece import Piece
from counterhoop.parts.stock import stock
from counterhoop.scheme.plan import PartLine
from counterhoop.store.shelf.look_up import Kept

ON = dt.datetime(2030, 5, 14, 9, 0, tzinfo=dt.UTC)


def lies(name: str, count: int, *, aside: int = 0, **said: object) -> Lying:
    """Some of a lug, of which so many are set aside for the drum j/d."""
    piece = Piece(**{"id": name, "number": name, **said})
    moved = [Movement(piece_id=name, kind="came in", count=count, on=ON)]
    if aside:
        moved.append(Movement(piece_id=name, kind="set aside", count=aside, on=ON, job="j/d"))
    now = stock(moved)
    kept = Kept(piece=piece, head=1, changed_at=ON, bench="b", on_shelf=now.on_shelf, free=now.free)
    return Lying(kept=kept, moved=tuple(moved))


def test_pieces_stand_in_the_order_in_which_they_came(shop: Workshop) -> None:
    """Six are wanted: one is set aside in a later bag, so five of the first serve too."""
    part = PartLine(name="lug", count=6, bought=0, each_minor=None)
    found = one_served(part, [lies("7", 9, bin="B2"), lies("8", 1, aside=1)], key="j/d")
    assert [(kept.piece.number, count) for kept, count in found.pieces] == [("7", 5), ("8", 1)]
    assert [(kept.piece.number, count) for kept, count in found.to_take] == [("7", 5)]
    assert in_words(shop, found) == (
        "6 lug: all on the shelf (5 in bin B2, number 7 and 1 in number 8)."
    )


def test_a_bag_without_a_number_is_called_so(shop: Workshop) -> None:
    part = PartLine(name="lug", count=2, bought=0, each_minor=None)
    loose = one_served(part, [lies("", 2)], key="j/d")
    assert in_words(shop, loose) == "2 lug: all on the shelf (a bag without a number)."
    pair = one_served(
        PartLine(name="lug", count=1, bought=0, each_minor=None),
        [lies("", 2, matched_set=True)],
        key="j/d",
    )
    assert in_words(shop, pair).endswith(
        "a bag without a number is a matched set of 2, not parted for so few."
    )

"""A pattern of holes laid on old ones: cases worked by hand."""

from __future__ import annotations

import math

import pytest

from counterhoop.errors import BadInput
from counterhoop.fittings.entry import PatternHole
from counterhoop.parts.places.match import Match
from counterhoop.parts.places.matches import matches
from counterhoop.parts.places.place import HoleAt
from counterhoop.scheme.reuse import Limits, Tier

SHOP = Limits(keep_mm=0.8, enlarge_mm=2.0, slot_mm=4.0)
TOLERANCE_MM = 2e-3  # the search says 0.001 mm


def hole(right: float, down: float, *, screw: float = 5.0, **slots: float) -> PatternHole:
    return PatternHole(right_mm=right, down_mm=down, hole_mm=screw + 1, screw_mm=screw, **slots)


def old(along: float, down: float, diameter: float = 6.0, *, doubt: float = 0.5) -> HoleAt:
    return HoleAt(along_mm=along, down_mm=down, diameter_mm=diameter, doubt_mm=doubt)


def turned(point: tuple[float, float], deg: float) -> tuple[float, float]:
    a = math.radians(deg)
    x, y = point
    return (x * math.cos(a) - y * math.sin(a), x * math.sin(a) + y * math.cos(a))


def served(found: tuple[Match, ...]) -> set[tuple[int, ...]]:
    return {tuple(pair.hole for pair in match.pairs) for match in found}


def test_two_screws_share_what_the_holes_are_too_far_apart() -> None:
    # By hand: 42.4 less 42 shared by two screws that have 0.5 each leaves 0.3.
    (found,) = matches((hole(0, -21), hole(0, 21)), (old(5, 0), old(5, 42.4)))
    assert found.slack_mm == pytest.approx(0.3, abs=TOLERANCE_MM)
    assert (found.pose.right_mm, found.pose.down_mm) == pytest.approx((5.0, 21.2), abs=0.01)
    assert found.as_it_is
    assert found.too_close  # 0.3 lies within the doubt of 0.5


def test_a_slot_in_the_part_takes_up_what_it_is_long() -> None:
    # By hand: 43.8 less 42 is 1.8; the slot takes 1 of it, two screws of 0.5 share the other 0.8.
    pattern = (hole(0, -21), hole(0, 21, slot_down_mm=2.0))
    (found,) = matches(pattern, (old(0, 0), old(0, 43.8)))
    assert found.slack_mm == pytest.approx(0.1, abs=TOLERANCE_MM)
    assert matches(pattern, (old(0, 0), old(0, 44.1))) == ()


def test_a_part_leans_as_far_as_its_holes_ask_and_no_further_than_one_may_see() -> None:
    pattern = (hole(0, -21, screw=5.9), hole(0, 21, screw=5.9))
    aslant = tuple(old(*turned((0.0, d), 3.0)) for d in (-21.0, 21.0))
    assert matches(pattern, aslant, tilt_deg=2.0) == ()
    (found,) = matches(pattern, aslant, tilt_deg=4.0)
    assert found.pose.turn_deg == pytest.approx(3.0, abs=0.2)


def test_the_other_hand_goes_where_mirroring_is_allowed() -> None:
    pattern = (hole(0, 0), hole(30, 0), hole(30, 14))
    holes = tuple(old(-h.right_mm, h.down_mm) for h in pattern)
    assert matches(pattern, holes, turn="any") == ()
    found = matches(pattern, holes, mirror=True)
    assert served(found) == {(0, 1, 2)}
    assert found[0].pose.mirrored


def test_half_a_turn_is_tried_when_asked() -> None:
    pattern = (hole(0, 0, screw=5.0), hole(0, 30, screw=5.9))
    holes = (old(0, 0, 6.0), old(0, 30, 5.0))
    assert matches(pattern, holes) == ()
    (found,) = matches(pattern, holes, turn="half turn too")
    assert [pair.hole for pair in found.pairs] == [1, 0]
    assert abs(found.pose.turn_deg) == pytest.approx(180.0, abs=2.01)


def test_a_hole_is_enlarged_no_further_than_it_must_be() -> None:
    # By hand: 42 + 1.5 apart; the kept hole gives 0.5, so the other lies 1.0 off:
    # the smallest hole that holds one of 6 and one of 6 a millimetre apart is 7.
    pattern = (hole(0, -21), hole(0, 21))
    best, *_ = matches(pattern, (old(0, 0), old(0, 43.5)), limits=SHOP)
    cut = [pair for pair in best.pairs if pair.tier is Tier.ENLARGE]
    assert len(cut) == 1
    assert cut[0].off_mm == pytest.approx(1.0, abs=0.03)
    assert cut[0].opening_mm == pytest.approx(7.0, abs=0.03)
    assert matches(pattern, (old(0, 0), old(0, 43.5))) == ()


def test_a_hole_too_small_for_the_screw_is_enlarged_where_it_stands() -> None:
    best, *_ = matches((hole(0, -21), hole(0, 21)), (old(0, -21), old(0, 21, 4.0)), limits=SHOP)
    assert [(pair.tier, round(pair.opening_mm, 1)) for pair in best.pairs] == [
        (Tier.KEEP, 6.0),
        (Tier.ENLARGE, 6.0),
    ]


def test_one_hole_may_be_new_and_what_a_fuller_match_holds_is_left_out() -> None:
    pattern = (hole(0, -21), hole(0, 21))
    holes = (old(0, -21), old(0, 21), old(100, 0))
    found = matches(pattern, holes, new_holes=1)
    assert served(found) == {(0, 1), (1,), (0,), (2,)}
    assert found[0].new == ()
    alone = [m for m in found if m.new]
    assert {(m.pairs[0].pattern, m.pairs[0].hole) for m in alone} == {
        (0, 1),
        (0, 2),
        (1, 0),
        (1, 2),
    }


@pytest.mark.parametrize(
    ("pattern", "holes", "says"),
    [
        ((), (old(0, 0),), "a pattern without holes"),
        (
            (hole(0, 0),),
            tuple(HoleAt(along_mm=x, down_mm=0, diameter_mm=6, number=4) for x in (0, 9)),
            "two old holes have one number",
        ),
    ],
)
def test_what_cannot_be_asked_is_said(
    pattern: tuple[PatternHole, ...], holes: tuple[HoleAt, ...], says: str
) -> None:
    with pytest.raises(BadInput, match=says):
        matches(pattern, holes)


def test_a_hole_of_no_size_is_no_hole() -> None:
    with pytest.raises(BadInput, match="not a hole"):
        old(0, 0, 0.0)

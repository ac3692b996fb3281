"""What serves at a place: figures worked by hand, on a small book of invented parts."""

from __future__ import annotations

from typing import Any

import pytest

from counterhoop.development.outline import disc, rounded
from counterhoop.fittings.entry import Fitting, Kind, PatternHole
from counterhoop.parts.places.freedom import Freedom, straight
from counterhoop.parts.places.place import HoleAt, MarkAt, Place
from counterhoop.parts.places.pose import Pose
from counterhoop.parts.places.serves import How, Serves, what_serves
from counterhoop.shell.shop_rules import default_rules


def lug(name: str, apart: float, *, thread: str = "12-24", **more: Any) -> Fitting:
    holes = tuple(
        PatternHole(right_mm=0.0, down_mm=d, hole_mm=6.0, screw_mm=4.8, called=called)
        for d, called in ((-apart / 2, "upper"), (apart / 2, "lower"))
    )
    whole: dict[str, Any] = {
        "kind": Kind.LUG,
        "base": rounded(24.0, apart + 16.0, corner_mm=12.0),
        "holes": holes,
        "thread": thread,
        **more,
    }
    return Fitting(name=name, source="invented for this test", **whole)


HOLES = tuple(
    HoleAt(along_mm=0.0, down_mm=d, diameter_mm=6.0, doubt_mm=0.2, number=n)
    for n, d in ((7, -21.0), (8, 21.0))
)


def only(place: Place, *fittings: Fitting) -> Serves:
    (one,) = what_serves(place, fittings, rules=default_rules())
    return one


def test_a_lug_with_the_holes_of_the_place_goes_as_it_is() -> None:
    one = only(Place(holes=HOLES, thread="12-24"), lug("Hallmere 42", 42.0))
    assert (one.how, one.changes, one.why) == (How.AS_IT_IS, (), "")
    assert one.hidden_share == 1.0  # nothing is to be hidden


def test_a_lug_nearly_as_wide_has_a_hole_enlarged_and_it_is_said_from_what_to_what() -> None:
    # By hand: 44 apart over 42; hole 7 gives (6 - 4.8) / 2 = 0.6, so the other lies 1.4 off and
    # the round hole that holds both of 6 is 7.4 (to the step of the search and the next tenth).
    one = only(Place(holes=HOLES), lug("Hallmere 44", 44.0))
    assert one.how is How.AFTER_A_CHANGE
    assert one.changes in {
        (f"enlarge hole {n} from 6.0 mm to {size} mm, with a washer behind",)
        for n in (7, 8)
        for size in ("7.4", "7.5")
    }


def test_a_lug_of_another_spacing_wants_a_hole_drilled_and_the_old_one_in_its_way_plugged() -> None:
    # By hand: 42 less 32 leaves 10 from centre to centre and 4 of wood where 6 are wanted.
    one = only(Place(holes=HOLES), lug("Hallmere 32", 32.0))
    assert one.changes in {
        ("plug hole 8, then drill a new hole of 6.0 mm (lower)",),
        ("plug hole 7, then drill a new hole of 6.0 mm (upper)",),
    }
    # 42 less 24 leaves 18, and 12 of wood are enough.
    assert "plug" not in only(Place(holes=HOLES), lug("Hallmere 24", 24.0)).changes[0]


def test_other_rods_are_asked_for_and_look_alikes_are_warned_of() -> None:
    one = only(Place(holes=HOLES, thread="7/32-24"), lug("Hallmere 42", 42.0))
    assert one.changes == (
        "other rods: it takes 12-24, those here are 7/32-24 (they look alike and spoil each other)",
    )


def test_holes_read_too_roughly_are_not_promised() -> None:
    rough = tuple(
        HoleAt(along_mm=0.0, down_mm=d, diameter_mm=6.0, doubt_mm=0.7) for d in (-21.0, 21.0)
    )
    one = only(Place(holes=rough), lug("Hallmere 42", 42.0))
    assert one.too_close
    assert one.why == (
        "too close to call: its screws have 0.6 mm left and the holes are read to 0.7 mm;"
        " offer it up before it is promised"
    )


@pytest.mark.parametrize(
    ("arm_mm", "how", "says"),
    [
        (22.2, How.AS_IT_IS, ""),
        (21.9, How.AS_IT_IS, ""),
        (
            19.0,
            How.AFTER_A_CHANGE,
            "line it with a sleeve: it takes 22.2 mm and the arm is 19.0 mm",
        ),
        (25.4, How.NO, "it takes 22.2 mm and the arm is 25.4 mm"),
    ],
)
def test_an_arm_goes_in_a_bracket_with_a_sleeve_or_not(arm_mm: float, how: How, says: str) -> None:
    bracket = lug("Quennick arm", 42.0, kind=Kind.BRACKET, thread="", diameter_mm=22.2)
    one = only(Place(holes=HOLES, takes_mm=arm_mm), bracket)
    assert one.how is how
    assert says in (*one.changes, one.why)


@pytest.mark.parametrize(
    ("fitting", "place", "says"),
    [
        (
            lug("Hallmere 42", 42.0, holes=(), base=None),
            Place(holes=HOLES),
            "it is not fixed to the shell",
        ),
        (lug("Hallmere 42", 42.0), Place(holes=HOLES, kinds=(Kind.BRACKET,)), "it is a lug"),
        (
            lug("Hallmere 42", 42.0),
            Place(holes=HOLES, room=rounded(20.0, 100.0)),
            "its base does not go into the room that there is",
        ),
        (
            lug(
                "Quennick three",
                42.0,
                holes=tuple(
                    PatternHole(right_mm=x, down_mm=y, hole_mm=6, screw_mm=4.8)
                    for x, y in ((0, 0), (20, 0), (0, 20))
                ),
            ),
            Place(holes=HOLES[:1]),
            "it wants 3 holes and here is one",
        ),
    ],
)
def test_what_does_not_go_says_why(fitting: Fitting, place: Place, says: str) -> None:
    one = only(place, fitting)
    assert (one.how, one.why) == (How.NO, says)
    assert one.pose is None


def test_those_that_need_no_change_come_first_and_of_like_ones_the_one_that_hides_more() -> None:
    plug = MarkAt(called="hole 9", outline=disc(8.0).moved(15.0, 0.0))
    wide = lug("Hallmere wide", 42.0, base=rounded(40.0, 58.0))
    place = Place(holes=HOLES, marks=(plug,), thread="12-24")
    ranked = what_serves(
        place,
        [lug("A far one", 90.0), lug("B 44", 44.0), lug("C 42", 42.0), wide],
        rules=default_rules(),
    )
    assert [one.fitting.name for one in ranked] == ["Hallmere wide", "C 42", "B 44", "A far one"]
    assert ranked[0].hidden_share == pytest.approx(1.0)
    # By hand: a base 24 wide goes 0.6 to the right and reaches 12.6; the disc runs from 11 to 19.
    assert 0.0 < ranked[1].hidden_share < 0.3


def test_without_old_holes_a_plate_is_laid_where_it_hides_most_and_every_hole_is_new() -> None:
    plate = lug("plate 42", 42.0, kind=Kind.COVER_PLATE, base=rounded(40.0, 60.0), thread="")
    marks = (MarkAt(called="shadow", outline=rounded(30.0, 50.0).moved(100.0, 40.0)),)
    one = only(Place(marks=marks), plate)
    assert one.hidden_share == pytest.approx(1.0)
    assert one.changes == (
        "drill a new hole of 6.0 mm (upper)",
        "drill a new hole of 6.0 mm (lower)",
    )


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("turn_deg", [1.7, -2.0, 181.0])
def test_a_part_is_straightened_about_the_point_that_it_turns_about(turn_deg, mirrored):
    """Law: that point stays where it is."""
    pose = Pose(right_mm=12.0, down_mm=-7.0, turn_deg=turn_deg, mirrored=mirrored)
    upright = 180.0 if turn_deg > 90.0 else 0.0
    free = Freedom(pose=pose, about_mm=(3.0, 20.0), upright_deg=upright, turn_deg=2.0)
    made = straight(free)
    assert (made.pose.turn_deg, made.turn_deg) == (upright, 0.0)
    about = (-3.0 if mirrored else 3.0, 20.0)
    assert made.pose.at(*about) == pytest.approx(pose.at(*about))

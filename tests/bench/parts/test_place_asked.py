"""Holes of a drum become a place. Truth: the worked job's survey file, worked by hand; laws."""

from __future__ import annotations

from dataclasses import replace
from importlib.resources import files

import pytest

from counterhoop.bench.long_work.parts_tasks import what_fits
from counterhoop.bench.open_job import opened
from counterhoop.bench.parts.place_asked import PlaceAsked, may_be_fixed, place_on
from counterhoop.development.place import Place
from counterhoop.development.solid import solid
from counterhoop.errors import BadInput
from counterhoop.fittings.entry import Kind
from counterhoop.parts.places.serves import How

SURVEY = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_bytes()


@pytest.fixture(scope="module")
def job():
    return opened(SURVEY, name="survey.toml", book_of=lambda _: b"")


def drum(job, name):
    return next(one.drum for one in job.job.drums if one.drum.key == name)


def on(job, name, *holes, **more):
    return place_on(drum(job, name), PlaceAsked(holes=holes, **more), book=job.shop.book)


def test_the_holes_of_a_lug_lie_about_their_middle_and_its_shadow_round_them(job):
    """The small tom's first lug: at 30 degrees, its holes 42 apart, 40.5 and 82.5 down."""
    found = on(job, "small tom", 1, 2)
    assert (found.middle.along_deg, found.middle.down_mm) == pytest.approx((30.0, 61.5))
    assert [(h.number, h.along_mm, h.down_mm, h.diameter_mm) for h in found.place.holes] == [
        (1, pytest.approx(0.0), pytest.approx(-21.0), 6.0),
        (2, pytest.approx(0.0), pytest.approx(21.0), 6.0),
    ]
    assert found.instead_of == ("batter lug 1",)
    assert found.place.kinds == (Kind.LUG,)
    assert found.place.thread == "12-24 UNC"
    assert [mark.called for mark in found.place.marks] == [
        "hole 1", "hole 2", "shadow of the batter lug 1",
    ]  # fmt: skip
    # Its own lug fits where it was and hides all that it left.
    told = what_fits(job, "small tom", PlaceAsked(holes=(1, 2)))
    own = next(one for one in told.serves if one.fitting.name == "Corvane round lug")
    assert (own.how, round(own.hidden_share, 2)) == (How.AS_IT_IS, 1.0)


def test_a_place_across_the_datum_is_the_same_place(job):
    """Law: where the tape begins changes nothing."""
    here = drum(job, "small tom")
    for turn in (0.0, 331.0, 345.0):
        turned = replace(
            here,
            holes=tuple(
                replace(h, place=Place(h.place.along_deg + turn, h.place.down_mm))
                for h in here.holes
            ),
            rows=(), fittings=(), marks=(),
        )  # fmt: skip
        asked = PlaceAsked(holes=(14, 15, 16, 17), kinds=(Kind.BRACKET,))
        place = place_on(turned, asked, book=job.shop.book).place
        flat = [(h.along_mm, h.down_mm) for h in place.holes]
        if turn == 0.0:
            first = flat
        assert flat == [pytest.approx(one, abs=1e-6) for one in first]


def test_what_stands_over_the_place_comes_off_and_its_holes_are_to_be_covered(job):
    found = on(job, "old snare", 33, 34)
    assert found.instead_of == ("strainer",)
    assert found.also_off == ("later strainer",)
    called = [mark.called for mark in found.place.marks]
    assert called == ["hole 33", "hole 34", "shadow of the strainer", "hole 35", "hole 36"]
    assert [hole.number for hole in found.place.holes] == [33, 34]


def test_the_room_is_skin_and_no_base_of_another_fitting(job):
    """Every standing base but those that come off is out of it; a base on the holes is in it."""
    for name, holes in (("small tom", (1, 2)), ("small tom", (14, 15, 16, 17))):
        found = on(job, name, *holes)
        room = solid(found.place.room)
        here = drum(job, name)
        girth = here.circumference.mean_mm
        assert room.contains_properly(solid(found.place.marks[0].outline))
        left, top, right, bottom = room.bounds
        assert top >= -found.middle.down_mm - 1e-6
        assert bottom <= here.depth_mm - found.middle.down_mm + 1.0
        assert right - left <= 301.0
        for placed in here.everything:
            if placed.label in found.instead_of:
                continue
            base = job.shop.book.find(placed.fitting).base
            turn = (placed.place.along_deg - found.middle.along_deg + 180.0) % 360.0 - 180.0
            x = turn * girth / 360.0
            laid = base.turned(placed.turned_deg).moved(
                x, placed.place.down_mm - found.middle.down_mm
            )
            overlap = solid(laid).intersection(room).area
            # The survey's own place may be the middle of the holes only: a base is 5 cm2 or more.
            assert overlap < 0.2 * solid(laid).area, placed.label


def test_a_plugged_hole_is_to_be_covered_and_serves_nothing(job):
    found = on(job, "small tom", 13, 18)
    plugged = {mark.called for mark in found.place.marks}
    assert {f"hole {hole.number}" for hole in found.place.holes} <= plugged
    from counterhoop.shell.hole import Condition

    here = drum(job, "small tom")
    holes = tuple(replace(h, condition=Condition.DOWEL) if h.number == 1 else h for h in here.holes)
    asked = PlaceAsked(holes=(1, 2))
    place = place_on(replace(here, holes=holes), asked, book=job.shop.book).place
    assert [hole.number for hole in place.holes] == [2]
    assert "plug 1" in [mark.called for mark in place.marks]


@pytest.mark.parametrize(
    ("holes", "says"),
    [((99,), "no such hole"), ((), "which holes"), ((1, 7), "too far apart"),
     (tuple(range(1, 10)), "which holes")],
)  # fmt: skip
def test_what_is_no_place_is_one_line(job, holes, says):
    with pytest.raises(BadInput, match=says) as refused:
        on(job, "small tom", *holes)
    assert "\n" not in str(refused.value)


def test_only_what_is_fixed_to_a_shell_is_held_against_it(job):
    kinds = {one.kind for one in may_be_fixed(job.shop.book)}
    assert Kind.LUG in kinds
    assert not kinds & {Kind.ROD, Kind.HOOP, Kind.SCREW, Kind.WASHER}


def test_nothing_stands_aslant_that_hides_as_much_when_it_stands_straight(job):
    told = what_fits(job, "small tom", PlaceAsked(holes=(1, 2)))
    stand = [one for one in told.serves if one.pose is not None]
    assert len(stand) > 4
    assert {one.pose.turn_deg for one in stand if one.hidden_share > 0.999} == {0.0}

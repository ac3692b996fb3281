"""A hole's centre is made from what was read: near side and diameter, or both sides."""

from __future__ import annotations

import pytest
from survey_text import SIX_LUGS, drum_of, survey

from counterhoop.development.shape import Oval, Rectangle, Round, Slot
from counterhoop.shell.hole import Condition, Hole, Origin


def hole(fields: str, *, drum: str = "") -> Hole:
    return drum_of(survey(row=None, drum=drum, more=f"[[drums.tom.holes]]\n{fields}")).holes[0]


@pytest.mark.parametrize(
    ("fields", "down_mm"),
    [
        ('near = "38 mm"\ndia = "6 mm"', 41.0),
        ('near = "38 mm"\nfar = "44 mm"', 41.0),
        ('far = "44 mm"\ndia = "6 mm"', 41.0),
        ('near = "38 mm"\ndia = "6 mm"\nfrom_edge = "resonant"', 162.0),
        ('near = "38 mm"\nfar = "44 mm"\nfrom_edge = "resonant"', 162.0),
        ('near = "1 1/2 in"\ndia = "1/4 in"', 38.1 + 3.175),
    ],
)
def test_the_centre_down(fields: str, down_mm: float) -> None:
    # By hand on a depth of 203.
    found = hole(f'along = "90 deg"\n{fields}')
    assert found.place.down_mm == pytest.approx(down_mm)
    assert isinstance(found.shape, Round)


def test_the_centre_along_from_its_sides() -> None:
    # 950 round: 95 mm is 36 degrees; a hole from 95 to 101.
    both = hole('left_side = "95 mm"\nright_side = "101 mm"\nnear = "38 mm"')
    left = hole('left_side = "95 mm"\nnear = "38 mm"\ndia = "6 mm"')
    right = hole('right_side = "101 mm"\nnear = "38 mm"\ndia = "6 mm"')
    assert both.place.along_deg == pytest.approx(360.0 * 98.0 / 950.0)
    assert left.place.along_deg == pytest.approx(both.place.along_deg)
    assert right.place.along_deg == pytest.approx(both.place.along_deg)
    assert both.shape == Round(pytest.approx(6.0))
    assert both.place.down_mm == pytest.approx(41.0)


def test_the_sides_may_lie_across_the_datum() -> None:
    across = hole('left_side = "947 mm"\nright_side = "3 mm"\nnear = "38 mm"')
    assert across.place.along_deg == pytest.approx(0.0, abs=1e-9)
    assert across.shape == Round(pytest.approx(6.0))


@pytest.mark.parametrize(
    ("fields", "shape"),
    [
        ('shape = "slot"\nwide = "6 mm"\nlong = "9 mm"', Slot(6.0, 9.0, "along")),
        ('shape = "slot"\nwide = "6 mm"\nlong = "9 mm"\nlies = "down"', Slot(6.0, 9.0, "down")),
        ('shape = "slot"\nfar = "44 mm"\nlong = "9 mm"', Slot(6.0, 9.0, "along")),
        ('shape = "oval"\nfar = "47 mm"\nwide = "6 mm"\nlies = "down"', Oval(6.0, 9.0, "down")),
        ('shape = "rectangle"\nwide = "20 mm"\ntall = "12 mm"', Rectangle(20.0, 12.0)),
        ('shape = "rectangle"\nwide = "20 mm"\nfar = "50 mm"', Rectangle(20.0, 12.0)),
    ],
)
def test_other_shapes(fields: str, shape: object) -> None:
    found = hole(f'along = "90 deg"\nnear = "38 mm"\n{fields}')
    assert found.shape == shape
    assert found.place.down_mm == pytest.approx(38.0 + found.shape.size_mm[1] / 2.0)


def test_a_slot_between_its_sides_along() -> None:
    found = hole(
        'left_side = "95 mm"\nright_side = "104 mm"\nnear = "38 mm"\nshape = "slot"\nwide = "6 mm"'
    )
    assert found.shape == Slot(6.0, pytest.approx(9.0), "along")


def test_what_was_written_and_who_says_is_kept() -> None:
    found = hole(
        'along = "90 deg"\nnear = "1 1/2 in"\ndia = "7/32 in"\norigin = "extra"\n'
        'who = "the owner"\ncondition = "broken out"\nread_with = "caliper"'
    )
    assert found.as_written == "along 90 deg, near 1 1/2 in, dia 7/32 in"
    assert (found.origin, found.who_says) == (Origin.EXTRA, "the owner")
    assert found.condition is Condition.BROKEN_OUT
    assert found.doubt_mm == 0.1


def test_holes_are_numbered_rows_first_then_fittings_then_single_holes() -> None:
    more = (
        '[[drums.tom.holes]]\nalong = "0 deg"\nnear = "95 mm"\ndia = "9 mm"\n'
        '[[drums.tom.holes]]\nnumber = 2\nalong = "5 deg"\nnear = "95 mm"\ndia = "9 mm"\n'
        '[[drums.tom.fittings]]\nlabel = "bracket"\nfitting = "b"\nalong = "10 deg"\n'
        'holes = [{ near = "100 mm", dia = "7 mm" }]\n'
        '[[drums.tom.rows]]\nhead = "resonant"\nlugs = 2\nfitting = "Tarn lug"\nfirst = "0 deg"\n'
        'from_edge = "resonant"\ndown = ["41 mm"]\nhole = "6 mm"\n'
    )
    drum = drum_of(survey(row=SIX_LUGS.replace("lugs = 6", "lugs = 2"), more=more))
    assert [(hole.number, hole.purpose) for hole in drum.holes] == [
        (1, "batter lug 1, upper"),
        (2, ""),
        (3, "batter lug 1, lower"),
        (4, "batter lug 2, upper"),
        (5, "batter lug 2, lower"),
        (6, "resonant lug 1"),
        (7, "resonant lug 2"),
        (8, "bracket"),
        (9, ""),
    ]
    assert drum.rows[0].lugs[0].holes == (1, 3)
    assert drum.hole(2).place.along_deg == 5.0

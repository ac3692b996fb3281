"""Places along: the tape's thickness never drifts in, lugs and marks are found, circles refused."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from survey_text import SIX_LUGS, drum_of, survey

from counterhoop.errors import BadInput
from counterhoop.shell.survey_file.resolve_along import mean_deg


def hole_at(along: str, **fields: str) -> float:
    more = f'[[drums.tom.holes]]\nalong = "{along}"\nnear = "150 mm"\ndia = "5 mm"'
    more += fields.pop("more", "")
    return drum_of(survey(more=more, **fields)).holes[-1].place.along_deg


@given(st.floats(0.0, 3.0), st.floats(0.05, 0.95))
def test_a_place_on_the_tape_does_not_depend_on_the_tapes_thickness(
    thick_mm: float, share: float
) -> None:
    # Exact law: reading and girth grow alike with the tape's thickness (both read the circle
    # half its thickness outside the skin), so the angle stays.
    read_mm = 950.0 + math.pi * thick_mm
    along = hole_at(
        f"{read_mm * share:.6f} mm on the tape",
        girth=f'circumference = "{read_mm:.6f} mm"\ntape = "{thick_mm:.6f} mm"',
    )
    assert along == pytest.approx(360.0 * share, abs=1e-5)


def test_the_circumference_loses_pi_times_the_tapes_thickness() -> None:
    # A band of thickness t round a circle reads 2 pi (R + t/2) at its middle: pi t too much.
    thick = drum_of(survey(girth='circumference = "950 mm"\ntape = "0.5 mm"'))
    assert thick.circumference.mean_mm == pytest.approx(950.0 - 0.5 * math.pi)
    assert drum_of(survey(job='tape = "0.5 mm"')).circumference == thick.circumference


def test_a_diameter_tape_is_allowed_for_already() -> None:
    taped = drum_of(survey(girth='circumference = "950 mm"\ntape = "diameter tape"'))
    assert taped.circumference.mean_mm == 950.0
    across = drum_of(survey(girth='diameters = ["302.4 mm"]\ntape = "diameter tape"'))
    assert across.circumference.mean_mm == pytest.approx(302.4 * math.pi)
    assert not across.circumference.from_diameters


def test_diameters_alone_make_the_circumference_and_say_so() -> None:
    drum = drum_of(survey(girth='diameters = ["302 mm", "303 mm"]'))
    assert drum.circumference.mean_mm == pytest.approx(math.pi * 302.5)
    assert drum.circumference.from_diameters
    assert drum.circumference.doubt_mm > 1.0


@pytest.mark.parametrize(
    ("place", "along_deg"),
    [
        ("345 deg", 345.0),
        ("360 deg", 0.0),
        ("lug 2", 90.0),
        ("lug 2 + 95 mm", 126.0),
        ("lug 1 - 95 mm", 354.0),
        ("lug 6 + 45 deg", 15.0),
        ("batter lug 6", 330.0),
        ("opposite lug 2", 270.0),
        ("hole 3", 90.0),
        ("950 mm on the tape", 0.0),
        ("475 mm", 180.0),
    ],
)
def test_a_place_is_found(place: str, along_deg: float) -> None:
    # By hand on a circumference of 950: 95 mm is 36 degrees, lugs from 30 every 60.
    assert hole_at(place) == pytest.approx(along_deg, abs=1e-9)


def test_lug_3_is_the_mean_of_its_holes_as_found() -> None:
    row = SIX_LUGS + (
        "exceptions = [{ lug = 3, holes = ["
        '{ along = "150 deg", near = "38 mm", dia = "6 mm" },'
        '{ along = "154 deg", near = "80 mm", dia = "6 mm" }] }]'
    )
    assert hole_at("lug 3", row=row) == pytest.approx(152.0)


def test_a_lug_across_the_datum_has_its_mean_at_the_datum() -> None:
    row = SIX_LUGS.replace("30 deg", "0 deg") + (
        "exceptions = [{ lug = 1, holes = ["
        '{ right = "-2 mm", near = "38 mm", dia = "6 mm" },'
        '{ right = "2 mm", near = "80 mm", dia = "6 mm" }] }]'
    )
    assert math.cos(math.radians(hole_at("lug 1", row=row))) == pytest.approx(1.0, abs=1e-12)


def test_marks_and_labels_are_places() -> None:
    more = (
        '\n[[drums.tom.holes]]\nalong = "200 deg"\nnear = "95 mm"\ndia = "12.7 mm"\n'
        'purpose = "vent"\n'
        '[[drums.tom.fittings]]\nlabel = "Badge"\nfitting = "b"\nalong = "vent + 10 deg"\n'
        'down = "60 mm"\n'
        '[[drums.tom.fittings]]\nlabel = "leg bracket 2"\nfitting = "b"\nalong = "badge + 10 deg"\n'
        'down = "60 mm"\n'
        '[[drums.tom.holes]]\nalong = "leg bracket 2 + 10 deg"\nnear = "95 mm"\ndia = "5 mm"'
    )
    assert drum_of(survey(more=more)).holes[-1].place.along_deg == pytest.approx(230.0)


def test_the_seam_is_an_interval_that_may_cross_the_datum() -> None:
    wrap = 'finish = { kind = "wrap", thickness = "0.5 mm" }\n'
    by_sides = drum_of(survey(drum=wrap + 'seam = { from = "358 deg", to = "2 deg" }')).seam
    assert by_sides is not None
    assert (by_sides.from_deg, by_sides.to_deg) == (358.0, 2.0)
    # 19 mm on 950 is 7.2 degrees.
    drum = wrap + 'seam = { along = "1 deg", overlap = "19 mm" }'
    by_middle = drum_of(survey(drum=drum)).seam
    assert by_middle is not None
    assert by_middle.from_deg == pytest.approx(357.4)
    assert by_middle.to_deg == pytest.approx(4.6)
    assert hole_at("seam + 95 mm", drum=drum) == pytest.approx(37.0)


def test_two_vents_must_be_told_apart() -> None:
    vent = '[[drums.tom.holes]]\nalong = "{} deg"\nnear = "95 mm"\ndia = "9 mm"\npurpose = "vent"\n'
    with pytest.raises(BadInput, match="there are 2 of it"):
        hole_at("vent", more="\n" + vent.format(10) + vent.format(190))


def test_a_lug_told_from_itself_is_refused_with_what_to_write() -> None:
    row = SIX_LUGS + 'exceptions = [{ lug = 4, along = "lug 4 - 3 mm" }]'
    with pytest.raises(BadInput, match='write right = "-3 mm"'):
        drum_of(survey(row=row))


@given(st.floats(0.0, 359.9), st.lists(st.floats(-60.0, 60.0), min_size=1, max_size=6))
def test_the_mean_of_directions_turns_with_them(turn_deg: float, swings: list[float]) -> None:
    # Symmetry: the mean of directions close together is their arithmetic mean, wherever the
    # datum lies among them.
    mean = mean_deg((turn_deg + swing) % 360.0 for swing in swings)
    expected = turn_deg + math.fsum(swings) / len(swings)
    assert (mean - expected + 180.0) % 360.0 - 180.0 == pytest.approx(0.0, abs=1e-9)

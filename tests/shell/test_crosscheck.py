"""Readings held against each other are findings, never errors."""

from __future__ import annotations

import pytest
from survey_text import SIX_LUGS, read, survey

from counterhoop.errors import Finding, Grade
from counterhoop.shell.survey_file.template import new_survey


def findings(text: str) -> tuple[Finding, ...]:
    return read(text).findings["tom"]


def test_good_readings_say_nothing() -> None:
    girth = (
        'circumference = { batter = "950 mm", middle = "951 mm", resonant = "950.5 mm" }\n'
        'diameters = ["302.5 mm", "302.5 mm"]'
    )
    text = survey(girth=girth, drum='size = "12 in dia x 8 in deep"', depth='["203 mm", "204 mm"]')
    assert findings(text) == ()


def test_a_circumference_that_swings_is_said_with_its_places() -> None:
    girth = 'circumference = { batter = "950 mm", middle = "951 mm", resonant = "954 mm" }'
    (found,) = findings(survey(girth=girth))
    assert (found.code, found.measured, found.limit) == ("girth-spread", pytest.approx(4.0), 1.5)
    assert "at resonant is 4.0 mm more than at batter" in found.says
    assert not found.too_close
    (close,) = findings(survey(girth=girth.replace("954", "952")))
    assert close.too_close
    top = '[rules]\ngirth_spread = "5 mm"'
    assert findings(survey(girth=girth, top=top)) == ()


@pytest.mark.parametrize(
    ("girth", "says"),
    [
        ('circumference = "1030 mm"', "1 in more"),
        ('circumference = "950 mm"\nsize = "14 in dia x 8 in deep"', "2 in less"),
        ('diameters = ["254 mm"]', "2 in less"),
    ],
)
def test_a_slip_of_an_inch_against_the_size_is_named(girth: str, says: str) -> None:
    size = "" if "size" in girth else 'size = "12 in dia x 8 in deep"'
    (found,) = findings(survey(girth=girth, drum=size))
    assert (found.code, found.grade) == ("girth-size", Grade.STOP)
    assert says in found.says


def test_a_circumference_written_as_a_diameter_is_caught_by_the_size() -> None:
    (found,) = findings(
        survey(girth='diameters = ["950 mm"]', drum='size = "12 in dia x 8 in deep"')
    )
    assert found.code == "girth-size"


def test_tape_and_caliper_that_disagree() -> None:
    (found,) = findings(survey(girth='circumference = "950 mm"\ndiameters = ["306 mm", "306 mm"]'))
    assert found.code == "girth-diameters"
    assert "302.4 mm across, the diameters read 306.0" in found.says


def test_depths_that_swing_and_a_depth_against_the_size() -> None:
    (spread,) = findings(survey(depth='{ "0 deg" = "200 mm", "180 deg" = "204 mm" }'))
    assert (spread.code, spread.measured) == ("depth-spread", pytest.approx(4.0))
    assert "at 180 deg is 4.0 mm more than at 0 deg" in spread.says
    (size,) = findings(survey(depth='"228 mm"', drum='size = "12 in dia x 8 in deep"'))
    assert (size.code, size.grade) == ("depth-size", Grade.TAKE_CARE)


@pytest.mark.parametrize(("near", "edge"), [("0 mm", "batter"), ("199 mm", "resonant")])
def test_a_hole_nearer_to_the_edge_than_its_radius(near: str, edge: str) -> None:
    # 199 + 3.5 = 202.5, so 3.0 of the 7 lie beyond 203; near 0 touches and says nothing.
    more = f'[[drums.tom.holes]]\nalong = "0 deg"\nnear = "{near}"\ndia = "7 mm"'
    found = findings(survey(more=more))
    if edge == "batter":
        assert found == ()
    else:
        assert [(one.code, one.holes) for one in found] == [("hole-at-edge", (13,))]
        assert "the resonant edge: 3.0 mm" in found[0].says


def test_a_row_that_nobody_wrote_down_is_missed() -> None:
    (found,) = findings(survey(heads=2))
    assert found.code == "row-not-written"
    assert "that the drum has one head" in found.remedy
    assert findings(survey(row=None, heads=2)) == ()
    assert findings(survey(row=SIX_LUGS.replace('"batter"', '"both"'), heads=2)) == ()


def test_gaps_that_agree_blame_the_circumference() -> None:
    gaps = ", ".join(['"155 mm"'] * 6)
    row = SIX_LUGS + f"gaps = [{gaps}]"
    (found,) = findings(survey(row=row))
    assert (found.code, found.grade) == ("gaps-open", Grade.STOP)
    assert "the circumference looks wrong" in found.says


@pytest.mark.parametrize("units", ["mm", "in"])
def test_the_example_of_a_new_file_is_not_taken_for_a_measured_drum(units: str) -> None:
    text = new_survey(number="1", drum="tom", units=units)
    found = {one.code: one.grade for one in findings(text)}
    assert found.pop("example-numbers") is Grade.STOP
    old, new = ("203 mm", "204 mm") if units == "mm" else ('"8 in"', '"8 1/16 in"')
    assert {one.code for one in findings(text.replace(old, new))} == set(found)


def test_a_lug_far_off_an_even_row_is_a_slip_to_read_again() -> None:
    new = new_survey(number="1")
    slip = 'exceptions = [{ lug = 3, right = "40 mm" }]\nfitting = '
    text = new.replace("fitting = ", slip, 1)
    found = [f for f in read(text).findings["small tom"] if f.code == "lug-off-row"]
    assert [f.where for f in found] == ["batter lug 3"]
    assert "40 mm" in found[0].says
    near = read(text.replace('right = "40 mm"', 'right = "4 mm"'))
    assert not [f for f in near.findings["small tom"] if f.code == "lug-off-row"]

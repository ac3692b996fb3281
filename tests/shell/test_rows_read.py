"""Rows of lugs: equal spacing, gaps that close or not, listed places, exceptions, both heads."""

from __future__ import annotations

import math

import pytest
from survey_text import SIX_LUGS, drum_of, read, survey

from counterhoop.errors import BadInput, Grade
from counterhoop.shell.drum import Row
from counterhoop.shell.hole import Condition, Origin

GAPS = 'gaps = ["158 mm", "158.5 mm", "158 mm", "158.5 mm", "158.5 mm", "158.5 mm"]\n'


def row_of(extra: str, *, row: str = SIX_LUGS) -> Row:
    return drum_of(survey(row=row + extra)).rows[0]


def alongs(row: Row) -> list[float]:
    return [lug.place.along_deg for lug in row.lugs]


def test_equal_spacing_from_the_first_lug() -> None:
    assert alongs(row_of("")) == [30.0, 90.0, 150.0, 210.0, 270.0, 330.0]


def test_gaps_are_shared_out_over_the_full_turn() -> None:
    # 158 + 158.5 + 158 + 158.5 + 158.5 + 158.5 = 950.0, the circumference.
    found = alongs(row_of(GAPS))
    assert found[0] == 30.0
    assert found[1] == pytest.approx(30.0 + 360.0 * 158.0 / 950.0)
    assert found[5] == pytest.approx(390.0 - 360.0 * 158.5 / 950.0)
    assert read(survey(row=SIX_LUGS + GAPS)).findings["tom"] == ()


def test_a_gap_misread_by_10_is_named() -> None:
    text = survey(row=SIX_LUGS + GAPS.replace('"158 mm", "158.5 mm", "158 mm"', SLIP))
    (found,) = read(text).findings["tom"]
    assert (found.code, found.grade) == ("gaps-open", Grade.STOP)
    assert "Gap 3, after lug 3, looks wrong" in found.says
    assert found.measured == pytest.approx(10.0)
    assert "158.0 mm would close" in found.remedy


SLIP = '"158 mm", "158.5 mm", "168 mm"'


def test_gaps_read_with_dividers_are_taken_along_the_skin() -> None:
    # Six equal chords of a circle of 950 round are its radius each (Euclid, Elements IV 15).
    chord = 950.0 / (2.0 * math.pi)
    chords = ", ".join([f'"{chord:.2f} mm"'] * 6)
    text = survey(row=SIX_LUGS + f"gaps = [{chords}]")
    (found,) = read(text).findings["tom"]
    assert found.grade is Grade.NOTE
    assert "dividers" in found.says
    assert alongs(drum_of(text).rows[0]) == pytest.approx([30.0, 90.0, 150.0, 210.0, 270.0, 330.0])


def test_listed_places_go_once_round_from_any_of_them() -> None:
    row = SIX_LUGS.replace("lugs = 6", "lugs = 3").replace(
        'first = "30 deg"', 'along = ["200 deg", "320 deg", "80 deg"]'
    )
    assert alongs(row_of("", row=row)) == [200.0, 320.0, 80.0]


def test_exceptions_move_shift_lose_and_wear_single_lugs() -> None:
    row = row_of(
        "exceptions = ["
        '{ lug = 4, right = "-3 mm" },'
        '{ lug = 5, along = "lug 4 + 158 mm", missing = true, origin = "extra" },'
        '{ lug = 6, down = ["42 mm", "84 mm"], hole = "7 mm", condition = "worn" }]\n'
        'origin = "factory"'
    )
    # 3 mm on 950 round is 1.1368 degrees.
    assert row.lugs[3].place.along_deg == pytest.approx(210.0 - 360.0 * 3.0 / 950.0)
    assert row.lugs[4].place.along_deg == pytest.approx(210.0 + 360.0 * 155.0 / 950.0)
    assert row.lugs[4].missing
    assert (row.lugs[3].origin, row.lugs[4].origin) == (Origin.FACTORY, Origin.EXTRA)
    assert row.lugs[5].place.down_mm == pytest.approx(63.0)
    drum = drum_of(
        survey(row=SIX_LUGS + 'exceptions = [{ lug = 6, hole = "7 mm", condition = "worn" }]')
    )
    worn = [hole for hole in drum.holes if hole.condition is Condition.WORN]
    assert [hole.shape.size_mm[0] for hole in worn] == [7.0, 7.0]


def test_a_resonant_row_is_turned_and_its_holes_count_from_its_own_mouth() -> None:
    row = row_of(
        'from_edge = "resonant"', row=SIX_LUGS.replace('head = "batter"', 'head = "resonant"')
    )
    drum = drum_of(
        survey(
            row=SIX_LUGS.replace('head = "batter"', 'head = "resonant"').replace(
                'down = ["41 mm", "83 mm"]', 'down = ["120 mm", "162 mm"]'
            )
        )
    )
    # Read from either edge of 203 it is the same row: 41 and 83 from the resonant edge.
    for one in (row, drum.rows[0]):
        assert one.head == "resonant"
        assert one.lugs[0].turned_deg == 180.0
        assert one.lugs[0].place.down_mm == pytest.approx(141.0)
    assert row.lugs[0].holes == (1, 2)
    assert drum.rows[0].lugs[0].holes == (2, 1)
    assert [drum.hole(number).place.down_mm for number in (2, 1)] == [162.0, 120.0]


def test_long_lugs_serve_both_heads_and_are_lugs_of_both() -> None:
    row = SIX_LUGS.replace('head = "batter"', 'head = "both"')
    drum = drum_of(
        survey(
            row=row,
            drum='hoops = { batter = "A", resonant = "B" }',
            more='[[drums.tom.holes]]\nalong = "resonant lug 2"\nnear = "10 mm"\ndia = "5 mm"',
        )
    )
    assert drum.rows[0].lugs[1].label == "long lug 2"
    assert drum.holes[-1].place.along_deg == 90.0
    assert drum.hoops == (("batter", "A"), ("resonant", "B"))
    assert drum.rows[0].hoop == "A"


def test_holes_beside_each_other() -> None:
    row = row_of('right = ["-19 mm", "19 mm"]', row=SIX_LUGS.replace('"83 mm"', '"41 mm"'))
    assert row.lugs[0].place.along_deg == pytest.approx(30.0)
    assert row.lugs[0].holes == (1, 2)


def test_four_holes_count_line_by_line_though_readings_of_a_line_differ() -> None:
    block = (
        '[[drums.tom.fittings]]\nlabel = "block"\nfitting = "b"\nalong = "90 deg"\n{}'
        "holes = [\n"
        '{{ right = "19 mm", near = "100 mm", dia = "7 mm" }},\n'
        '{{ right = "-19 mm", near = "100.5 mm", dia = "7 mm" }},\n'
        '{{ right = "-19 mm", near = "125 mm", dia = "7 mm" }},\n'
        '{{ right = "19 mm", near = "125.5 mm", dia = "7 mm" }}]\n'
    )
    upright = drum_of(survey(row=None, more=block.format(""))).fittings[0]
    turned = drum_of(survey(row=None, more=block.format('turned = "180 deg"\n'))).fittings[0]
    on_its_side = drum_of(survey(row=None, more=block.format('turned = "90 deg"\n'))).fittings[0]
    # Written: 1 upper right, 2 upper left, 3 lower left, 4 lower right, as one looks at the shell.
    assert upright.holes == (2, 1, 3, 4)
    assert turned.holes == (4, 3, 1, 2)
    # Turned right toward down, its own upper line is the right one.
    assert on_its_side.holes == (1, 4, 2, 3)


def test_the_lugs_own_middle_is_kept_when_it_was_read() -> None:
    read_row = row_of('middle = "58 mm"')
    assert {(lug.place.down_mm, lug.place_from) for lug in read_row.lugs} == {(58.0, "reading")}
    assert {(lug.place.down_mm, lug.place_from) for lug in row_of("").lugs} == {(62.0, "holes")}


def test_a_pinned_row_says_why() -> None:
    row = row_of('pinned = "gates over the beds"')
    assert row.pinned
    assert row.pinned_why == "gates over the beds"


def test_a_second_row_of_one_head_needs_a_name_of_its_own() -> None:
    second = "[[drums.tom.rows]]" + SIX_LUGS
    with pytest.raises(BadInput, match='called = "old lug"'):
        drum_of(survey(more=second))
    drum = drum_of(survey(more=second + 'called = "old lug"\nmissing = true'))
    assert drum.rows[1].lugs[0].label == "old lug 1"

"""The chosen scheme with rows moved by hand, as it is read from a survey file."""

from __future__ import annotations

import pytest
from survey_text import read, survey

from counterhoop.errors import BadInput
from counterhoop.shell.choice import Chosen, RowMoved


def chosen(line: str) -> Chosen | None:
    return read(survey(drum=line)).job.drums[0].chosen


def test_nothing_chosen_is_nothing():
    assert chosen("") is None


def test_a_choice_is_read_in_any_unit_and_below_zero():
    # Hand-worked: 1/8 in is 3.175 mm exactly.
    found = chosen(
        'chosen = { scheme = "TVK6-H94E", title = "Long lugs", moved = ['
        '{ row = "resonant", right = "2.5 mm", down = "-1 mm" }, '
        '{ row = "bracket", down = "1/8 in" }] }'
    )
    assert found == Chosen(
        scheme="TVK6-H94E",
        title="Long lugs",
        moved=(
            RowMoved(row="resonant", right_mm=2.5, down_mm=-1.0),
            RowMoved(row="bracket", down_mm=3.175),
        ),
    )


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("chosen = { moved = [] }", "chosen"),
        ('chosen = { scheme = "A", moved = [{ row = "both", right = 3 }] }', "unit"),
        (
            'chosen = { scheme = "A", moved = [{ row = "both" }, { row = "Both" }] }',
            "the same row moved twice",
        ),
        ('chosen = { scheme = "A", moved = [{ row = "both", left = "3 mm" }] }', "left"),
    ],
)
def test_a_slip_in_a_choice_is_one_line(line, says):
    with pytest.raises(BadInput, match=says) as caught:
        chosen(line)
    assert "chosen" in str(caught.value)
    assert "\n" not in str(caught.value)

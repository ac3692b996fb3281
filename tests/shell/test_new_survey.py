"""A new survey file reads as it is, and with everything in it taken out of its remarks."""

from __future__ import annotations

import datetime as dt
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.shell.survey_file.read import read_survey
from counterhoop.shell.survey_file.template import new_survey


def test_a_new_file_says_the_eight_numbers_first() -> None:
    text = new_survey(number="24-017", client="Orla Finch", date=dt.date(2026, 11, 2))
    read = read_survey(text, name="new.toml")
    drum = read.job.drums[0].drum
    assert (read.job.number, read.job.client) == ("24-017", "Orla Finch")
    assert read.job.date == dt.date(2026, 11, 2)
    assert drum.circumference.mean_mm == 951.0
    assert (drum.depth_mm, drum.wall_mm) == (203.0, 5.0)
    assert [hole.place.down_mm for hole in drum.holes[:2]] == [41.0, 83.0]
    assert len(drum.rows[0].lugs) == 6
    numbers = re.findall(r"# ([1-8](?: [1-8])?) ", text)
    assert numbers == ["1", "2", "3", "4", "5", "6 7", "8"]
    written = [line for line in text.split("\n") if line and not line.startswith("#")]
    assert len(written) < 25


@pytest.mark.parametrize("units", ["mm", "in"])
def test_every_remark_that_is_a_line_of_the_format_may_be_taken_out(units: str) -> None:
    text = new_survey(number="1", units=units)
    lines = [
        re.sub(r"^# ?", "", line)
        if re.match(r'# (\[|\w+ = |"[\w ]+" = |\{|\]|  \{)', line)
        else line
        for line in text.split("\n")
    ]
    opened = "\n".join(lines) + (
        '\n[drums."large tom"]\ncircumference = "1100 mm"\nwall = "5 mm"\ndepth = "300 mm"\n'
    )
    read = read_survey(opened, name="new.toml")
    assert len(read.job.drums) == 2
    first = read.job.drums[0]
    assert first.drum.marks
    assert first.drum.fittings
    assert first.wishes
    assert not first.drum.edge("resonant").there
    assert read.job.match == (("small tom", "large tom"),)
    assert read.job.stock
    assert (read.job.wraps[0].name, first.finish.wrap) == ("blue ripple", "blue ripple")
    assert first.finish.flatten is not None
    batter = first.drum.readings.batter
    assert None not in (batter.across, batter.radii, batter.edge, batter.head, batter.profile)
    assert first.drum.readings.threads
    assert first.drum.readings.air is not None
    assert first.drum.readings.wood
    assert first.drum.beds[0].flat_mm > 0.0


@given(st.text(min_size=1, max_size=30), st.text(max_size=30))
def test_any_name_that_can_be_printed_can_stand_in_it(number: str, client: str) -> None:
    try:
        text = new_survey(number=number, client=client)
    except BadInput:
        assert not number.strip() or not (number + client).isprintable()
        return
    job = read_survey(text, name="new.toml").job
    assert (job.number, job.client) == (number.strip(), client.strip())


@pytest.mark.parametrize(
    "wrong",
    [
        {"number": ""},
        {"number": "a\nb"},
        {"number": "1", "drum": " "},
        {"number": "x" * 41},
        {"number": "1", "units": "cm"},
    ],
)
def test_a_name_that_cannot_stand_in_it_is_refused(wrong: dict[str, str]) -> None:
    with pytest.raises(BadInput):
        new_survey(**wrong)

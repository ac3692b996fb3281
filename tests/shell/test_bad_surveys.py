"""Whatever is wrong with a survey file, one clear line says so, and nothing else is raised."""

from __future__ import annotations

import pytest
from bad_readings import BAD_READINGS, GOOD_READ
from bad_surveys import BAD_SURVEYS, GOOD, Bad

from counterhoop.errors import BadInput
from counterhoop.shell.survey_file.faults import BadSurvey
from counterhoop.shell.survey_file.gate import survey_bytes
from counterhoop.shell.survey_file.read import read_survey


def read_bytes(content: bytes) -> None:
    read_survey(survey_bytes(content, name="kit.toml"), name="kit.toml")


def test_the_good_files_are_good() -> None:
    read_bytes(GOOD.encode())
    read_bytes(GOOD_READ.encode())


def test_the_table_is_long_enough_and_says_each_thing_once() -> None:
    every = (*BAD_SURVEYS, *BAD_READINGS)
    names = [one.id for one in every]
    assert len(names) >= 200
    assert len(set(names)) == len(names)
    assert all(one.says.strip() for one in every)


@pytest.mark.parametrize("one", [*BAD_SURVEYS, *BAD_READINGS], ids=lambda one: one.id)
def test_a_bad_file_gets_one_clear_line(one: Bad) -> None:
    with pytest.raises(BadInput) as caught:
        read_bytes(one.content)
    line = str(caught.value)
    assert one.says in line, line
    assert line.startswith("kit.toml"), line
    assert "\n" not in line
    assert len(line) <= 400, line
    assert "pydantic" not in line


def test_a_byte_order_mark_and_other_line_ends_are_fine() -> None:
    read_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())


def test_all_faults_are_listed_in_the_order_of_the_file() -> None:
    text = GOOD.replace('wall = "5 mm"', 'wall = "5"').replace('units = "mm"', 'units = "cm"')
    text = text.replace('first = "0 deg"', 'first = "0"')
    with pytest.raises(BadSurvey) as caught:
        read_bytes(text.encode())
    faults = [str(fault) for fault in caught.value.faults]
    lines = text.split("\n")
    assert str(caught.value) == faults[0]
    assert [fault.split(",")[0] for fault in faults] == [
        f"kit.toml line {lines.index(line) + 1}"
        for line in ('units = "cm"', 'wall = "5"', 'first = "0"')
    ]


def test_what_is_wrong_with_several_drums_is_said_of_each() -> None:
    text = GOOD.replace('near = "95 mm"', 'near = "395 mm"').replace(
        'depth = "254 mm"', 'depth = "1 mm"'
    )
    with pytest.raises(BadSurvey) as caught:
        read_bytes(text.encode())
    assert [fault.where.split(", ")[1] for fault in caught.value.faults] == [
        "drums.small tom.holes[1].near",
        "drums.large tom.depth",
    ]

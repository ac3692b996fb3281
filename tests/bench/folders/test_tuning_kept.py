"""Heads and tuning lie in documents of their own, and go out with the survey file.

Truth: an exact law. What was taken in comes out again, the same bytes or the same values.
"""

from __future__ import annotations

import tomllib

import pytest
from empty_workshop import no_book

from counterhoop.bench.folders.folder import drawer, kept_job
from counterhoop.bench.folders.kinds import KIT, SURVEY, TUNING
from counterhoop.bench.folders.read_so_far import read_so_far
from counterhoop.bench.folders.survey_file import survey_files, take_in
from counterhoop.bench.folders.tables import tables_of
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.open_job import opened
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput

TWO = b"""format = 1
[job]
number = "30-002"
[kit]
lowest = { drum = "floor", pitch = "E2" }
bottom = "a third higher"
as_heard = [{ drum = "tom", pitch = "120 Hz" }]

[drums.tom]
circumference = "951 mm"
depth = "203 mm"
wall = "5 mm"
[drums.tom.tuning]
batter = { film = "10 mil" }
most_per_rod = "350 N"
[drums.tom.tuning.readings.1]
when = 2026-05-02T10:12:00
result = { version = 1, mean = 201.5, taps = [{ rod = 1, low = [0.5, -0.25] }] }

[drums.floor]
circumference = "1270 mm"
depth = "400 mm"
wall = "6 mm"
"""


@pytest.fixture
def two(shop: Workshop) -> str:
    return take_in(shop, TWO, name="two.toml", book_of=no_book, by="bench")


def test_it_lies_apart_from_how_the_drum_was_found(shop: Workshop, two: str) -> None:
    job = kept_job(shop, two)
    tom, floor = job.drums
    assert "tuning" not in tom.kept(SURVEY).table
    assert tom.kept(TUNING).table["most_per_rod"] == "350 N"
    assert not floor.kept(TUNING).number
    assert job.kept(KIT).table["bottom"] == "a third higher"


def test_the_same_file_comes_out_byte_for_byte(shop: Workshop, two: str) -> None:
    assert survey_files(shop, two) == {"survey.toml": TWO}


def test_a_changed_value_goes_out_with_all_others(shop: Workshop, two: str) -> None:
    tom = kept_job(shop, two).drums[0]
    change = Change(
        kind=TUNING, name=tom.id, pointer="/most_per_rod", value="400 N",
        based_on=tom.kept(TUNING).number,
    )  # fmt: skip
    write_down(shop, two, change, by="phone")
    out = survey_files(shop, two)["survey.toml"]
    read = [opened(one, name="s.toml", book_of=no_book).job for one in (TWO, out)]
    before, after = (job.drums[0].tuning for job in read)
    assert before is not None
    assert after is not None
    assert (before.most_per_rod_n, after.most_per_rod_n) == (350.0, 400.0)
    assert after.readings == before.readings
    assert read[0].kit == read[1].kit


def test_a_reading_is_kept_beside_the_others(shop: Workshop, two: str) -> None:
    tom = kept_job(shop, two).drums[0]
    reading = {"when": "2026-05-03T09:00:00", "result": {"version": 1, "mean": 202.25}}
    change = Change(
        kind=TUNING, name=tom.id, pointer="/readings/2", value=reading,
        based_on=tom.kept(TUNING).number,
    )  # fmt: skip
    write_down(shop, two, change, by="phone")
    job = kept_job(shop, two)
    so_far = read_so_far(job, job.drums[0], shop=drawer(shop))
    assert so_far.opened is not None
    tuning = so_far.opened.job.drums[0].tuning
    assert tuning is not None
    assert [one.number for one in tuning.readings] == ["1", "2"]
    assert tuning.readings[1].result == {"version": 1, "mean": 202.25}


def test_a_drum_on_its_own_is_read_without_the_others_of_the_kit(shop: Workshop, two: str) -> None:
    job = kept_job(shop, two)
    tables = tables_of(job, shop=drawer(shop), drums=[job.drums[0]])
    assert tables["kit"] == {
        "bottom": "a third higher", "as_heard": [{"drum": "tom", "pitch": "120 Hz"}],
    }  # fmt: skip
    assert read_so_far(job, job.drums[0], shop=drawer(shop)).whole


def test_a_slip_in_a_head_is_said_and_the_drum_is_drawn_without_it(
    shop: Workshop, two: str
) -> None:
    tom = kept_job(shop, two).drums[0]
    change = Change(
        kind=TUNING, name=tom.id, pointer="/batter/film", value="10",
        based_on=tom.kept(TUNING).number,
    )  # fmt: skip
    write_down(shop, two, change, by="phone")
    job = kept_job(shop, two)
    read = read_so_far(job, job.drums[0], shop=drawer(shop))
    assert [fault.where for fault in read.faults] == ["tuning.batter.film"]
    assert read.opened is not None


def test_tuning_has_no_place_among_what_was_found(shop: Workshop, two: str) -> None:
    tom = kept_job(shop, two).drums[0]
    change = Change(
        kind=SURVEY, name=tom.id, pointer="/tuning", value={"rod": "M6"},
        based_on=tom.kept(SURVEY).number,
    )  # fmt: skip
    with pytest.raises(BadInput, match="does not belong to the survey"):
        write_down(shop, two, change, by="phone")


def test_nothing_is_lost_on_the_way_through_toml(shop: Workshop, two: str) -> None:
    job = kept_job(shop, two).kept(KIT)
    change = Change(kind=KIT, pointer="/a4", value="442 Hz", based_on=job.number)
    write_down(shop, two, change, by="phone")
    out = tomllib.loads(survey_files(shop, two)["survey.toml"].decode())
    assert out["kit"] == tomllib.loads(TWO.decode())["kit"] | {"a4": "442 Hz"}

"""Jobs in and out of the store, and copies of everything, as one types it."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

SURVEY = Path(__file__).parents[2] / "examples" / "survey.toml"


@pytest.fixture
def data(tmp_path):
    return ("--data", tmp_path / "data")


def test_a_survey_file_goes_in_and_comes_out_as_it_was(run, data, tmp_path):
    assert run("jobs", *data).out == "No job is kept there yet.\n"
    assert run("take-in", SURVEY, *data).code == 0
    assert "26-031, Lantern Lane Dance Band" in run("jobs", *data).out
    ran = run("hand-out", "lantern lane", "--to", tmp_path / "out", *data)
    assert ran.code == 0
    assert (tmp_path / "out" / "survey.toml").read_bytes() == SURVEY.read_bytes()


def test_a_job_that_is_not_there_is_one_line(run, data, tmp_path):
    ran = run("hand-out", "26-999", "--to", tmp_path / "out", *data)
    assert (ran.code, ran.err.count("\n")) == (2, 1)
    assert not (tmp_path / "out").exists()
    for _ in range(2):
        run("take-in", SURVEY, *data)
    ran = run("hand-out", "lantern", "--to", tmp_path / "out", *data)
    assert (ran.code, ran.err.count("\n")) == (2, 1)
    assert "more than one" in ran.err


@pytest.mark.parametrize("way", ["backup", "export"])
def test_everything_comes_back_from_a_copy(run, data, tmp_path, way):
    run("take-in", SURVEY, *data)
    listed = run("jobs", *data).out
    copy, other = tmp_path / "copy", ("--data", tmp_path / "other")
    assert run(way, copy, *data).code == 0
    back = "restore" if way == "backup" else "import"
    assert run(back, copy, *other).code == 0
    assert run("jobs", *other).out == listed
    assert run("store", "verify", *other).code == 0
    again = run(back, copy, *other)
    assert (again.code, again.err.count("\n")) == (2, 1)


def test_half_an_archive_is_refused_in_one_line(run, data, tmp_path):
    run("take-in", SURVEY, *data)
    run("backup", tmp_path / "whole.zip", *data)
    whole = (tmp_path / "whole.zip").read_bytes()
    (tmp_path / "half.zip").write_bytes(whole[: len(whole) // 2])
    ran = run("restore", tmp_path / "half.zip", "--data", tmp_path / "other")
    assert (ran.code, ran.err.count("\n")) == (2, 1)
    assert run("jobs", "--data", tmp_path / "other").out == "No job is kept there yet.\n"


def test_damage_is_said_and_the_command_fails(run, data, tmp_path):
    import sqlite3

    run("take-in", SURVEY, *data)
    database = tmp_path / "data" / "counterhoop.sqlite3"
    with sqlite3.connect(database) as connection:
        connection.execute("UPDATE revision SET body = '{}' WHERE number = 1")
    connection.close()
    ran = run("store", "verify", *data)
    assert ran.code == 1
    assert "damaged" in ran.err


def test_what_belongs_to_nothing_is_put_away_when_asked(run, data, tmp_path):
    run("take-in", SURVEY, *data)
    inside = tmp_path / "data" / "files" / "ab"
    inside.mkdir(parents=True)
    old, young = inside / "old", inside / "young"
    for file in (old, young):
        file.write_bytes(b"broken off")
    os.utime(old, (0, 0))
    assert "left over, harmless" in run("store", "verify", *data).out
    assert old.exists()
    ran = run("store", "verify", "--put-away", *data)
    assert ran.code == 0
    assert "put away: " in ran.out
    assert not old.exists()
    assert young.exists()
    assert (tmp_path / "data" / "orphans" / "old").read_bytes() == b"broken off"


def test_the_demonstration_writes_its_papers(run, tmp_path):
    ran = run("demo", "--papers", tmp_path / "papers")
    assert ran.code == 0
    assert list((tmp_path / "papers").rglob("*template A4.pdf"))

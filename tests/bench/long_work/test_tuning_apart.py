"""A plan is not worked out anew for a reading that is kept.

Truth: the plan that is worked out from the beginning.
"""

from __future__ import annotations

import json

import pytest

from counterhoop.bench.folders.folder import drawer, kept_job
from counterhoop.bench.folders.source import to_plan
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.long_work import tasks
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.long_work.tuning_apart import pitch_key, plan_key
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store

SURVEY = b"""
format = 1
[job]
number = "30-002"
client = "Nell Ashby"
[drums."small tom"]
kind = "tom"
size = "12 in dia x 8 in deep"
circumference = "957 mm"
depth = "200 mm"
wall = "5 mm"
"""
HEADS = {"batter": {"film": "7 mil"}}
HEIGHTS = [{"at": "4, 4, 4, 4, 4, 4 mm"}]


@pytest.fixture
def shop(tmp_path):
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=WorksAtOnce())


@pytest.fixture
def job(shop):
    return take_in(shop, SURVEY, name="survey.toml", book_of=lambda _: b"", by="bench")


def source_with(shop, job, tuning):
    (drum,) = kept_job(shop, job).drums
    change = Change(kind="tuning", name=drum.id, value=tuning, based_on=drum.kept("tuning").number)
    write_down(shop, job, change, by="bench")
    return to_plan(kept_job(shop, job), shop=drawer(shop)).source


def planned(source):
    return tasks.plan(source, planned=None, progress=lambda _says, _share: None)


def test_heads_go_into_the_plan_that_is_there(shop, job, monkeypatch):
    first = planned(source_with(shop, job, {}))
    counted = []
    anew = tasks.plan_job
    monkeypatch.setattr(
        tasks, "plan_job", lambda *held, **named: counted.append(1) or anew(*held, **named)
    )
    second = planned(source_with(shop, job, HEADS))
    assert counted == []
    assert first.drums[0].wanted.tuning is None
    assert second.drums[0].wanted.tuning.batter.films_m == (pytest.approx(7 * 25.4e-6),)
    assert second.opened.job.drums[0].tuning == second.drums[0].wanted.tuning
    tasks._plans.clear()
    tasks._schemes.clear()
    again = planned(source_with(shop, job, HEADS))
    assert counted == [1]
    assert again.drums[0].found == second.drums[0].found
    assert again.drums[0].wanted == second.drums[0].wanted


def test_what_is_drilled_by_is_never_taken_from_another_plan(shop, job):
    source = source_with(shop, job, HEADS)
    tables = json.loads(source.tables_json)
    other = json.loads(source.tables_json)
    other["drums"]["small tom"]["wall"] = "6 mm"
    assert plan_key(source, tables) != plan_key(source, other)


def test_pitches_rest_on_heads_and_not_on_readings(shop, job):
    source = source_with(shop, job, HEADS)
    tables = json.loads(source.tables_json)
    heard, heads = json.loads(source.tables_json), json.loads(source.tables_json)
    heard["drums"]["small tom"]["tuning"]["heights"] = HEIGHTS
    heads["drums"]["small tom"]["tuning"]["batter"] = {"film": "10 mil"}
    assert pitch_key(source, heard) == pitch_key(source, tables) != pitch_key(source, heads)
    assert plan_key(source, heard) == plan_key(source, heads)

"""What cannot be read of heads and pitches keeps no drum out of the plan; holes do.

Truth: by hand, from what is written.
"""

from __future__ import annotations

from importlib.resources import files

import pytest

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.read_so_far import tables_to_plan
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store

DEMO = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_bytes()
TOM = "small tom"


@pytest.fixture
def shop(tmp_path):
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=WorksAtOnce())


@pytest.fixture
def job(shop):
    return take_in(shop, DEMO, name="survey.toml", book_of=lambda _: b"", by="bench")


def drum_in(shop, job):
    return next(drum for drum in kept_job(shop, job).drums if drum.name == TOM)


def write(shop, job, kind, pointer, value):
    drum = drum_in(shop, job)
    name = "" if kind == "kit" else drum.id
    kept = kept_job(shop, job).kept(kind) if kind == "kit" else drum.kept(kind)
    change = Change(kind=kind, name=name, pointer=pointer, value=value, based_on=kept.number)
    write_down(shop, job, change, by="bench")


def to_plan(shop, job):
    return tables_to_plan(kept_job(shop, job), shop={})


def test_a_head_that_cannot_be_read_is_left_out_and_the_rest_of_it_stands(shop, job):
    turn = {"from": "190 Hz", "to": "205 Hz", "turns": "1/8"}
    write(shop, job, "tuning", "", {"batter": {"film": "thick"}, "turns": [{"from": "x"}, turn]})
    tables, faults = to_plan(shop, job)
    assert faults == {}
    assert tables["drums"][TOM]["tuning"]["turns"] == [turn]
    assert "film" not in tables["drums"][TOM]["tuning"].get("batter", {})


def test_a_wish_that_cannot_be_read_is_left_out(shop, job):
    write(shop, job, "kit", "", {"lowest": {"drum": TOM, "pitch": "low"}})
    tables, faults = to_plan(shop, job)
    assert faults == {}
    assert "kit" not in tables


def test_a_hole_beside_it_that_cannot_be_read_keeps_the_drum_out(shop, job):
    write(shop, job, "tuning", "", {"batter": {"film": "thick"}})
    write(shop, job, "survey", "/wall", "thin")
    tables, faults = to_plan(shop, job)
    assert [*faults] == [drum_in(shop, job).id]
    assert TOM not in tables["drums"]

"""Opening hours, promises and arrivals are kept as typed. Truth: worked by hand."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.promise.hours_open import open_hours, read_open_hours, write_open_hours
from counterhoop.bench.promise.promises import (
    promises_of,
    take_promise_back,
    write_arrival,
    write_promise,
    write_weight,
)
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.save import Conflict, Saved


def test_hours_are_usual_until_somebody_says_otherwise(shop: Workshop) -> None:
    usual = open_hours(shop)
    assert usual.says.startswith("Nobody has said the hours of the week, how many clamps")
    assert usual.week.hours_of(dt.date(2030, 5, 18)) == ()
    table = {
        "week": {"tue": "9-12", "sat": "10:00-14:00"}, "off": ["2030-05-21 to 2030-05-22"],
        "extra": {"2030-05-22": "8-10"}, "clamps": "8", "drying": "0", "room": "59 °F",
    }  # fmt: skip
    assert isinstance(write_open_hours(shop, table, based_on=0, by="bench"), Saved)
    own = open_hours(shop)
    assert own.says == ""
    assert (own.clamps, own.drying, round(own.room_c, 6)) == (8, 0, 15.0)
    days = [own.week.hours_of(dt.date(2030, 5, day)) for day in (14, 18, 21, 22)]
    assert days == [((540, 720),), ((600, 840),), (), ((480, 600),)]
    assert isinstance(write_open_hours(shop, {}, based_on=0, by="other bench"), Conflict)


@pytest.mark.parametrize(
    ("table", "where"),
    [
        ({"week": {"mon": "18-9"}}, "monday"),
        ({"week": "9-12"}, "week"),
        ({"off": ["2030-07-01 to 2062-07-14"]}, "off"),
        ({"off": ["next week"]}, "off"),
        ({"extra": {"soon": "9-12"}}, "extra"),
        ({"clamps": "a few"}, "clamps"),
        ({"drying": "-1"}, "drying"),
        ({"room": "warm"}, "room"),
        ({"room": "70"}, "room"),
    ],
)
def test_hours_that_cannot_be_read_name_their_field(table: dict[str, Any], where: str) -> None:
    with pytest.raises(BadInput) as refused:
        read_open_hours(table)
    assert refused.value.where == where


def test_the_newest_promise_counts_until_it_is_taken_back(shop: Workshop, job: str) -> None:
    for based_on, day in enumerate(("2030-05-31", "2030-06-07")):
        write_promise(
            shop, kept_job(shop, job), day=day, to="Nell", share=0.8437, based_on=based_on, by="b"
        )
    found = promises_of(kept_job(shop, job))
    assert [one.day for one in found.every] == [dt.date(2030, 5, 31), dt.date(2030, 6, 7)]
    assert found.stands is not None
    assert found.stands.says() == (
        "Friday 7 June 2030, told to Nell on 14 May 2030; 84 % of workings were done by then"
    )
    late = write_promise(
        shop, kept_job(shop, job), day="2030-06-14", to="Nell", share=None, based_on=1, by="other"
    )
    assert isinstance(late, Conflict)
    assert isinstance(take_promise_back(shop, kept_job(shop, job), based_on=2, by="b"), Saved)
    assert promises_of(kept_job(shop, job)).stands is None
    with pytest.raises(BadInput, match="no promise stands"):
        take_promise_back(shop, kept_job(shop, job), based_on=3, by="b")


def test_a_promise_is_for_a_day_to_come_and_to_somebody(shop: Workshop, job: str) -> None:
    for day, to, where in (
        ("2030-05-13", "Nell", "day"), ("soon", "Nell", "day"), ("2300-05-14", "Nell", "day"),
        ("2030-05-31", " ", "to"),
    ):  # fmt: skip
        with pytest.raises(BadInput) as refused:
            write_promise(
                shop, kept_job(shop, job), day=day, to=to, share=None, based_on=0, by="bench"
            )
        assert refused.value.where == where
    assert promises_of(kept_job(shop, job)).every == ()


def test_weight_and_arrivals_stand_beside_the_promise(shop: Workshop, job: str) -> None:
    write_promise(
        shop, kept_job(shop, job), day="2030-05-31", to="Nell", share=None, based_on=0, by="b"
    )
    write_weight(shop, kept_job(shop, job), weight="2.5", based_on=1, by="b")
    for number, day in enumerate(("2030-05-20", "2030-05-27"), 2):
        write_arrival(
            shop, kept_job(shop, job), what="six rods", day=day, sure=False, based_on=number, by="b"
        )
    found = promises_of(kept_job(shop, job))
    assert (found.weight, found.stands is not None) == (2.5, True)
    assert [(one.what, one.day) for one in found.arrivals] == [("six rods", dt.date(2030, 5, 27))]
    write_arrival(
        shop, kept_job(shop, job), what="six rods", day="", sure=False, based_on=4, by="b"
    )
    assert promises_of(kept_job(shop, job)).arrivals == ()
    with pytest.raises(BadInput):
        write_weight(shop, kept_job(shop, job), weight="0", based_on=5, by="b")

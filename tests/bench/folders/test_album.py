"""Photographs with what they show. Truth: by hand from the list of wanted views."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from counterhoop.bench.folders.album import (
    missing_views,
    photograph,
    photographs_of,
    tell_photographs,
    words_of,
)
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.kinds import PHOTOGRAPHS
from counterhoop.bench.folders.out_of_sight import Thing, put_away
from counterhoop.bench.folders.photographs import put_photograph_in
from counterhoop.bench.folders.views import WANTED
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.save import Conflict


def jpeg() -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (40, 30), "white").save(out, "JPEG")
    return out.getvalue()


def put_in(shop: Workshop, job: str, *, drum: str = "") -> str:
    return put_photograph_in(shop, job, drum=drum, name="a.jpg", pieces=[jpeg()], by="phone")


def test_ten_views_are_wanted_and_each_is_missing_until_it_is_told(
    shop: Workshop, demo: str
) -> None:
    assert len(WANTED) == 10
    tom = kept_job(shop, demo).drums[0]
    one, two = put_in(shop, demo, drum=tom.id), put_in(shop, demo, drum=tom.id)
    told = {
        one: words_of(view="outside 90", drum=tom.id),
        two: words_of(view="batter edge", drum=tom.id, after=True, says="new edge"),
    }
    tell_photographs(shop, demo, told, based_on=0, by="phone")
    job = kept_job(shop, demo)
    found = photographs_of(shop, job)
    assert [(p.shows, p.after, p.says) for p in found] == [
        ("small tom, outside, a quarter along", False, ""),
        ("small tom, batter edge, after the work", True, "new edge"),
    ]
    assert "outside 90" not in [view.name for view in missing_views(found, tom)]
    # A view after the work does not stand for the one before it.
    assert len(missing_views(found, tom)) == 9
    # Afterwards the places photographed before are wanted, and no others.
    assert [view.name for view in missing_views(found, tom, after=True)] == ["outside 90"]
    other = job.drums[1]
    assert missing_views(found, other) == WANTED
    assert missing_views(found, other, after=True) == ()


def test_two_benches_tell_of_two_photographs_and_neither_is_lost(shop: Workshop, demo: str) -> None:
    one, two = put_in(shop, demo), put_in(shop, demo)
    tell_photographs(shop, demo, {one: words_of(view="detail")}, based_on=0, by="phone")
    seen = kept_job(shop, demo).kept(PHOTOGRAPHS).number
    tell_photographs(shop, demo, {two: words_of(says="badge")}, based_on=seen, by="laptop")
    # The phone still has the page from before.
    again = {one: words_of(view="resonant edge")}
    tell_photographs(shop, demo, again, based_on=seen, by="phone")
    job = kept_job(shop, demo)
    assert photograph(shop, job, one).view == "resonant edge"
    assert photograph(shop, job, two).says == "badge"
    lost = tell_photographs(shop, demo, {one: words_of()}, based_on=seen, by="laptop")
    assert isinstance(lost, Conflict)


def test_one_that_is_put_away_is_missing_again(shop: Workshop, demo: str) -> None:
    tom = kept_job(shop, demo).drums[0]
    one = put_in(shop, demo, drum=tom.id)
    told = {one: words_of(view="inside 0", drum=tom.id)}
    tell_photographs(shop, demo, told, based_on=0, by="phone")
    put_away(shop, thing=Thing.ENCLOSURE, thing_id=one, by="phone")
    job = kept_job(shop, demo)
    assert missing_views(photographs_of(shop, job), tom) == WANTED
    assert photograph(shop, job, one).lies.hidden
    with pytest.raises(BadInput, match="no such photograph"):
        photograph(shop, job, "0123456789abcdef")


def test_a_document_that_holds_anything_does_no_harm(shop: Workshop, demo: str) -> None:
    one = put_in(shop, demo)
    odd = {one: {"view": 7, "drum": ["x"], "after": "yes", "says": None}, "other": 3}
    tell_photographs(shop, demo, odd, based_on=0, by="program")
    (found,) = photographs_of(shop, kept_job(shop, demo))
    assert (found.view, found.drum, found.after, found.says) == ("", None, False, "")

"""The booking-in sheet of a folder. Truth: what was written into the folder a line before."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from counterhoop.bench.booking_in import TOGETHER, booking_in_of, booking_in_paper
from counterhoop.bench.folders.album import tell_photographs, words_of
from counterhoop.bench.folders.folder import KeptJob, kept_job
from counterhoop.bench.folders.kinds import ARRIVAL
from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.folders.photographs import put_photograph_in
from counterhoop.bench.folders.views import WANTED
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.price.terms import write_terms
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.body import Json

THINGS: list[Json] = [
    {"what": "two flanged hoops", "state": "rusted", "drum": "The Old Snare"},
    {"what": "strainer", "missing": True, "drum": "old snare"},
    {"what": "a bag of rods", "whose": "the drummer's"},
    {"what": "a stool", "drum": "no drum of ours"},
]


def booked_in(shop: Workshop, *drums: str, **said: Json) -> KeptJob:
    job = open_folder(shop, job={"number": "7", "client": "Nell", "owner": "a band"}, by="bench")
    for name in drums:
        add_drum(shop, job, name=name, survey={"size": "14 in dia x 5 in deep"}, by="bench")
    write_down(shop, job, Change(kind=ARRIVAL, value=dict(said), based_on=0), by="bench")
    return kept_job(shop, job)


def test_things_stand_with_their_drum_and_the_rest_with_all(shop: Workshop) -> None:
    sheet = booking_in_of(shop, booked_in(shop, "old snare", "small tom", things=THINGS))
    snare, tom = sheet.drums
    assert [(one.what, one.says) for one in snare.came] == [("two flanged hoops", "rusted")]
    assert [one.what for one in snare.missing] == ["strainer"]
    assert (tom.came, tom.missing) == ((), ())
    assert sheet.together is not None
    assert sheet.together.drum == TOGETHER
    assert [one.what for one in sheet.together.came] == ["a bag of rods", "a stool"]
    assert [one.apart is None for one in (*sheet.drums, sheet.together)] == [True, True, False]


def test_of_a_lone_drum_everything_stands_with_it(shop: Workshop) -> None:
    sheet = booking_in_of(
        shop,
        booked_in(
            shop, "old snare", things=THINGS[2:3], woodworm={"found": "no"},
            mould={"found": "yes", "says": "by the vent"}, smell={},
        ),
    )  # fmt: skip
    assert sheet.together is None
    (snare,) = sheet.drums
    assert [(one.what, one.whose) for one in snare.came] == [("a bag of rods", "the drummer's")]
    assert snare.apart == {"woodworm": "none seen", "mould": "found, by the vent"}


def test_every_wanted_view_has_a_frame_and_what_came_later_none(shop: Workshop) -> None:
    out = io.BytesIO()
    Image.new("RGB", (40, 30), "tan").save(out, "JPEG")
    job = booked_in(shop, "old snare")
    drum = job.drums[0].id
    lie = [
        put_photograph_in(shop, job.id, drum=drum, name="a.jpg", pieces=[out.getvalue()], by="x")
        for _ in range(4)
    ]
    told = {
        lie[0]: words_of(view="outside 90", drum=drum),
        lie[1]: words_of(view="outside 90", drum=drum),
        lie[2]: words_of(view="detail", drum=drum, says="the crack by the vent"),
        lie[3]: words_of(view="batter edge", drum=drum, after=True),
    }
    tell_photographs(shop, job.id, told, based_on=0, by="x")
    (snare,) = booking_in_of(shop, kept_job(shop, job.id)).drums
    assert list(snare.photographs)[: len(WANTED)] == [view.says for view in WANTED]
    there = [name for name, one in snare.photographs.items() if one is not None]
    assert there == [
        "outside, a quarter along", "outside, a quarter along (1)", "the crack by the vent (2)",
    ]  # fmt: skip


def test_what_the_terms_say_of_drums_not_fetched_stands_until_the_folder_says_so(
    shop: Workshop,
) -> None:
    write_terms(shop, {"shop": "Quennick", "uncollected": "We write first."}, based_on=0, by="x")
    job = booked_in(shop, "old snare", reached="9 Ferry Lane\n0100 000", value="1200 GBP")
    sheet = booking_in_of(shop, job)
    assert (sheet.uncollected, sheet.head.shop) == ("We write first.", "Quennick")
    assert sheet.head.client_lines == ("9 Ferry Lane", "0100 000")
    assert (str(sheet.value), sheet.owner) == ("1200.00 GBP", "a band")
    own = booked_in(shop, "old snare", uncollected="They go to the band.")
    assert booking_in_of(shop, own).uncollected == "They go to the band."
    assert booking_in_paper(shop, job).startswith(b"%PDF")


def test_a_value_that_cannot_be_read_is_said(shop: Workshop) -> None:
    with pytest.raises(BadInput, match="the declared value cannot be read"):
        booking_in_of(shop, booked_in(shop, "old snare", value="about 1200"))


def test_documents_that_hold_anything_make_a_sheet(shop: Workshop) -> None:
    odd: Json = {"things": ["x", {"what": 3}], "woodworm": "yes", "notes": 7, "reached": ["a"]}
    job = booked_in(shop, "old snare", "small tom")
    write_down(shop, job.id, Change(kind=ARRIVAL, value=odd, based_on=1), by="x")
    assert booking_in_of(shop, kept_job(shop, job.id)).notes == ()

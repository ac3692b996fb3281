"""The sheets of parts as a browser without a script meets them.

Truth: counted by hand on the worked small tom (6 lugs with 2 screws each), and the store.
"""

from __future__ import annotations

import io
import re

import pypdf
import pypdfium2 as pdfium
import pytest
from starlette.testclient import TestClient
from worked_drums import WorkedJob

from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.long_work.answers import Working
from counterhoop.bench.parts.offers import on_offer, read_offers
from counterhoop.bench.parts.wants_of_job import Lack, SortLacking
from counterhoop.bench.shelf import whose
from counterhoop.bench.shelf.cards import card_of, write_piece
from counterhoop.bench.shelf.whose import key_of
from counterhoop.parts.comes_apart import Sort
from counterhoop.parts.wants import Want
from counterhoop.quantities.day import say_day
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite
from counterhoop.web.plans import Planned

TOM = "small tom"
SCREW, LUG = "screw 10-24 x 5/8 in", "Corvane round lug"


@pytest.fixture
def job(shop):
    return WorkedJob(shop, TOM)


@pytest.fixture
def parts(job):
    return f"/jobs/{job.id}/drums/{job.drum(TOM).id}/parts"


def words(answer):
    return " ".join(re.sub(r"<[^>]+>", " ", answer.text.partition("<main")[2]).split())


def for_whom(job):
    return whose.said(job.shop, key_of(job.id, job.drum(TOM).id))


def press(job, parts, *, at="came-off", based_on=0, **what):
    sent = {"stage": "found", "based_on": based_on, "at": at, **what}
    return job.ask.post(f"{parts}/tick", data=sent)


def count(job, parts, place, pieces, *, based_on=0, **counts):
    sent = {"place": place, "piece": pieces, "based_on": based_on, **counts}
    return job.ask.post(f"{parts}/count", data=sent)


def test_ticked_by_sort_by_row_and_piece_by_piece(job, parts):
    assert "Nothing is counted yet: 61 pieces" in words(job.ask.get(parts))
    done = press(job, parts, piece=SCREW, at="sort-6")
    assert (done.status_code, done.headers["location"]) == (303, f"{parts}#sort-6")
    lugs = [f"batter lug {n}" for n in range(1, 7)]
    assert press(job, parts, place=lugs, based_on=1).status_code == 303
    done = count(
        job, parts, "batter lug 3", [LUG, SCREW], based_on=2,
        **{"found-0": "1", "found-1": "2", "spoilt-1": "1"},
    )  # fmt: skip
    assert done.status_code == 303
    said = words(job.ask.get(parts))
    assert "1 screw missing; 25 of 61 pieces not counted yet." in said
    assert "1 screw 10-24 x 5/8 in (1 found, no use again: the pattern to match)" in said
    back = {"number": 2, "based_on": 3}
    assert job.ask.post(f"{parts}/undo", data=back).status_code == 303
    assert "25 of 61 pieces not counted yet." in words(job.ask.get(parts))
    assert "1 screw missing" not in words(job.ask.get(parts))
    for number, based_on in ((1, 4), (0, 5)):
        job.ask.post(f"{parts}/undo", data={"number": number, "based_on": based_on})
    assert "Nothing is counted yet" in words(job.ask.get(parts))


def test_what_cannot_be_stays_as_it_was_typed(job, parts):
    for typed, said in (("2o", "a whole number"), ("3", "more soaked than the 2 found")):
        answer = count(job, parts, "batter lug 3", [SCREW], **{"found-0": "2", "soaked-0": typed})
        assert answer.status_code == 422
        assert said in answer.text
        assert f'value="{typed}"' in answer.text
    assert not job.drum(TOM).kept("stripped").number
    assert press(job, parts, place="no such lug").status_code == 422


def test_a_survey_that_cannot_be_read_whole_still_says_what_to_expect(shop):
    """A hole is wrong, so nothing is planned: it could be drilled into.

    By hand: a head and six rods; six lugs with two screws, two washers and a gasket each.
    """
    survey = {
        "size": "12 in dia x 8 in deep", "circumference": "960 mm", "wall": "6 mm",
        "depth": "203 mm", "holes": [{"near": "about there"}],
        "rows": [
            {
                "head": "batter", "lugs": 6, "fitting": LUG, "first": "30 deg",
                "down": ["33 mm", "53 mm"], "hole": "6 mm",
            }
        ],
    }  # fmt: skip
    ask = TestClient(WhoMayWrite(make_app(shop)), follow_redirects=False)
    job = open_folder(shop, job={"number": "30-001"}, by="bench")
    drum = add_drum(shop, job, name="old tom", survey=survey, by="bench")
    page = f"/jobs/{job}/drums/{drum}/parts"
    assert "Nothing is counted yet: 43 pieces should come off." in words(ask.get(page))
    sent = {"stage": "found", "based_on": 0, "at": "sort-4", "piece": SCREW}
    assert ask.post(f"{page}/tick", data=sent).status_code == 303
    assert "31 of 43 pieces not counted yet." in words(ask.get(f"/jobs/{job}/parts"))


def test_more_than_there_should_be_is_taken_and_said(job, parts):
    """By hand: nine rods where six belong."""
    count(job, parts, "batter head", ["rod 12-24 x 42 mm"], **{"found-0": "9"})
    said = words(job.ask.get(parts))
    assert "3 rods too many; 55 of 61 pieces not counted yet." in said
    assert "9 of 6 found, 3 more than should be there: count again, or they belong to" in said


def test_two_benches_count_one_line(job, parts):
    """The second is shown both, and what it chooses leaves the first one's other ticks alone."""
    count(job, parts, "batter lug 3", [SCREW, LUG], **{"found-0": "2", "found-1": "1"})
    asked = {"found-0": "1"}
    answer = count(job, parts, "batter lug 3", [SCREW], **asked)
    assert answer.status_code == 409
    assert "batter lug 3, screw 10-24 x 5/8 in, found" in answer.text
    count(job, parts, "batter lug 3", [SCREW], based_on=1, keep="mine", **asked)
    table = job.drum(TOM).kept("stripped").table["counted"]["batter lug 3"]
    assert (table[SCREW]["found"], table[LUG]["found"]) == (1, 1)


def test_from_the_wants_to_the_shelf_and_back(shop, job, parts):
    """By hand: the scheme adds six lugs, four lie on the shelf."""
    fields = {"number": "0042", "fitting": LUG, "kind": "lug", "count": 4, "bin": "B3"}
    kept = write_piece(shop, None, fields, based_on=0, by="bench")
    page = f"/jobs/{job.id}/parts"
    said = words(job.ask.get(page))
    assert "6 Corvane round lug Small tom: new under its scheme, not taken yet (6)" in said
    assert "4 on the shelf and 2 to find" in said
    assert "Screws and washers of what is new are not in the list" in said
    assert "Set 4 aside for the small tom" in said
    key = key_of(job.id, job.drum(TOM).id)
    sent = {"kind": "set aside", "piece": kept.piece.id, "key": key, "count": 4, "mark": "m"}
    for _ in range(2):  # sent twice
        assert job.ask.post(f"{page}/move", data=sent).status_code == 303
    assert card_of(shop, kept.piece.id).stock.set_aside == {key: 4}
    assert "4 set aside and 2 to find or buy" in words(job.ask.get(page))
    assert "Set aside from the shelf" in words(job.ask.get(parts))
    again = job.ask.post(f"{page}/move", data={**sent, "mark": "another tab"})
    assert again.status_code == 409
    asked = for_whom(job)
    assert f"4 of number 0042 are set aside for {asked} already; no more is free." in words(again)
    gone = {**sent, "kind": "put back", "count": 5, "mark": "p"}
    refused = words(job.ask.post(f"{page}/move", data=gone))
    assert f"number 0042: only 4 set aside for {asked}. Look at the job" in refused
    sent = {"kind": "used", "piece": kept.piece.id, "key": key, "count": 4, "mark": "n"}
    job.ask.post(f"{page}/move", data=sent)
    assert card_of(shop, kept.piece.id).stock.on_shelf == 0
    assert "4 fitted and 2 to find or buy" in words(job.ask.get(page))
    elsewhere = {**sent, "kind": "set aside", "key": "another/drum", "mark": "o"}
    assert job.ask.post(f"{page}/move", data=elsewhere).status_code == 422


def test_the_papers_know_what_is_ticked_and_what_the_codes_open(job, parts):
    press(job, parts, piece=SCREW)
    ask = f"/jobs/{job.id}/papers/file"
    drum = {"drum": job.drum(TOM).id}
    sheet = job.ask.get(ask, params={"name": "1 small tom/strip-down sheet.pdf", **drum})
    document = pdfium.PdfDocument(io.BytesIO(sheet.content))
    assert len(document) == 1
    printed = document[0].get_textpage().get_text_range()
    assert re.search(rf"12 {SCREW} 12\s", printed)
    ticked = say_day(job.drum(TOM).kept("stripped").made_at.astimezone().date())
    assert ticked in printed
    labels = job.ask.get(ask, params={"name": "1 small tom/bag labels.pdf", **drum})
    read = pypdf.PdfReader(io.BytesIO(labels.content))
    opened = {
        str(one["/Alt"]).rpartition(" at ")[2]
        for number in range(1, len(read.xref_objStm) + len(read.xref[0]) + 1)
        if isinstance(one := read.get_object(number), dict) and "/Alt" in one
    }
    assert opened == {f"http://testserver{parts}"}
    wants = job.ask.get(ask, params={"name": "wants list.pdf"})
    assert wants.status_code == 200


# --- donors -------------------------------------------------------------------------------------


def test_donors_are_read_as_they_are_written():
    """By hand; what cannot be read is left out and said."""
    table = {
        "sure": "0.75",
        "offers": [
            {
                "name": "tom", "price": "60 GBP", "holds": "6 corvane round lug\n2 x screw",
                "usable": "0.9",
            },
            {"name": "bag", "price": "9 EUR", "holds": "3 screw"},
            {"name": "box", "price": "", "holds": "3 screw"},
            {"name": "lot", "price": "5,00", "holds": "lugs\n3 Corvane round lugs\n2 Corvane lag"},
            {"name": "tub", "price": "five", "holds": "3 screw"},
            "odd",
        ],
    }  # fmt: skip
    read = read_offers(table, wanted=[LUG, "screw"], currency="GBP")
    assert [(one.name, one.price_minor, one.holds, one.chance) for one in read.offers] == [
        ("tom", 6000, {LUG: 6, "screw": 2}, 0.9),
        ("lot", 500, {LUG: 3}, 1.0),
    ]
    assert read.chance == 0.75
    assert [line.split(":")[0] for line in read.says] == [
        "bag", "box is left out", "lot", "lot", "tub is left out",
    ]  # fmt: skip
    assert 'Did you mean "Corvane round lug"?' in read.says[-2]
    assert read_offers({"offers": 3}, wanted=[]).offers == ()


def test_what_no_offer_has_enough_of_is_said_apart():
    def lacks(piece, number):
        sort = Sort(piece=piece, kind="")
        want = Want(sort=sort, count=number, places=(("lug 1", number),))
        return SortLacking(sort=sort, lacks=(Lack(drum="1", name="tom", want=want),))

    read = read_offers(
        {"offers": [{"name": "a", "price": "1 GBP", "holds": "2 screw\n1 hoop"}]},
        wanted=["screw", "hoop", "spring"],
    )
    wants, beyond = on_offer(read, [lacks("screw", 2), lacks("hoop", 2), lacks("spring", 1)])
    assert wants == (("screw", 2),)
    assert beyond == ("hoop (1 of 2)", "spring (none of 1)")


@pytest.mark.parametrize(
    ("sure", "said"),
    [
        ("0.5", "bag: 20.00 GBP in all. Covers all that is to be found 50 times in 100."),
        ("", "tom: 60.00 GBP in all. Covers all that is to be found 90 times in 100."),
        ("0.95", "tom and bag: 80.00 GBP in all. Covers all that is to be found 95 times in 100."),
        ("0.99", "All offers together do not reach 99 times in 100, only 95 times in 100."),
    ],
)
def test_the_cheapest_donors_that_are_sure_enough_are_named(job, sure, said):
    """By hand: one hoop is to be found; 1 - (1 - 0.9) (1 - 0.5) = 0.95."""
    page, hoop = f"/jobs/{job.id}/parts", "flanged hoop 12 in, 6 ears"
    sent = {
        "offers.0.name": "tom", "offers.0.price": "60 GBP", "offers.0.holds": f"1 {hoop}",
        "offers.0.usable": "0.9", "offers.1.name": "bag", "offers.1.price": "20 GBP",
        "offers.1.holds": f"1 {hoop}", "offers.1.usable": "0.5", "sure": sure, "based_on": "0",
    }  # fmt: skip
    assert job.ask.post(f"{page}/offers", data=sent).status_code == 303
    answer = words(job.ask.get(page))
    assert said in answer
    assert ("proven" in answer) == (sure != "0.99")


def test_an_offer_as_it_is_noted_at_the_bench(job, parts, monkeypatch):
    """By hand: a hoop is to be found, and both screws of a lug; the box holds hoop and a screw."""
    count(job, parts, "batter lug 3", [SCREW], **{"found-0": "0"})
    page = f"/jobs/{job.id}/parts"
    sent = {
        "offers.0.name": "box", "offers.0.price": "45,00", "based_on": "0",
        "offers.0.holds": "1 flanged hoops 12 in, 6 ears\n1 screw 10-24 x 5/8 in",
    }  # fmt: skip
    job.ask.post(f"{page}/offers", data=sent)
    said = words(job.ask.get(page))
    assert "box: 45.00 GBP in all. Covers what is to be found of flanged hoop" in said
    assert "Not enough is on offer of screw 10-24 x 5/8 in (1 of 2)" in said
    assert "box (45.00 GBP, 1 flanged hoops 12 in, 6 ears; 1 screw 10-24 x 5/8 in)" in said
    job.ask.post(f"{page}/offers", data={**sent, "offers.0.price": "lots", "based_on": "1"})
    wrong = job.ask.get(page)
    assert "box is left out: cannot be read as an amount of money: lots" in words(wrong)
    assert re.search(r'<details class="more no-print" open>\s*<summary>Change it', wrong.text)
    monkeypatch.setattr(
        Planned, "working", property(lambda _: Working(id="w", says="plan", share=0.5))
    )
    monkeypatch.setattr(Planned, "plan", property(lambda _: None))
    said = words(job.ask.get(page))
    assert "Looked through once the schemes are worked out." in said
    assert "left out" not in said

"""The page of a new drum without a browser."""

from __future__ import annotations

import re

import pytest
from starlette.testclient import TestClient

from counterhoop.bench.folders.folder import drawer, kept_job
from counterhoop.bench.folders.open_folder import open_folder
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite
from planned_once import PLANNED

PART = {"HX-Request": "true"}
EIGHT = {
    "heads": "1", "circumference": "37 1/2 in", "wall": "5 mm", "depth": "200 mm",
    "rows.0.head": "batter", "rows.0.lugs": "6", "rows.0.fitting": "Corvane round lug",
    "rows.0.first": "30 deg", "rows.0.near.0": "37.5 mm", "rows.0.near.1": "79.5 mm",
    "rows.0.hole": "6 mm",
}  # fmt: skip


@pytest.fixture
def shop(tmp_path):
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=PLANNED)


@pytest.fixture
def job(shop):
    return open_folder(shop, job={"number": "7"}, by="bench")


@pytest.fixture
def send(shop, job):
    ask = TestClient(WhoMayWrite(make_app(shop)), follow_redirects=False)

    def post(headers=None, **fields):
        return ask.post(f"/jobs/{job}/drums/new", data=EIGHT | fields, headers=headers)

    post.ask = ask
    return post


def drums(shop, job):
    return kept_job(shop, job).drums


def plain(html):
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


def test_without_a_script_the_button_makes_the_drum(send, shop, job):
    answer = send(name="small tom", done="yes")
    assert answer.status_code == 303
    (drum,) = drums(shop, job)
    assert answer.headers["location"] == f"/jobs/{job}/drums/{drum.id}/shell?open=hole-new"
    assert drum.kept("survey").table["circumference"] == "37 1/2 in"
    assert drum.kept("survey").table["rows"][0]["near"] == ["37.5 mm", "79.5 mm"]


def test_what_is_typed_is_drawn_kept_and_named(send, shop, job):
    answer = send(headers=PART)
    assert answer.status_code == 200
    assert answer.text.count("data-hole=") >= 12
    # 37 1/2 in by pi is 11.94 in (303 mm) across, as a tape with no thickness would have it.
    assert "A tom with one head, 303 mm across (nearest to 12 in) and 200 mm deep." in answer.text
    assert "Batter head: 6 lugs, Corvane round lug, two holes each. 12 holes so far." in answer.text
    assert [drum.name for drum in drums(shop, job)] == ["drum 1"]


def test_eight_numbers_alone_are_drawn(send, shop, job):
    numbers = {name: EIGHT[name] for name in EIGHT if name[-5:] not in ("heads", ".head", "tting")}
    assert len(numbers) == 8
    answer = send.ask.post(f"/jobs/{job}/drums/new", data=numbers, headers=PART)
    assert answer.text.count("data-hole=") >= 12
    assert "Batter head: 6 lugs, two holes each. 12 holes so far." in answer.text
    # No lug is put into the mouth of who has not named one.
    assert "fitting" not in drums(shop, job)[0].kept("survey").table["rows"][0]
    assert re.search(r'offers-lugs"><option value="not in the book yet">', answer.text)
    own = {"drum": drums(shop, job)[0].id, "based_on": "1", "name": "drum 1"}
    chosen = numbers | own | {"rows.0.fitting": "not in the book yet"}
    send.ask.post(f"/jobs/{job}/drums/new", data=chosen, headers=PART)
    assert "fitting" not in drums(shop, job)[0].kept("survey").table["rows"][0]


def test_the_button_without_a_name_says_what_is_missing_and_keeps_what_is_typed(send, shop, job):
    answer = send(name="", done="yes")
    assert answer.status_code == 422
    assert "what the drum is called" in plain(answer.text).lower()
    assert 'value="37 1/2 in"' in answer.text
    assert drums(shop, job) == ()


def folders(ask):
    return re.findall(r'class="job-name"><a href="/jobs/(\w+)">([^<]+)', ask.get("/").text)


def test_a_folder_is_opened_with_the_first_number_and_only_then(send, shop, job):
    ask, label = send.ask, {"number": "8", "client": "", "name": "drum 1", "heads": "2"}
    assert 'value="8"' in ask.get("/drums/new").text
    assert ask.post("/drums/new", data=label, headers=PART).status_code == 200
    assert folders(ask) == [(job, "7")]
    first = ask.post("/drums/new", data=label | {"circumference": "952 mm"}, headers=PART)
    ((new, _),) = [one for one in folders(ask) if one[1] == "8"]
    (drum,) = drums(shop, new)
    assert f'name="job" value="{new}"' in first.text
    assert f'data-goes-on="/jobs/{new}/drums/new?drum={drum.id}"' in first.text
    # Whose it is comes later, and may be put right as long as one likes.
    own = label | {"job": new, "drum": drum.id, "based_on": "1", "label_based_on": "2"}
    ask.post("/drums/new", data=own | {"client": "Nell Ashby", "wall": "5 mm"}, headers=PART)
    assert (new, "8, Nell Ashby") in folders(ask)
    again = ask.get(f"/jobs/{new}/drums/new?drum={drum.id}").text
    assert 'value="5 mm"' in again
    assert 'value="Nell Ashby"' in again
    assert kept_job(shop, new).job["units"] == "mm"


def test_a_label_without_a_number_is_said_at_its_field_and_nothing_is_opened(send):
    bad = {"number": "", "client": "Nell Ashby", "name": "drum 1", "wall": "5 mm"}
    refused = send.ask.post("/drums/new", data=bad | {"done": "yes"})
    assert refused.status_code == 422
    assert 'id="eight-number-fault"' in refused.text
    assert "Nell Ashby" in refused.text
    assert len(folders(send.ask)) == 1


def test_a_number_without_its_unit_is_asked_which_and_offered_mine(send):
    answer = send(headers=PART, depth="200")
    assert "200 what: mm or in?" in answer.text
    assert 'data-writes="200 mm"' in answer.text


def test_the_draw_button_without_a_script_leads_back_to_the_form(send, shop, job):
    answer = send.ask.post(f"/jobs/{job}/drums/new", data=EIGHT)
    (drum,) = drums(shop, job)
    assert answer.headers["location"] == f"/jobs/{job}/drums/new?drum={drum.id}#recognised"
    assert "12 holes so far" in send.ask.get(answer.headers["location"]).text


def test_it_is_kept_once_and_changed_after(send, shop, job):
    first = send(headers=PART, name="small tom")
    (drum,) = drums(shop, job)
    assert f'name="drum" value="{drum.id}"' in first.text
    assert f'data-goes-on="/jobs/{job}/drums/new?drum={drum.id}"' in first.text
    assert 'name="based_on" value="1"' in first.text
    send(headers=PART, name="little tom", drum=drum.id, wall="6 mm", based_on="1")
    (again,) = drums(shop, job)
    assert (again.id, again.name) == (drum.id, "little tom")
    assert again.kept("survey").table["wall"] == "6 mm"


def test_what_another_bench_wrote_meanwhile_is_never_written_over(send, shop, job):
    send(headers=PART, name="small tom")
    (drum,) = drums(shop, job)
    own = {"name": "small tom", "drum": drum.id, "based_on": "1"}
    shed = send.ask.post(
        f"/jobs/{job}/drums/{drum.id}/shell/shell",
        data={"at": "", "based_on": "1", "heads": "1", "depth": "201 mm"},
    )
    assert shed.status_code == 303
    both = send(headers=PART, **own, wall="6 mm")
    assert both.status_code == 409
    assert "201 mm" in both.text
    assert drums(shop, job)[0].kept("survey").table["depth"] == "201 mm"
    assert send(**own, wall="6 mm", keep="theirs").status_code == 303
    assert drums(shop, job)[0].kept("survey").number == 2


def test_a_name_that_another_drum_has_is_refused_at_its_field(send, shop, job):
    send(name="small tom")
    answer = send(headers=PART, name="Small Tom")
    assert "another drum of this job is called so" in plain(answer.text).lower()
    assert len(drums(shop, job)) == 1


def test_a_lug_that_no_book_has_is_written_with_the_drum(send, shop, job):
    answer = send(
        name="small tom", done="yes", **{"rows.0.fitting": "", "_lug_name": "old round lug"}
    )
    assert answer.status_code == 303
    (drum,) = drums(shop, job)
    assert drum.kept("survey").table["rows"][0]["fitting"] == "old round lug"
    (entry,) = drawer(shop)["book"].table["fitting"]
    assert entry["name"] == "old round lug"


def test_the_empty_page_is_no_drum(send, shop, job):
    page = send.ask.get(f"/jobs/{job}/drums/new")
    assert page.status_code == 200
    assert "not read yet" in page.text
    assert drums(shop, job) == ()

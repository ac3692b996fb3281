"""The page of a new drum without a browser."""

from __future__ import annotations

import re

import pytest
from starlette.testclient import TestClient

from counterhoop.bench.folders.folder import drawer, kept_job
from counterhoop.bench.folders.open_folder import open_folder
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite

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
        yield Workshop(store=store, works=WorksAtOnce())


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
    answer = send(name="small tom")
    assert answer.status_code == 303
    (drum,) = drums(shop, job)
    assert answer.headers["location"] == f"/jobs/{job}/drums/{drum.id}/shell"
    assert drum.kept("survey").table["circumference"] == "37 1/2 in"
    assert drum.kept("survey").table["rows"][0]["near"] == ["37.5 mm", "79.5 mm"]


def test_without_a_name_it_is_drawn_and_nothing_is_kept(send, shop, job):
    answer = send(headers=PART)
    assert answer.status_code == 200
    assert answer.text.count("data-hole=") >= 12
    # 37 1/2 in by pi is 11.94 in (303 mm) across, as a tape with no thickness would have it.
    assert "A tom with one head, 303 mm across (nearest to 12 in) and 200 mm deep." in answer.text
    assert "Batter head: 6 lugs, Corvane round lug, two holes each. 12 holes so far." in answer.text
    assert "kept as soon as the drum has a name" in plain(answer.text)
    assert drums(shop, job) == ()


def test_the_button_without_a_name_says_what_is_missing_and_keeps_what_is_typed(send, shop, job):
    answer = send()
    assert answer.status_code == 422
    assert "what the drum is called" in plain(answer.text).lower()
    assert 'value="37 1/2 in"' in answer.text
    assert drums(shop, job) == ()


def test_from_its_name_on_it_is_kept_once_and_changed_after(send, shop, job):
    first = send(headers=PART, name="small tom")
    (drum,) = drums(shop, job)
    assert f'name="drum" id="eight-drum" value="{drum.id}"' in first.text
    assert f'data-goes-on="/jobs/{job}/drums/{drum.id}/shell"' in first.text
    assert 'name="based_on" id="eight-based-on" value="1"' in first.text
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
    answer = send(name="small tom", **{"rows.0.fitting": "", "_lug_name": "old round lug"})
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

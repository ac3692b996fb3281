"""What fits here, as a page. Truth: the worked job's survey and shelf, by hand."""

from __future__ import annotations

import asyncio
import html
import re
from importlib.resources import files

import httpx
import pytest

from counterhoop.bench.demonstration.worked_shelf import put_demo_shelf
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.shelf.whose import key_of
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.shelf.move import set_aside_for
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app
from counterhoop.web.guard import pen
from planned_once import PLANNED

SURVEY = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_bytes()


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    data = tmp_path_factory.mktemp("place") / "data"
    with open_store(address_of(data=data)) as store:
        shop = Workshop(store=store, works=PLANNED)
        put_demo_shelf(shop, by="bench")
        yield shop


@pytest.fixture(scope="module")
def job(shop):
    return take_in(shop, SURVEY, name="survey.toml", book_of=lambda _: b"", by="bench")


@pytest.fixture(scope="module")
def ask(shop):
    app = make_app(shop)

    def answer(method, path, data=None):
        async def once():
            pen._may_write.set(method == "POST")
            inside = httpx.ASGITransport(app=app)
            async with httpx.AsyncClient(transport=inside, base_url="http://bench") as browser:
                return await browser.request(method, path, data=data)

        return asyncio.run(once())

    return answer


def place(shop, job, drum):
    its = next(one for one in kept_job(shop, job).drums if one.name == drum)
    return f"/jobs/{job}/drums/{its.id}/parts/place"


def test_the_holes_of_a_drum_are_there_to_tick(shop, job, ask):
    answer = ask("GET", place(shop, job, "old snare"))
    assert answer.status_code == 200
    assert len(re.findall(r'type="checkbox" name="holes"', answer.text)) == 42
    assert 'href="?holes=33&amp;holes=34"' in answer.text
    assert "Holes of the strainer (missing)" in answer.text


def test_the_lost_strainer_is_found_on_the_shelf_and_set_aside(shop, job, ask):
    address = place(shop, job, "old snare")
    answer = ask("GET", f"{address}?holes=33&holes=34")
    text = html.unescape(answer.text)
    assert "The later strainer stands over this place and comes off for it" in text
    assert "<strong>Corvane lever strainer</strong> hides all but hole 35 and hole 36." in text
    assert "1 free in bin B3" in text
    assert text.index("Corvane lever strainer") < text.index("Quennick roller strainer")
    assert '<svg class="shell-flat"' in text or "<svg" in text
    form = re.search(r'<form class="press" method="post" action="([^"]*)">(.*?)</form>', text)
    values = dict(re.findall(r'name="([^"]*)" value="([^"]*)"', form[2]))
    gone = ask("POST", form[1], values)
    assert gone.status_code == 303
    drum = address.split("/")[4]
    with shop.store.reading() as r:
        (held,) = set_aside_for(r, key_of(job, drum))
    assert (held.kept.piece.number, held.count) == ("W-005", 1)
    # Sent twice it is one; asked for by another form it is gone, and that is said.
    assert ask("POST", form[1], values).status_code == 303
    again = ask("POST", form[1], {**values, "mark": "another"})
    assert again.status_code == 409
    assert "Nothing was set aside: only 0 free" in html.unescape(again.text)


def test_another_is_drawn_when_it_is_asked_for(shop, job, ask):
    address = place(shop, job, "small tom")
    answer = ask("GET", f"{address}?holes=1&holes=2&kind=lug&show=Dunmarrow+bullet+lug")
    text = html.unescape(answer.text)
    assert "Dunmarrow bullet lug, where it hides most" in text
    assert "Enlarge hole 1 from 6.0 mm to 8.0 mm, with a washer behind." in text
    assert "Other rods: it takes M6, those here are 12-24 UNC." in text
    assert "6 free in bin A4" in text


@pytest.mark.parametrize(
    ("query", "status", "says"),
    [
        ("holes=99", 422, "No such hole on this drum"),
        ("holes=1&holes=7", 422, "Too far apart for one fitting"),
        ("holes=1&holes=2&kind=lug&takes=wide", 422, "wide"),
        ("holes=x&kind=nothing&turn=sideways", 200, "Which holes"),
        ("holes=1&holes=2&kind=damper", 200, "Nothing goes on as it is."),
    ],
)
def test_what_cannot_be_is_said_and_what_was_chosen_stays(shop, job, ask, query, status, says):
    answer = ask("GET", f"{place(shop, job, 'small tom')}?{query}")
    assert answer.status_code == status
    assert says in html.unescape(answer.text)
    if "takes=wide" in query:
        assert 'value="wide"' in answer.text
        assert re.search(r'value="1" checked', answer.text)

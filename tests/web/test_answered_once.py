"""A form sent again with its mark; truth: the two answers are alike, and one thing is written."""

from __future__ import annotations

import asyncio
import re

import httpx
import pytest
from starlette.applications import Starlette
from starlette.responses import PlainTextResponse
from starlette.routing import Route

from counterhoop.web.answered_once import FIELD, MOST_ANSWERS, AnsweredOnce, new_mark
from counterhoop.web.look.jinja import templates

HEADER = "X-Sent-Once"
FORM = re.compile(r'<form\b[^>]*? method="post".*?</form>', re.DOTALL)
UNMARKED = {
    # Files: no two sendings of them are alike.
    "first.html", "photographs.html", "taps_form.html", "dated_features.html",
    # A photograph may go with what was found.
    "change.html",
    # Photographs, and movements, of which the store itself knows those that it has.
    "shelf_piece.html",
    # Its answer holds a secret, which is kept nowhere.
    "let_in.html",
}  # fmt: skip


@pytest.fixture
def written():
    return []


@pytest.fixture
def app(written):
    async def write(request):
        await asyncio.sleep(0.01)
        if "refused" in request.query_params:
            written.append("refused")
            return PlainTextResponse("no", status_code=422)
        written.append(await request.body())
        return PlainTextResponse(f"hole {len(written)}", headers={"x-at": str(len(written))})

    app = Starlette(routes=[Route("/holes", write, methods=["POST"])])
    app.add_middleware(AnsweredOnce)
    return app


def sent(app, *marks, path="/holes", at_once=False):
    return answered(
        app,
        *[{"headers": {HEADER: mark} if mark else {}} for mark in marks],
        path=path,
        at_once=at_once,
    )


def answered(app, *sendings, path="/holes", at_once=False):
    async def all_of_them():
        inside = httpx.ASGITransport(app=app)
        async with httpx.AsyncClient(transport=inside, base_url="http://bench") as browser:
            plain = {"data": {"dia": "5 mm"}}
            asked = [browser.post(path, **(plain | one)) for one in sendings]
            if at_once:
                return await asyncio.gather(*asked)
            return [await one for one in asked]

    return [
        (one.status_code, one.text, one.headers.get("x-at")) for one in asyncio.run(all_of_them())
    ]


@pytest.mark.parametrize("at_once", [False, True])
def test_the_same_mark_is_answered_as_at_first_and_written_once(app, written, at_once):
    first, second = sent(app, "aa", "aa", at_once=at_once)
    assert first == second == (200, "hole 1", "1")
    assert len(written) == 1


def test_another_mark_or_none_is_another_form(app, written):
    answers = sent(app, "aa", "bb", "", "")
    assert [text for _, text, _ in answers] == ["hole 1", "hole 2", "hole 3", "hole 4"]


def test_what_was_refused_is_tried_anew(app, written):
    sent(app, "aa", "aa", path="/holes?refused")
    assert written == ["refused", "refused"]


def test_old_answers_are_let_go(app, written):
    sent(app, "aa", *(str(number) for number in range(MOST_ANSWERS)), "aa")
    assert len(written) == MOST_ANSWERS + 2


def by_browser(mark, dia="5 mm"):
    return {"data": {"dia": dia, FIELD: mark}}


@pytest.mark.parametrize("at_once", [False, True])
def test_a_button_hit_twice_on_a_page_without_a_script_writes_once(app, written, at_once):
    mark = new_mark()
    first, second = answered(app, by_browser(mark), by_browser(mark), at_once=at_once)
    assert first == second == (200, "hole 1", "1")
    assert written == [f"dia=5+mm&{FIELD}={mark}".encode()]


def test_the_same_page_with_other_words_or_another_page_is_another_form(app, written):
    mark = new_mark()
    answered(app, by_browser(mark), by_browser(mark, dia="6 mm"), by_browser(new_mark()))
    assert len(written) == 3


def test_what_a_script_sends_goes_by_the_mark_of_its_sending_alone(app, written):
    """A button that a script presses twice may mean it: done, and not done after all."""
    twice = by_browser(new_mark()) | {"headers": {"HX-Request": "true"}}
    answered(app, twice, twice)
    assert len(written) == 2


@pytest.mark.parametrize("kind", ["multipart/form-data; boundary=x", "text/plain"])
def test_what_is_no_plain_form_is_passed_on_unread(app, written, kind):
    sending = {"data": None, "content": f"{FIELD}=aa", "headers": {"content-type": kind}}
    answered(app, sending, sending)
    assert written == [f"{FIELD}=aa".encode()] * 2


def test_every_form_that_a_page_sends_without_a_script_has_its_mark():
    loader = templates().loader
    names = [name for name in loader.list_templates() if name.endswith(".html")]
    forms = [
        (name, form) for name in names for form in FORM.findall(loader.get_source(None, name)[0])
    ]
    assert len(forms) > 20
    without = {name for name, form in forms if "once()" not in form and "unseen(" not in form}
    assert without == UNMARKED
    assert re.search(f'name="{FIELD}" value="[\\w-]+"', str(templates().globals["p"].unseen({})))

"""A form sent again with its mark; truth: the two answers are alike, and one thing is written."""

from __future__ import annotations

import asyncio

import httpx
import pytest
from starlette.applications import Starlette
from starlette.responses import PlainTextResponse
from starlette.routing import Route

from counterhoop.web.answered_once import MOST_ANSWERS, AnsweredOnce


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
    async def all_of_them():
        inside = httpx.ASGITransport(app=app)
        async with httpx.AsyncClient(transport=inside, base_url="http://bench") as browser:
            headers = [{"X-Sent-Once": mark} if mark else {} for mark in marks]
            asked = [browser.post(path, data={"dia": "5 mm"}, headers=one) for one in headers]
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
